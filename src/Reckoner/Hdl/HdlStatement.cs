using Reckoner.Datapaths;

namespace Reckoner.Hdl;

internal enum HdlStatementKind
{
    /// <summary>Parts, the first on top, take a word.</summary>
    Set,
    If,

    /// <summary>The first way whose patterns match acts; one without any always does.</summary>
    Case,
    Remark,
}

/// <summary>A statement of hardware text; they act one after the other, a later one on what an earlier one left.</summary>
internal sealed record HdlStatement(HdlStatementKind Kind)
{
    public IReadOnlyList<HdlWord> Targets { get; private init; } = [];

    /// <summary>What is taken, or asked.</summary>
    public HdlWord? Word { get; private init; }

    /// <summary>Of an if: what is done where it is so, then where not.</summary>
    public IReadOnlyList<HdlWay> Ways { get; private init; } = [];

    public string Text { get; private init; } = "";

    /// <summary>It and every statement inside it.</summary>
    public IEnumerable<HdlStatement> All => Ways.SelectMany(w => w.Does).SelectMany(s => s.All).Prepend(this);

    public static HdlStatement Set(IReadOnlyList<HdlWord> targets, HdlWord word) =>
        new(HdlStatementKind.Set) { Targets = targets, Word = word };

    public static HdlStatement If(
        HdlWord condition,
        IReadOnlyList<HdlStatement> then,
        IReadOnlyList<HdlStatement> otherwise
    ) => new(HdlStatementKind.If) { Word = condition, Ways = [new([], then), new([], otherwise)] };

    public static HdlStatement Case(HdlWord subject, IReadOnlyList<HdlWay> ways) =>
        new(HdlStatementKind.Case) { Word = subject, Ways = ways };

    public static HdlStatement Remark(string text) => new(HdlStatementKind.Remark) { Text = text };
}

/// <param name="Patterns">Empty where it acts whatever the word is.</param>
internal sealed record HdlWay(IReadOnlyList<Pattern> Patterns, IReadOnlyList<HdlStatement> Does);
