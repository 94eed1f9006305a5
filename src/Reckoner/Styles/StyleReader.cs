using System.Globalization;
using System.Text.RegularExpressions;
using Reckoner.Diagnostics;
using Reckoner.Tables;
using Reckoner.Words;

namespace Reckoner.Styles;

/// <summary>
/// Reads a house style: a line for each thing that is said, its first word saying what; text in double quotes; comments behind
/// two hyphens. Never throws.
/// </summary>
internal sealed partial class StyleReader
{
    private static readonly string[] Papers = [.. PaperSize.All.Select(p => p.Name)];
    private static readonly string[] Placeholders = ["cycle", "round", "moment", "step", "remaining", "way", "outcome"];

    private readonly Report report;
    private readonly Dictionary<string, int> first = [];
    private readonly List<StyleColumn> columns = [];
    private readonly List<LabelRule> labels = [];
    private readonly Source source;
    private HouseStyle style;
    private List<StyleToken> tokens = [];
    private int at;
    private Span line;

    private StyleReader(Source source)
    {
        this.source = source;
        report = new Report(source);
        style = new HouseStyle { Source = source };
    }

    /// <summary>Every first word of a line, with the form of the line and what reads it.</summary>
    private static readonly IReadOnlyList<(string Word, string Form, Action<StyleReader> Read)> Lines =
    [
        ("style", "style \"TITLE\"", r => r.style = r.style with { Title = r.Text() }),
        ("language", "language TAG", r => r.style = r.style with { Language = r.OneOf(Vocabulary.Languages) }),
        ("rows", "rows per cycle|round|moment [that write]", r => r.Rows()),
        ("base", "base 2|8|10|16", r => r.style = r.style with { Digits = r.style.Digits with { Base = r.Base() } }),
        (
            "group",
            "group COUNT|none",
            r => r.style = r.style with { Digits = r.style.Digits with { Group = r.Group() } }
        ),
        (
            "subtraction",
            "subtraction by borrow|complement",
            r =>
            {
                r.Word("by");
                r.style = r.style with { ByComplement = r.OneOf(["borrow", "complement"]) == "complement" };
            }
        ),
        (
            "reasons",
            "reasons short|full",
            r =>
                r.style = r.style with
                {
                    Reasons = Enum.Parse<ReasonForm>(r.OneOf(["short", "full"]), ignoreCase: true),
                }
        ),
        ("paper", $"paper {string.Join('|', Papers)} [landscape]", r => r.Paper()),
        (
            "sums",
            "sums with bar|colon",
            r =>
            {
                r.Word("with");
                r.style = r.style with { Sums = Enum.Parse<HandLayout>(r.OneOf(["bar", "colon"]), ignoreCase: true) };
            }
        ),
        ("label", "label [load|step NAME|moment NUMBER] [way NUMBER] \"TEXT\"", r => r.Label()),
        ("column", "column NAME [or NAME] [if there] [\"HEADING\"] [base BASE] [group COUNT]", r => r.Column()),
    ];

    private static readonly IReadOnlyList<(string Word, ColumnKind Kind)> Kinds =
    [
        ("label", ColumnKind.Label),
        ("cycle", ColumnKind.Cycle),
        ("round", ColumnKind.Round),
        ("step", ColumnKind.Step),
        ("remaining", ColumnKind.Remaining),
        ("why", ColumnKind.Why),
        ("outcome", ColumnKind.Outcome),
        ("invariant", ColumnKind.Invariant),
        ("signals", ColumnKind.Signals),
    ];

    /// <summary>The words that name columns besides what the machine has.</summary>
    public static IReadOnlyList<string> ColumnWords { get; } = [.. Kinds.Select(k => k.Word)];

    /// <summary>The style, or null with what is wrong with the text.</summary>
    public static (HouseStyle? Style, IReadOnlyList<Diagnostic> Found) Read(Source source)
    {
        var reader = new StyleReader(source);
        if (!reader.report.AddHidden(source.Text, new Span(0, source.Text.Length)))
        {
            reader.Read();
        }
        return (reader.report.HasErrors ? null : reader.style, reader.report.InOrder());
    }

    /// <summary>What is wrong with a line; the rest of it is not read.</summary>
    private sealed class LineException : Exception;

    private void Read()
    {
        for (var number = 1; number <= source.LineOf(source.Text.Length); number++)
        {
            line = source.LineSpan(number);
            try
            {
                tokens = [.. Tokens()];
                at = 0;
                if (tokens.Count > 0)
                {
                    ReadLine(number);
                }
            }
            catch (LineException)
            {
                // It has been said.
            }
        }
        style = style with { Columns = columns, Labels = labels };
    }

    private IEnumerable<StyleToken> Tokens()
    {
        foreach (Match match in Token().Matches(source[line]))
        {
            var span = new Span(line.Start + match.Index, line.Start + match.Index + match.Length);
            if (match.Value.StartsWith("--", StringComparison.Ordinal))
            {
                yield break;
            }
            if (match.Value.StartsWith('"') && (match.Length == 1 || !match.Value.EndsWith('"')))
            {
                throw Wrong(Id.UnclosedQuote, span);
            }
            yield return match.Value.StartsWith('"')
                ? new StyleToken(match.Value[1..^1], span, IsText: true)
                : new StyleToken(match.Value, span, IsText: false);
        }
    }

