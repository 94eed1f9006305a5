using System.Text.RegularExpressions;
using Reckoner.Checking;
using Reckoner.Drawing;
using Reckoner.Reporting;
using Reckoner.Words;

namespace Reckoner.Documents.Lessons;

/// <summary>Answers about all operands, as paragraphs and tables; the same on screen and on paper.</summary>
internal static partial class AnswerBlocks
{
    /// <summary>So wide that no line of a report is broken.</summary>
    private const int OneLine = 100_000;

    public static IEnumerable<Block> Of(CheckAnswer answer, Vocabulary words) =>
        Paragraphs(CheckText.Of(answer.Reports, [], words, OneLine));

    public static IEnumerable<Block> Of(SlipsAnswer answer, Vocabulary words) =>
        Paragraphs(SlipText.Of(answer.Study, words, OneLine));

    /// <summary>A document of tables in the blocks of a handout; a blank one leaves open what the walks would give away.</summary>
    public static IEnumerable<Block> Of(CompareAnswer answer, Edition edition) =>
        answer.Document.Blocks.SelectMany(b => Of(b, edition));

    private static IEnumerable<Block> Of(Tables.Block block, Edition edition) =>
        block switch
        {
            Tables.Paragraph p => [Paragraph.Of(p.Text.ToString())],
            Tables.SignNote n => [Paragraph.Of(n.Text.ToString())],
            Tables.Pairs p =>
            [
                new Listing(
                    [
                        .. p.Rows.Select(r =>
                            (IReadOnlyList<Run>)[new Run(r.Name.ToString(), Face.Bold), new Run($": {r.Said}")]
                        ),
                    ],
                    IsNumbered: false
                ),
            ],
            Tables.Grid g =>
            [
                new Grid(
                    g.Caption,
                    [.. g.Columns.Select(Tables.Marks.Head)],
                    [
                        .. g.Rows.Select(row =>
                            (IReadOnlyList<string>)
                                [
                                    .. edition == Edition.Blank
                                        ? Opened(g, row)
                                        : Tables.Marks.Cells(g, row).Select(Joined),
                                ]
                        ),
                    ]
                ),
            ],
            _ => throw new InvalidOperationException(block.GetType().Name),
        };

    private static string Joined(Tables.Cell cell) => string.Join("; ", cell.Lines);

    /// <summary>Registers behind the load, and results.</summary>
    private static IEnumerable<string> Opened(Tables.Grid grid, Tables.GridRow row) =>
        Tables
            .Marks.Cells(grid, row)
            .Zip(row.Cells, (shown, cell) => (Shown: Joined(shown), Cell: cell))
            .Select(
                (c, i) =>
                    c.Cell.IsEmpty || row.Cycle == 0 ? c.Shown
                    : grid.Columns[i].Role == Tables.ColumnRole.Digits ? WalkBlocks.Blank(Joined(c.Cell))
                    : c.Cell.Lines[0].Runs.All(r => r.Kind == RunKind.Number) ? WalkBlocks.Open
                    : c.Shown
            );

    /// <summary>Lines at the edge make a paragraph; what is indented under them are items of a list, and further in belongs to its item.</summary>
    private static IEnumerable<Block> Paragraphs(string report)
    {
        var (lead, items) = (new List<string>(), new List<string>());
        foreach (var line in report.Split('\n', StringSplitOptions.RemoveEmptyEntries))
        {
            if (line[0] != ' ')
            {
                foreach (var block in Flushed(items))
                {
                    yield return block;
                }
                lead.Add(line.EndsWith('.') ? line : line + ".");
                continue;
            }
            if (lead.Count > 0)
            {
                yield return Paragraph.Of(string.Join(' ', lead));
                lead.Clear();
            }
            if (Indent(line) > ItemIndent && items.Count > 0)
            {
                items[^1] +=
                    (
                        items[^1][^1] is '.' or ':' ? " "
                        : items[^1].Contains(": ") ? "; "
                        : ": "
                    ) + Joined(line);
            }
            else
            {
                items.Add(Joined(line));
            }
        }
        foreach (var block in Flushed(items))
        {
            yield return block;
        }
        if (lead.Count > 0)
        {
            yield return Paragraph.Of(string.Join(' ', lead));
        }
    }

    private const int ItemIndent = 3;

    private static int Indent(string line) => line.Length - line.TrimStart().Length;

    private static IEnumerable<Block> Flushed(List<string> items)
    {
        if (items.Count > 0)
        {
            yield return new Listing([.. items.Select(i => (IReadOnlyList<Run>)[new Run(i)])], IsNumbered: false);
            items.Clear();
        }
    }

    /// <summary>A name and what is said of it stand in columns in a report, in a sentence here.</summary>
    private static string Joined(string line) => Gap().Replace(line.Trim(), ": ");

    [GeneratedRegex(" {2,}")]
    private static partial Regex Gap();

    public static IEnumerable<Block> Of(IdleAnswer answer, Vocabulary words)
    {
        var study = answer.Study;
        yield return Paragraph.Of(
            study.IsExhaustive
                ? words.Say("idle.over-all", ("cases", study.Rows[0].Cases!.Value))
                : words.Say("idle.by-structure")
        );
        yield return new Grid(
            words.Say(
                "lesson.idle-caption",
                ("machine", WalkSteps.Title(study.Datapath, words)),
                ("widths", Names.Widths(study.Datapath, words))
            ),
            [words.Say("walk.cycle"), .. study.Datapath.Registers.Select(r => r.Name)],
            [.. study.Rows.Select(row => Cells(row, study, words))]
        )
        {
            Face = Face.Mono,
        };
        yield return Paragraph.Of(words.Say(study.IsExhaustive ? "idle.legend" : "idle.legend-structure"));
        foreach (var sentence in IdleText.Sharable(study, words))
        {
            yield return Paragraph.Of(sentence);
        }
    }

    private static IReadOnlyList<string> Cells(IdleRow row, IdleStudy study, Vocabulary words) =>
        [
            row.Cycle == 0
                ? words.Say("walk.load")
                : row.Cycle.ToString(System.Globalization.CultureInfo.InvariantCulture),
            .. study.Datapath.Registers.Select(r => Marks(row, r)),
        ];

    /// <summary>A mark for each bit, parts of a register apart.</summary>
    private static string Marks(IdleRow row, Datapaths.Register register)
    {
        var marks = IdleText.Marks(row, register);
        var ends = Columns.Cuts(register).Select(low => register.Width - low).ToList();
        return string.Join(' ', ends.Prepend(0).Zip(ends, (from, to) => marks[from..to]));
    }
}
