using Reckoner.Conditions;

namespace Reckoner.Choosing;

/// <summary>Operands of equal difficulty: as many cycles, and each outcome of each decision equally often.</summary>
/// <param name="Outcomes">
/// How often each outcome comes about, named as a condition names it; those left out that come out alike for all operands.
/// </param>
public sealed record EqualClass(int Cycles, IReadOnlyList<(string Text, int Times)> Outcomes)
{
    /// <summary>Places among the candidates, smallest operands first.</summary>
    internal IReadOnlyList<int> Members { get; init; } = [];

    public int Size => Members.Count;

    internal int Happening => Outcomes.Count(o => o.Times > 0);

    /// <summary>In how many cycles and outcomes another class differs.</summary>
    internal int Distance(EqualClass other) =>
        Math.Abs(Cycles - other.Cycles) + Outcomes.Zip(other.Outcomes, (a, b) => Math.Abs(a.Times - b.Times)).Sum();

    /// <summary>A condition that the operands of this class alone show.</summary>
    /// <param name="withCycles">Where the number of cycles is not the same for all operands.</param>
    public string Condition(bool withCycles)
    {
        var parts = Outcomes
            .Select(o => (Condition)new HappensTimes(Occasion.Of(o.Text), Amount(o.Times)))
            .Prepend(new TakesCycles(Amount(Cycles)))
            .Skip(withCycles ? 0 : 1)
            .ToList();
        return parts.Count == 1 ? $"{parts[0]}" : $"{new Combined(Joint.And, parts)}";
    }

    private static Amount Amount(int times) => new(times == 0 ? Bound.AtMost : Bound.Exactly, times);
}
