using System.Text.RegularExpressions;
using Reckoner.Diagnostics;
using Reckoner.Running;
using Reckoner.Words;

namespace Reckoner.Documents.Lessons;

/// <summary>
/// Reads what is declared at the top of a lesson: between two lines of three hyphens, a line for each thing, its word, a colon
/// and what it is.
/// </summary>
internal static partial class HeaderReader
{
    private const string Fence = "---";

    /// <summary>The words that a line of the header begins with.</summary>
    public static IReadOnlyList<string> Keys { get; } =
    [
        "title",
        "machine",
        "width",
        "operands",
        "style",
        "language",
        "paper",
        "author",
        "licence",
        "identifier",
        "name",
        "form",
        "shows",
        "sides",
    ];

    /// <summary>The header, and where the text behind it begins.</summary>
    internal static (LessonHeader Header, int End) Read(Source source, Report report)
    {
        var said = new Dictionary<string, RequestWord>();
        if (Line(1) is not Fence)
        {
            // A lesson needs no header; but a line as in one was meant for one.
            if (Keys.Contains(Form().Match(Line(1)).Groups["key"].Value))
            {
                report.Add(Id.LessonHeader, source.LineSpan(1), ("keys", Keys));
            }
            return (Header(said), 0);
        }
        var lines = source.LineOf(source.Text.Length);
        for (var number = 2; number <= lines; number++)
        {
            var span = source.LineSpan(number);
            if (Line(number) == Fence)
            {
                return (Header(said), span.End);
            }
            if (Line(number).Length > 0)
            {
                Read(source, span, said, report);
            }
            if (report.HasErrors)
            {
                // A line that nobody meant for the header often means that its end is missing: one message is enough.
                return (Header(said), span.End);
            }
        }
        report.Add(Id.LessonHeaderOpen, source.LineSpan(1));
        return (Header(said), source.Text.Length);

        string Line(int number) => source[source.LineSpan(number)].TrimEnd();
    }

    private static void Read(Source source, Span line, Dictionary<string, RequestWord> said, Report report)
    {
        var match = Form().Match(source[line]);
        var word = match.Groups["key"];
        var key = Keys.FirstOrDefault(k => k == word.Value);
        if (key is null)
        {
            report.Add(
                Id.LessonKey,
                match.Success ? At(word) : line,
                ("word", match.Success ? word.Value : source[line].Trim()),
                ("keys", Keys),
                ("near", NearNames.Of(word.Value, Keys))
            );
            return;
        }
        var value = match.Groups["value"];
        if (value.Length == 0)
        {
            report.Add(Id.LessonKeyEmpty, At(word), ("word", key));
        }
        else if (!said.TryAdd(key, new RequestWord(value.Value, At(value))))
        {
            report.Add(Id.SaidTwice, At(word), ("word", key), ("line", source.LineOf(said[key].Span.Start)));
        }
        else if (Known(key) is { } known && !known.Contains(value.Value))
        {
            report.Add(
                Id.OptionValue,
                At(value),
                ("option", key),
                ("value", value.Value),
                ("known", known),
                ("near", NearNames.Of(value.Value, known))
            );
        }

        Span At(Group group) => new(line.Start + group.Index, line.Start + group.Index + group.Length);
    }

    /// <summary>What may stand behind a word; null for anything.</summary>
    private static IReadOnlyList<string>? Known(string key) =>
        key switch
        {
            "language" => Vocabulary.Languages,
            "paper" => [.. Paper.Named.Keys],
            "shows" => LessonHeader.Shown,
            "sides" => ["1", "2"],
            _ => null,
        };

    private static LessonHeader Header(Dictionary<string, RequestWord> said)
    {
        return new LessonHeader(
            Said("title"),
            Said("style"),
            Said("language"),
            Said("machine"),
            Said("width"),
            Said("operands") is { } operands ? Words(operands) : [],
            Said("author"),
            Said("licence")
        )
        {
            Paper = Said("paper"),
            Identifier = Said("identifier"),
            Name = Said("name"),
            Form = Said("form"),
            Shows = Said("shows"),
            Sides = Said("sides"),
        };

        RequestWord? Said(string key) => said.TryGetValue(key, out var word) ? word : null;
    }

    /// <summary>What stands between blanks, or in double quotes, each with its place.</summary>
    public static IReadOnlyList<RequestWord> Words(RequestWord line) =>
        [
            .. Word()
                .Matches(line.Text)
                .Select(m => m.Groups["quoted"] is { Success: true } quoted ? quoted : m.Groups["bare"])
                .Select(g => new RequestWord(
                    g.Value,
                    new Span(line.Span.Start + g.Index, line.Span.Start + g.Index + g.Length)
                )),
        ];

    [GeneratedRegex(@"^\s*(?<key>[^\s:]+)\s*:\s*(?<value>.*?)\s*$")]
    private static partial Regex Form();

    [GeneratedRegex("""(?<!\S)"(?<quoted>[^"]*)"(?!\S)|(?<bare>\S+)""")]
    private static partial Regex Word();
}
