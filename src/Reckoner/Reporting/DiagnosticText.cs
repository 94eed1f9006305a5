using System.Text;
using Reckoner.Diagnostics;
using Reckoner.Words;

namespace Reckoner.Reporting;

/// <summary>
/// Diagnostics as they are read: where and what kind on one line, the words with the place between ‹ and ›, what was found,
/// what to try, near names.
/// </summary>
internal static class DiagnosticText
{
    private const int MostShown = 20;
    private const int LongestFact = 160;
    private const string Indent = "   ";
    private const string CommandLine = "place.request";

    /// <summary>All of them, errors first counted at the end; lines end in line feeds.</summary>
    /// <param name="asked">What is called the place of what is wrong in no text: by its key among the words.</param>
    public static string Of(
        IReadOnlyList<Diagnostic> diagnostics,
        Vocabulary words,
        int columns,
        string asked = CommandLine
    )
    {
        var text = new StringBuilder();
        foreach (var diagnostic in diagnostics.Take(MostShown))
        {
            text.Append(Of(diagnostic, words, columns, asked)).Append('\n');
        }
        if (diagnostics.Count > MostShown)
        {
            text.Append(words.Say("found.more", ("count", diagnostics.Count - MostShown))).Append('\n');
        }
        var errors = diagnostics.Count(d => d.Severity == Severity.Error);
        if (errors > 1 && diagnostics[0].Source is { IsRequest: false } source)
        {
            text.Append(words.Say("found.errors", ("count", errors), ("source", source.Name))).Append('\n');
        }
        return text.ToString();
    }

    public static string Of(Diagnostic diagnostic, Vocabulary words, int columns, string asked = CommandLine)
    {
        var text = new StringBuilder();
        text.Append(Heading(diagnostic, words, columns, asked)).Append('\n');
        if (
            diagnostic.Source is { } source
            && Quoted(source, diagnostic.Span, columns - 2 * Indent.Length) is { Length: > 0 } quoted
        )
        {
            text.Append(Indent).Append(Indent).Append(quoted).Append('\n');
        }
        foreach (var sentence in Sentences(diagnostic, words))
        {
            foreach (var line in Wrapping.Lines(sentence, columns - Indent.Length))
            {
                text.Append(Indent).Append(line).Append('\n');
            }
        }
        // Names of files and words of a request are anybody's; in what is quoted a dot keeps the mark in its place.
        return HiddenCharacters.Dotted(text.ToString());
    }

    /// <summary>What was found, near names if there are any, what to try.</summary>
    public static IEnumerable<string> Sentences(Diagnostic diagnostic, Vocabulary words)
    {
        var key = $"diagnostic.{diagnostic.Id}";
        IReadOnlyList<Fact> facts = [.. diagnostic.Facts.Select(Shortened)];
        yield return words.Say(key, facts);
        var near = diagnostic.Facts.FirstOrDefault(f => f.Name == "near").Value as IReadOnlyList<string> ?? [];
        if (near.Count > 0)
        {
            yield return words.Say("near", ("names", near));
        }
        else
        {
            yield return words.Say(key + ".try", facts);
        }
    }

    /// <summary>A value as it is written may fill a page; its beginning is enough to know it by.</summary>
    private static Fact Shortened(Fact fact) =>
        fact.Value is string { Length: > LongestFact } text ? new Fact(fact.Name, Excerpt.Of(text, LongestFact)) : fact;

    private static string Heading(Diagnostic diagnostic, Vocabulary words, int columns, string asked)
    {
        var place = diagnostic.Source is null or { IsRequest: true }
            ? words.Say(asked)
            : words.Say("place.line", ("line", diagnostic.Line), ("source", diagnostic.Source.Name));
        var gap = Math.Max(2, columns - Wrapping.Columns(place) - diagnostic.Id.Name.Length);
        return place + new string(' ', gap) + diagnostic.Id.Name;
    }

    /// <summary>The line with the place marked; of a long line the stretch around the place.</summary>
    private static string Quoted(Source source, Span span, int columns)
    {
        var line = source.LineSpan(source.LineOf(span.Start));
        var start = Math.Min(span.Start, line.End);
        var end = Math.Clamp(span.End, start, line.End);
        var (before, marked, after) = (
            source[new Span(line.Start, start)].Replace('\t', ' '),
            source[new Span(start, end)].Replace('\t', ' '),
            source[new Span(end, line.End)].Replace('\t', ' ')
        );
        if (string.IsNullOrWhiteSpace(before + marked + after))
        {
            return "";
        }
        before = before.TrimStart();
        after = after.TrimEnd();
        var room = Math.Max(10, columns - 2);
        if (marked.Length > room - 4)
        {
            marked = string.Concat(marked.AsSpan(0, Math.Max(1, room - 5)), "…");
        }
        var beside = room - marked.Length;
        if (before.Length + after.Length > beside)
        {
            var left = Math.Min(before.Length, Math.Max(beside / 2, beside - after.Length));
            before = left < before.Length ? "…" + before[^Math.Max(0, left - 1)..] : before;
            var right = Math.Max(0, beside - before.Length);
            after = right < after.Length ? string.Concat(after.AsSpan(0, Math.Max(0, right - 1)), "…") : after;
        }
        return $"{before}‹{marked}›{after}".TrimEnd();
    }
}
