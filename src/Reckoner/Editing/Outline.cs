using Reckoner.Notation;

namespace Reckoner.Editing;

/// <summary>What a description consists of, as a tree of names: steps hold their wires, tables their indices.</summary>
/// <param name="Said">How it is spoken of; empty where nothing is said.</param>
internal sealed record OutlineItem(Named Named, Span Whole, string Said, IReadOnlyList<OutlineItem> Inside)
{
    public static IReadOnlyList<OutlineItem> Of(Mentions mentions, string language)
    {
        var inner = mentions.All.Where(n => n.Kind is NamedKind.Wire or NamedKind.Index).ToList();
        return
        [
            .. mentions
                .All.Except(inner)
                .Select(n => new OutlineItem(
                    n,
                    Covering(n),
                    n.Phrase?.In(language) ?? "",
                    [.. inner.Where(i => IsInside(i, n)).Select(i => new OutlineItem(i, Covering(i), "", []))]
                )),
        ];
    }

    private static bool IsInside(Named inner, Named outer) =>
        outer.Kind is NamedKind.Step or NamedKind.Table
        && outer.Line.Span.Start <= inner.Place.Start
        && inner.Place.End <= Covering(outer).End;

    /// <summary>The sentence with all that belongs to it; editors want the name inside it.</summary>
    private static Span Covering(Named named)
    {
        var span = Span.Covering(named.Line.Span, named.Place);
        return named.Line is StepBlock step && step.Moments.SelectMany(m => m.Statements).LastOrDefault() is { } last
            ? Span.Covering(span, last.Span)
            : span;
    }
}
