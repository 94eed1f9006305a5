using System.Numerics;

namespace Reckoner.Diagnostics;

/// <summary>What could be asked instead of what was refused.</summary>
internal enum AdviceKind
{
    /// <summary>The same at these widths.</summary>
    Widths,

    /// <summary>Another machine: no width of this one does.</summary>
    OtherMachine,

    /// <summary>The same at a smaller width.</summary>
    Narrower,

    /// <summary>A sample of so many operands instead of all.</summary>
    Sample,

    /// <summary>A proof for every operand at every width.</summary>
    Prove,

    /// <summary>All operands in so many parts, whose results are added up.</summary>
    Parts,

    /// <summary>A value for each of these operands.</summary>
    NameOperands,
}

/// <summary>
/// What could be asked instead, as data. It stands in a diagnostic as a fact; each front puts its own words in its place: an
/// option, a field to fill in. Where none does, <see cref="Words.Vocabulary"/> says it in words that fit everywhere.
/// </summary>
internal sealed record Advice(AdviceKind Kind)
{
    /// <summary>For <see cref="AdviceKind.Widths"/>: widths by name, those that change.</summary>
    public IReadOnlyList<(string Name, BigInteger Value)> Widths { get; private init; } = [];

    /// <summary>How many operands a sample has, or how many parts there are; else 0.</summary>
    public int Count { get; private init; }

    /// <summary>For <see cref="AdviceKind.NameOperands"/>: the machine, and its operands in the order of the text.</summary>
    public (string Machine, IReadOnlyList<string> Names) Operands { get; private init; } = ("", []);

    public static Advice AtWidth(string name, BigInteger value) => new(AdviceKind.Widths) { Widths = [(name, value)] };

    public static Advice Sample(int count) => new(AdviceKind.Sample) { Count = count };

    public static Advice Parts(int of) => new(AdviceKind.Parts) { Count = of };

    public static Advice NameOperands(string machine, IReadOnlyList<string> names) =>
        new(AdviceKind.NameOperands) { Operands = (machine, names) };

    /// <summary>In words that fit every front.</summary>
    internal Term Neutral =>
        Kind switch
        {
            AdviceKind.Widths => new Term("advice.widths", ("widths", Numbers.WidthText.Of(Widths))),
            AdviceKind.OtherMachine => new Term("advice.other-machine"),
            AdviceKind.Narrower => new Term("advice.narrower"),
            AdviceKind.Sample => new Term("advice.sample", ("count", Count)),
            AdviceKind.Prove => new Term("advice.prove"),
            AdviceKind.Parts => new Term("advice.parts", ("of", Count)),
            AdviceKind.NameOperands => new Term("advice.name-operands", ("operands", Operands.Names)),
        };
}