    private void ReadLine(int number)
    {
        var word = Next();
        var known = Lines.FirstOrDefault(l => l.Word == word.Text && !word.IsText);
        if (known.Read is null)
        {
            throw Wrong(
                Id.StyleWord,
                word.Span,
                ("word", word.Text),
                ("known", (IReadOnlyList<string>)[.. Lines.Select(l => l.Word)]),
                ("near", NearNames.Of(word.Text, Lines.Select(l => l.Word)))
            );
        }
        if (word.Text is not ("column" or "label") && !first.TryAdd(word.Text, number))
        {
            throw Wrong(Id.SaidTwice, word.Span, ("word", word.Text), ("line", first[word.Text]));
        }
        form = known.Form;
        known.Read(this);
        if (at < tokens.Count)
        {
            throw Form(tokens[at].Span);
        }
    }

    private string form = "";

    private LineException Wrong(Id id, Span span, params ReadOnlySpan<Fact> facts)
    {
        report.Add(id, span, facts);
        return new LineException();
    }

    private LineException Form(Span span) =>
        Wrong(
            Id.StyleForm,
            span,
            ("found", span.Start >= line.End ? new Term("line-end") : source[span]),
            ("form", form)
        );

    private Span End => new(line.End, line.End);

    private StyleToken Next() => at < tokens.Count ? tokens[at++] : throw Form(End);

    private bool Takes(string word)
    {
        var here = at < tokens.Count && !tokens[at].IsText && tokens[at].Text == word;
        at += here ? 1 : 0;
        return here;
    }

    private void Word(string word)
    {
        if (!Takes(word))
        {
            throw Form(at < tokens.Count ? tokens[at].Span : End);
        }
    }

    private string Text()
    {
        var token = Next();
        return token.IsText ? token.Text : throw Form(token.Span);
    }

    private string OneOf(IReadOnlyList<string> known)
    {
        var token = Next();
        return !token.IsText && known.Contains(token.Text)
            ? token.Text
            : throw Wrong(
                Id.StyleValue,
                token.Span,
                ("word", tokens[0].Text),
                ("value", token.Text),
                ("known", known),
                ("near", NearNames.Of(token.Text, known))
            );
    }

    private int Base() => int.Parse(OneOf([.. Digits.Bases.Select(b => $"{b}")]), CultureInfo.InvariantCulture);

    private int Group()
    {
        if (Takes("none"))
        {
            return 0;
        }
        return Count(1, 64);
    }

    private int Count(int low, int high)
    {
        var token = Next();
        return
            int.TryParse(token.Text, NumberStyles.None, CultureInfo.InvariantCulture, out var count)
            && count >= low
            && count <= high
            ? count
            : throw Form(token.Span);
    }

    private void Rows()
    {
        Word("per");
        var unit = OneOf(["cycle", "round", "moment"]);
        style = style with { Rows = Enum.Parse<RowUnit>(unit, ignoreCase: true), LeavesOutIdle = Takes("that") };
        if (style.LeavesOutIdle)
        {
            Word("write");
        }
    }

    private void Paper()
    {
        var size = OneOf(Papers);
        style = style with { Paper = new Paper(size, Takes("landscape") || size == PaperSize.Slide) };
    }

    private void Label()
    {
        var when =
            Takes("load") ? LabelCondition.Load
            : Takes("step") ? LabelCondition.Step
            : Takes("moment") ? LabelCondition.Moment
            : LabelCondition.Always;
        var name = when == LabelCondition.Step ? Next().Text : null;
        var number = when == LabelCondition.Moment ? Count(1, 99) : 0;
        int? way = when != LabelCondition.Load && Takes("way") ? Count(1, 99) : null;
        var text = Text();
        var place = tokens[at - 1].Span;
        foreach (Match match in Placeholder().Matches(text))
        {
            var word = match.Groups[1].Value;
            if (!Placeholders.Contains(word))
            {
                throw Wrong(
                    Id.StyleValue,
                    place,
                    ("word", "label"),
                    ("value", match.Value),
                    ("known", (IReadOnlyList<string>)[.. Placeholders.Select(p => $"{{{p}}}")]),
                    ("near", (IReadOnlyList<string>)[.. NearNames.Of(word, Placeholders).Select(p => $"{{{p}}}")])
                );
            }
        }
        labels.Add(new LabelRule(when, name, number, way, text));
    }

    private void Column()
    {
        var start = at;
        var kind =
            Takes("writes") ? ColumnKind.Writes
            : Takes("moves") ? ColumnKind.Moves
            : Kinds.FirstOrDefault(k => Takes(k.Word)).Kind;
        var names = new List<string>();
        if (kind is ColumnKind.Named or ColumnKind.Writes or ColumnKind.Moves)
        {
            do
            {
                var name = Next();
                names.Add(name.IsText ? throw Form(name.Span) : name.Text);
            } while (Takes("or"));
        }
        var span = Span.Covering(tokens[start].Span, tokens[at - 1].Span);
        var isOptional = Takes("if");
        if (isOptional)
        {
            Word("there");
        }
        var heading = at < tokens.Count && tokens[at].IsText ? Text() : null;
        int? digits = Takes("base") ? Base() : null;
        int? group = Takes("group") ? Group() : null;
        columns.Add(new StyleColumn(kind, names, isOptional, heading, digits, group, span));
    }

    private readonly record struct StyleToken(string Text, Span Span, bool IsText);

    [GeneratedRegex("""--.*|"[^"]*"?|[^\s"]+""")]
    private static partial Regex Token();

    [GeneratedRegex(@"\{([^}]*)\}")]
    private static partial Regex Placeholder();
}
