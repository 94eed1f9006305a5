using System.Globalization;
using System.Text.RegularExpressions;
using Reckoner.Diagnostics;
using Reckoner.Tables;
using Reckoner.Words;

namespace Reckoner.Styles;

/// <summary>
/// Reads a house style. Never throws.
/// </summary>
internal sealed partial class StyleReader : LineReader
{
    private static readonly string[] Papers = [.. PaperSize.All.Select(p => p.Name)];
    private static readonly string[] Placeholders = ["cycle", "round", "moment", "step", "remaining", "way", "outcome"];

    private readonly List<StyleColumn> columns = [];
    private readonly List<LabelRule> labels = [];
    private HouseStyle style;

    private StyleReader(Source source)
        : base(source, Id.StyleWord, Id.StyleValue, Id.StyleForm) => style = new HouseStyle { Source = source };

    private static readonly IReadOnlyList<(string Word, string Form, Action<StyleReader> Read)> Forms =
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
        reader.Read();
        var style = reader.style with { Columns = reader.columns, Labels = reader.labels };
        return (reader.Report.HasErrors ? null : style, reader.Report.InOrder());
    }

    protected override IReadOnlyList<LineForm> Lines
    {
        get
        {
            return field ??= [
                .. Forms.Select(f => new LineForm(
                    f.Word,
                    f.Form,
                    () => f.Read(this),
                    MayRepeat: f.Word is "column" or "label"
                )),
            ];
        }
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
        var place = Before;
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
        var start = Ahead;
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
        var span = Span.Covering(start, Before);
        var isOptional = Takes("if");
        if (isOptional)
        {
            Word("there");
        }
        var heading = IsText ? Text() : null;
        int? digits = Takes("base") ? Base() : null;
        int? group = Takes("group") ? Group() : null;
        columns.Add(new StyleColumn(kind, names, isOptional, heading, digits, group, span));
    }

    [GeneratedRegex(@"\{([^}]*)\}")]
    private static partial Regex Placeholder();
}
