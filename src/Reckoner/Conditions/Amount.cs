using System.Globalization;

namespace Reckoner.Conditions;

public enum Bound
{
    Exactly,
    AtLeast,
    AtMost,
}

/// <summary>A whole number from 0 on, or a width or constant of the machine that is one.</summary>
/// <param name="Name">Null for a number.</param>
/// <param name="Number">What the name stands for at the machine's widths.</param>
public readonly record struct Count(string? Name, int Number)
{
    public static implicit operator Count(int number) => new(null, number);

    public override string ToString() => Name ?? Number.ToString(CultureInfo.InvariantCulture);
}

/// <summary>How many.</summary>
public readonly record struct Amount(Bound Bound, Count Count)
{
    public bool Holds(int count) =>
        Bound switch
        {
            Bound.Exactly => count == Count.Number,
            Bound.AtLeast => count >= Count.Number,
            Bound.AtMost => count <= Count.Number,
        };
}
