using Reckoner.Datapaths;
using Reckoner.Numbers;
using Reckoner.Structure;

namespace Reckoner.Costing;

/// <summary>Kinds of hardware that area is counted by.</summary>
public enum CostKind
{
    Registers,

    /// <summary>Choices in front of registers, among what steps store there and what they hold.</summary>
    RegisterInputs,
    Unit,

    /// <summary>Choices in front of the inputs of units.</summary>
    UnitInputs,

    /// <summary>Choices that the text asks for.</summary>
    Choices,

    /// <summary>Gates bit by bit, and comparisons with what needs no unit.</summary>
    Gates,
    Tables,

    /// <summary>The round counter: a register bit and a half adder for each place.</summary>
    Counter,
}

/// <summary>What a part of the hardware takes.</summary>
/// <param name="Unit">The unit, where it is one.</param>
/// <param name="Bits">Register bits, bits chosen between two words, gates, cells of tables; of a unit its width.</param>
public sealed record CostPart(CostKind Kind, Unit? Unit, long Bits, long Area);

/// <summary>What a machine costs at its widths: area by part, the longest path of each cycle, the clock they allow.</summary>
public sealed record MachineCost
{
    internal MachineCost() { }

    public required Datapath Datapath { get; init; }

    /// <summary>What was counted; it takes longer to find than to count.</summary>
    internal MachineStructure Structure { get; init; } = null!;
    public required CostModel Model { get; init; }
    public required AdderChoice Adders { get; init; }

    /// <summary>Parts that take area.</summary>
    public required IReadOnlyList<CostPart> Parts { get; init; }

    /// <summary>The load first, then every step, then every loop that may stop early.</summary>
    public required IReadOnlyList<StepPath> Paths { get; init; }

    /// <summary>Fewest and most clock edges after the load, by the bounds of the loops.</summary>
    public required (int Least, int Most) Cycles { get; init; }

    /// <summary>Over all operands inside "given"; null where that was not counted, or where every operation takes as many.</summary>
    public Rational? AverageCycles { get; init; }

    /// <summary>What changes while it works; null where nobody asked.</summary>
    public Activity? Activity { get; init; }

    /// <summary>The clock times the cycles on average.</summary>
    public Rational? AverageTime => AverageCycles * Clock;

    public long Area => Parts.Sum(p => p.Area);

    /// <summary>The longest of the longest paths, the load's too.</summary>
    public int Clock => Paths.Max(p => p.Delay);

    /// <summary>The first of the paths that take as long as the clock.</summary>
    public StepPath Critical => Paths.First(p => p.Delay == Clock);

    /// <summary>The clock times the cycles.</summary>
    public (long Least, long Most) Time => ((long)Clock * Cycles.Least, (long)Clock * Cycles.Most);
}
