namespace Reckoner.Drawing;

/// <summary>A line of a sum by hand.</summary>
/// <param name="Digits">What stands there, most significant first.</param>
/// <param name="Place">The place of its last digit; 0 are the ones.</param>
/// <param name="Sign">What stands before it: minus, plus, times.</param>
/// <param name="RuleBelow">Whether a line is drawn below it.</param>
/// <param name="When">The cycles that did it, in words; empty where no single ones did.</param>
/// <param name="What">What they did.</param>
/// <param name="Cycles">The cycles that did it; null where no single ones did.</param>
internal sealed record HandLine(
    string Digits,
    int Place,
    string Sign,
    bool RuleBelow,
    string When,
    string What,
    CycleSpan? Cycles
)
{
    /// <summary>Its first digit's place.</summary>
    public int Top => Place + Digits.Length - 1;

    /// <summary>The last cycle that did it.</summary>
    public int? Cycle => Cycles?.To;
}

/// <summary>A sum by hand in a base: the lines below its head.</summary>
/// <param name="First">The digits of the first operand; so <paramref name="Second"/> and <paramref name="Result"/>.</param>
internal sealed record HandLines(
    string First,
    string Second,
    string Result,
    IReadOnlyList<int?> ResultCycles,
    IReadOnlyList<HandLine> Lines
)
{
    /// <summary>The digits that the second operand is taken for, where those are others than it is written with.</summary>
    public IReadOnlyList<HandDigit> Recoded { get; init; } = [];

    /// <summary>The signs of the operands below zero; else empty.</summary>
    public string FirstSign { get; init; } = "";
    public string SecondSign { get; init; } = "";

    /// <summary>What the cycles before the first line do, in words; empty where there are none.</summary>
    public string Before { get; init; } = "";

    /// <summary>The last cycle that it tells of; 0 where it tells of none.</summary>
    public int LastBefore { get; init; }

    /// <summary>Whether the lines are what cycles of the machine did.</summary>
    public bool AreOfCycles { get; init; } = true;

    /// <summary>How many places it takes, signs included.</summary>
    public int Places =>
        new[]
        {
            First.Length + FirstSign.Length,
            Second.Length + SecondSign.Length,
            Result.Length,
            Lines.Max(l => l.Top + 1),
        }.Max();
}
