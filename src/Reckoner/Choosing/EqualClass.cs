using Reckoner.Conditions;

namespace Reckoner.Choosing;

/// <summary>The least and the most of a number.</summary>
public readonly record struct Extent(int Least, int Most)
{
    public static Extent Of(IEnumerable<int> numbers)
    {
        var (least, most) = (int.MaxValue, int.MinValue);
        foreach (var number in numbers)
        {
            (least, most) = (Math.Min(least, number), Math.Max(most, number));
        }
        return new Extent(least, most);
    }
}

/// <summary>The work that operands of equal difficulty have in common, besides their decisions.</summary>
/// <param name="LongestCarry">
/// The longest run of carries or borrows, in places: they differ by one at most. Null where the machine adds nothing.
/// </param>
/// <param name="Carries">Places that give a carry or borrow: they differ by less than the widest adder has places.</param>
/// <param name="Digits">Decimal digits of operands and results together: they differ by one at most.</param>
/// <param name="Exposed">Slips that are exposed: they differ by one at most. Null where slips are too many to be tried.</param>
public sealed record EqualWork(Extent? LongestCarry, Extent Carries, Extent Digits, Extent? Exposed);

/// <summary>
/// Operands of equal difficulty: as many cycles, as many of them deciding the same, and the same work but for what
/// <see cref="EqualWork"/> leaves open.
/// </summary>
/// <param name="Outcomes">
/// How often each outcome comes about, named as a condition names it; those left out that come out alike for all operands.
/// </param>
public sealed record EqualClass(int Cycles, IReadOnlyList<(string Text, int Times)> Outcomes, EqualWork Work)
{
    /// <summary>Places among the candidates, smallest operands first.</summary>
    internal IReadOnlyList<int> Members { get; init; } = [];

    public int Size => Members.Count;

    internal int Happening => Outcomes.Count(o => o.Times > 0);

    /// <summary>In how many cycles, outcomes, places and digits another class differs.</summary>
    internal int Distance(EqualClass other) =>
        Math.Abs(Cycles - other.Cycles)
        + Outcomes.Zip(other.Outcomes, (a, b) => Math.Abs(a.Times - b.Times)).Sum()
        + Apart(Work.LongestCarry ?? default, other.Work.LongestCarry ?? default)
        + Apart(Work.Carries, other.Work.Carries)
        + Apart(Work.Digits, other.Work.Digits)
        + Apart(Work.Exposed ?? default, other.Work.Exposed ?? default);

    private static int Apart(Extent a, Extent b) => Math.Max(0, Math.Max(a.Least - b.Most, b.Least - a.Most));

    /// <summary>A condition that the operands of this class show, and others of the same decisions.</summary>
    /// <param name="withCycles">Where the number of cycles is not the same for all operands.</param>
    public string Condition(bool withCycles)
    {
        var parts = Outcomes
            .Select(o => (Condition)new HappensTimes(Occasion.Of(o.Text), Amount(o.Times)))
            .Prepend(new TakesCycles(Amount(Cycles)))
            .Skip(withCycles ? 0 : 1)
            .ToList();
        return parts.Count switch
        {
            0 => $"{new Always()}",
            1 => $"{parts[0]}",
            _ => $"{new Combined(Joint.And, parts)}",
        };
    }

    private static Amount Amount(int times) => new(times == 0 ? Bound.AtMost : Bound.Exactly, times);
}
