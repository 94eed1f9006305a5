using Reckoner.Drawing;
using Reckoner.Tables;
using Reckoner.Words;

namespace Reckoner.Documents.Lessons;

/// <summary>Answers that are documents, as paragraphs, lists and tables of a handout; the same on screen and on paper.</summary>
internal static class AnswerBlocks
{
    /// <summary>What each document is about and says first, then its blocks, then what stands as it is.</summary>
    /// <param name="edition">A blank one leaves open what the walks would give away.</param>
    public static IEnumerable<Block> Of(ReportAnswer answer, Edition edition)
    {
        foreach (var document in answer.Documents)
        {
            yield return Lead([Subject(document), .. document.Leads.Select(l => l.ToString())]);
            foreach (var block in Parts(answer, document, edition))
            {
                yield return block;
            }
        }
        if (answer.Verbatim is { } text)
        {
            yield return new Verbatim(text.TrimEnd('\n').Split('\n'));
        }
    }

    /// <summary>"divide-still-divisor at n = 5. Division: the remainder moves".</summary>
    public static string Subject(Document document) =>
        string.Join(". ", new[] { document.Title, document.Subtitle }.OfType<string>());

    public static IEnumerable<Block> Parts(ReportAnswer answer, Document document, Edition edition) =>
        Blocks(document, edition == Edition.Blank && answer.IsToFill);

    public static Paragraph Said(Document document) => Lead(document.Leads.Select(l => l.ToString()));

    private static Paragraph Lead(IEnumerable<string> sentences) =>
        Paragraph.Of(string.Join(' ', sentences.Select(s => s.EndsWith('.') ? s : s + ".")));

    private static IEnumerable<Block> Blocks(Document document, bool isOpen) =>
        document.Blocks.SelectMany(block =>
            block.Match(
                paragraph => paragraph.Sentences.Select(s => Paragraph.Of(s.ToString())),
                Of,
                items => [List(items.Each.Select(i => (IReadOnlyList<Run>)[new Run(i.ToString())]))],
                grid => (IEnumerable<Block>)[Of(grid, isOpen)]
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

    private static Grid Of(Tables.Grid grid, bool isOpen) =>
        new(
            grid.Caption,
            [.. grid.Columns.Select(Marks.Head)],
            [
                .. grid.Rows.Select(row =>
                    (IReadOnlyList<string>)
                        [.. isOpen ? Opened(grid, row) : Marks.Cells(grid, row).Select(c => c.ToString())]
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
