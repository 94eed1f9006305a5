using Reckoner.Datapaths;
using Reckoner.Structure;

namespace Reckoner.Drawing;

internal enum BlockPieceKind
{
    /// <summary>A register as the cycle finds it.</summary>
    Register,

    Unit,

    /// <summary>Words of which one goes on, each a strip.</summary>
    Choice,

    Table,

    /// <summary>What a register holds behind the edge: no second register.</summary>
    After,
}

/// <summary>One of the words that are chosen from.</summary>
/// <param name="When">What the deciding bits are then, or the condition in words; empty where there is only one.</param>
/// <param name="Decides">What must be so, in a cycle.</param>
internal sealed record Arm(string When, Bundle Word, Func<Func<Bundle, System.Numerics.BigInteger>, bool> Decides)
{
    /// <summary>What the unit is told whose word it is, where it is told several things.</summary>
    public UnitSetting? Told { get; init; }
}

/// <summary>Something that stands on a sheet of blocks as a bar, its bits to scale.</summary>
internal sealed class BlockPiece(BlockPieceKind kind, int width)
{
    public BlockPieceKind Kind { get; } = kind;
    public int Width { get; } = width;

    public Register? Register { get; init; }
    public Unit? Unit { get; init; }

    /// <summary>What a unit is told on this sheet.</summary>
    public IReadOnlyList<UnitSetting> Settings { get; init; } = [];

    /// <summary>The nets that it gives.</summary>
    public IReadOnlyList<Net> Gives { get; init; } = [];

    public IReadOnlyList<Arm> Arms { get; init; } = [];

    /// <summary>What decides among the arms, where that is one word.</summary>
    public Bundle? Question { get; init; }

    /// <summary>What a register stores, or what a table is asked.</summary>
    public Bundle? Word { get; init; }

    /// <summary>What a table is asked and what for, in words; empty for all else.</summary>
    public string Said { get; init; } = "";

    /// <summary>The unit's operand among which this chooses; null for other choices.</summary>
    public (Unit Unit, int Operand)? Serves { get; init; }

    /// <summary>Whether its bits go into a register, and not only into decisions.</summary>
    public bool IsCarried { get; set; }

    // ---- where it stands

    public double X { get; set; }
    public double Y { get; set; }
    public double Height { get; set; }

    /// <summary>As broad as its bits, and never so narrow that it cannot be seen.</summary>
    public double Breadth { get; set; }

    public Box Box => new(X, Y, Breadth, Height);
    public double Bottom => Y + Height;
}
