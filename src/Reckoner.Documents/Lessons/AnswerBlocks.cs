using Reckoner.Drawing;
using Reckoner.Reporting;
using Reckoner.Tables;
using Reckoner.Words;

namespace Reckoner.Documents.Lessons;

/// <summary>Answers that are documents, as paragraphs, lists and tables of a handout; the same on screen and on paper.</summary>
internal static class AnswerBlocks
{
    public static IEnumerable<Block> Of(CheckAnswer answer, Vocabulary words) =>
        CheckDocument
            .Of(answer.Reports, [], words)
            .SelectMany(d => Blocks(d, Edition.Full).Prepend(Lead([d.Title, d.Subtitle, .. Leads(d)])));

    public static IEnumerable<Block> Of(SlipsAnswer answer, Vocabulary words)
    {
        var document = SlipsDocument.Of(answer.Study, words);
        return Blocks(document, Edition.Full).Prepend(Lead([document.Title, .. Leads(document)]));
    }

    /// <summary>Its table has the machine in its caption.</summary>
    public static IEnumerable<Block> Of(IdleAnswer answer, Vocabulary words)
    {
        var document = IdleDocument.Of(answer.Study, words);
        return Blocks(document, Edition.Full).Prepend(Lead([.. Leads(document)]));
    }

    /// <summary>A blank one leaves open what the walks would give away.</summary>
    public static IEnumerable<Block> Of(CompareAnswer answer, Edition edition) => Blocks(answer.Document, edition);

    private static IEnumerable<string?> Leads(Document document) => document.Leads.Select(l => l.ToString());

    private static Paragraph Lead(IEnumerable<string?> sentences) =>
        Paragraph.Of(string.Join(' ', sentences.OfType<string>().Select(s => s.EndsWith('.') ? s : s + ".")));

    private static IEnumerable<Block> Blocks(Document document, Edition edition) =>
        document.Blocks.SelectMany(block =>
            block.Match(
                paragraph => paragraph.Sentences.Select(s => Paragraph.Of(s.ToString())),
                Of,
                items => [List(items.Each.Select(i => (IReadOnlyList<Run>)[new Run(i.ToString())]))],
                grid => (IEnumerable<Block>)[Of(grid, edition)]
            )
        );

    private static IEnumerable<Block> Of(Pairs pairs)
    {
        if (pairs.Caption is { } caption)
        {
            yield return Paragraph.Of(caption.ToString());
        }
        if (pairs.Rows.Count > 0)
        {
            yield return List(
                pairs.Rows.Select(r =>
                    (IReadOnlyList<Run>)[new Run(r.Name.ToString(), Face.Bold), new Run($": {r.SaidTogether}")]
                )
            );
        }
    }

    private static Listing List(IEnumerable<IReadOnlyList<Run>> items) => new([.. items], IsNumbered: false);

    private static Grid Of(Tables.Grid grid, Edition edition) =>
        new(
            grid.Caption,
            [.. grid.Columns.Select(Marks.Head)],
            [
                .. grid.Rows.Select(row =>
                    (IReadOnlyList<string>)
                        [
                            .. edition == Edition.Blank
                                ? Opened(grid, row)
                                : Marks.Cells(grid, row).Select(c => c.ToString()),
                        ]
                ),
            ]
        )
        {
            // Marks stand under marks; how many operands get so far is a number.
            Face = grid.Role == GridRole.BitMarks ? Face.Mono : Face.Plain,
            Numbers = Enumerable
                .Range(0, grid.Columns.Count)
                .Where(i => grid.Role == GridRole.BitMarks && grid.Columns[i].Role == ColumnRole.Short)
                .ToHashSet(),
        };

    /// <summary>Registers behind the load, and results.</summary>
    private static IEnumerable<string> Opened(Tables.Grid grid, GridRow row) =>
        Marks
            .Cells(grid, row)
            .Zip(row.Cells, (shown, cell) => (Shown: shown.ToString(), Cell: cell))
            .Select(
                (c, i) =>
                    c.Cell.IsEmpty || row.Cycle == 0 ? c.Shown
                    : grid.Columns[i].Role == ColumnRole.Digits ? WalkBlocks.Blank(c.Cell.ToString())
                    : c.Cell.Lines[0].Runs.All(r => r.Kind == RunKind.Number) ? WalkBlocks.Open
                    : c.Shown
            );
}
