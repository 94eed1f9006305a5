using Reckoner.Datapaths;

namespace Reckoner.Explaining;

/// <summary>What, taken together, gives just what was got.</summary>
/// <param name="Mishaps">In the order of the rows; those of the whole table first. Empty where nothing is wrong.</param>
public sealed record Explanation(IReadOnlyList<Mishap> Mishaps)
{
    /// <param name="way">The way it was worked: the machine's own, or another.</param>
    /// <param name="operands">The bits that were worked with, which are others where operands were misread.</param>
    /// <param name="bits">How much it takes to say it: the less, the likelier.</param>
    internal Explanation(Way way, ulong[] operands, IReadOnlyList<Mishap> mishaps, double bits)
        : this(mishaps)
    {
        Way = way;
        Operands = operands;
        Bits = bits;
    }

    public int Causes => Mishaps.Count;

    /// <summary>The machine by which it was worked: another than was asked about, or one with a slip.</summary>
    public IMachine Machine => Way.Datapath.Machine;

    /// <summary>
    /// Where it is about the whole of the work, the first cycle in which its registers are others than the right ones, 0 for the
    /// load; null where they never are, where it is about a row, or where the machine lacks a register.
    /// </summary>
    public int? FirstSeen { get; internal init; }

    internal Way Way { get; } = null!;
    internal ulong[] Operands { get; } = [];
    internal double Bits { get; }

    /// <summary>Whether it was worked another way which is right too, so that no mishap names it.</summary>
    internal bool IsAnotherWay(Ways ways) =>
        Way != ways.Right && !Mishaps.Any(m => m is WorkedOtherwise or Slipped { Extent: not SlipExtent.InRows });

    /// <summary>Whether it is about the whole of the work, so that it says what other operands would give.</summary>
    public bool IsThroughout =>
        Mishaps.All(m => m is WorkedOtherwise or Misread or Slipped { Extent: SlipExtent.Throughout });

    /// <summary>What it makes of other operands; null where these cannot be misread so.</summary>
    internal ulong[]? Final(Ways ways, ulong[] operands)
    {
        var reading = Mishaps.OfType<Misread>().FirstOrDefault()?.Reading;
        var read = reading is null ? operands : reading.Of(ways.Datapath, operands);
        return read is null ? null : Way.Final(read);
    }

    /// <summary>With the first cycle in which it shows.</summary>
    /// <param name="right">The right table.</param>
    internal Explanation Placed(Ways ways, IReadOnlyList<UInt128> right)
    {
        if (!IsThroughout || Way.LacksRegister)
        {
            return this;
        }
        var table = Way.Table(Operands);
        var first = Enumerable
            .Range(0, Math.Max(table.Count, right.Count))
            .FirstOrDefault(i => i >= table.Count || i >= right.Count || (table[i] & ways.Layout.Mask) != right[i], -1);
        return this with { FirstSeen = first < 0 ? null : first };
    }
}
