using Reckoner.Claims;
using Reckoner.Datapaths;
using Reckoner.Diagnostics;
using Reckoner.Notation;

namespace Reckoner.Editing;

/// <summary>A word that may stand at a place of a description. <see cref="Named"/> is null for words of the notation and functions.</summary>
internal readonly record struct Offer(string Text, Named? Named, bool IsFunction);

/// <summary>The words that may stand at a place: by what stands before it on its line.</summary>
internal static class Offers
{
    /// <param name="machines">The names of machines that can be named here.</param>
    public static IEnumerable<Offer> At(Mentions mentions, int position, IEnumerable<string> machines)
    {
        var source = mentions.Description.Source;
        var line = source.LineSpan(source.LineOf(position));
        var before = source[new Span(line.Start, Math.Clamp(position, line.Start, line.End))];
        var tokens = Lexer.Read(new Source("", before), new Report(null)).Tokens;
        var words = tokens.Where(t => t.Kind is not (TokenKind.LineEnd or TokenKind.End)).ToList();
        // The word that is being typed stands at the end, without a blank behind it.
        if (
            words.Count > 0
            && words[^1].Span.End == before.Length
            && words[^1].Kind is TokenKind.Name or TokenKind.Keyword
        )
        {
            words.RemoveAt(words.Count - 1);
        }
        if (IsInsideText(before))
        {
            return [];
        }
        if (words.Count == 0)
        {
            return Beginnings(mentions, position);
        }
        if (words.Count == 1 && words[0].Is("follows") || words[^1].Is("core"))
        {
            return machines.Select(m => new Offer(m, null, false));
        }
        return Names(mentions, position)
            .Concat(Operations.FunctionNames.Concat(Functions.Names).Distinct().Select(f => new Offer(f, null, true)))
            .Concat(Keywords.Between.Select(k => new Offer(k, null, false)));
    }

    /// <summary>In a comment or a phrase nothing is offered.</summary>
    private static bool IsInsideText(string before) =>
        before.Count(c => c == '"') % 2 == 1 || before.Contains("--", StringComparison.Ordinal);

    /// <summary>What a line begins with: a declaration, in a schedule also a statement or what it assigns to.</summary>
    private static IEnumerable<Offer> Beginnings(Mentions mentions, int position)
    {
        var isSchedule = mentions.Description.Declarations.Any(d =>
            d is StepBlock or RepeatBlock && d.Span.Start < position
        );
        var statements = isSchedule ? Keywords.Statements : Enumerable.Empty<string>();
        var targets = isSchedule
            ? Names(mentions, position).Where(o => o.Named!.Kind is NamedKind.Register or NamedKind.Part)
            : [];
        return Keywords
            .Declarations.Union(statements)
            .Order(StringComparer.Ordinal)
            .Select(k => new Offer(k, null, false))
            .Concat(targets);
    }

    private static IEnumerable<Offer> Names(Mentions mentions, int position) =>
        mentions.VisibleAt(position).DistinctBy(n => n.Name).Select(n => new Offer(n.Name, n, false));
}
