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
            yield return Lead([Subject(document), .. document.Leads.Select(l => l.ToString())]) with
            {
                IsAbove = true,
            };
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
        Blocks(document, answer.IsToFill && WalkBlocks.Filled(edition) ? edition : Edition.Full);

    public static Paragraph Said(Document document) => Lead(document.Leads.Select(l => l.ToString()));

    private static Paragraph Lead(IEnumerable<string> sentences) =>
        Paragraph.Of(string.Join(' ', sentences.Select(s => s.EndsWith('.') ? s : s + ".")));

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
            yield return Paragraph.Of(caption.ToString()) with
            {
                IsAbove = true,
            };
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
            [.. grid.Rows.Select(row => (IReadOnlyList<string>)[.. Marks.Cells(grid, row).Select(c => c.ToString())])]
        )
        {
            // Marks stand under marks; how many operands get so far is a number.
            Face = grid.Role == GridRole.BitMarks ? Face.Mono : Face.Plain,
            Numbers = Columns(grid, i => grid.Role == GridRole.BitMarks && grid.Columns[i].Role == ColumnRole.Short),
            Filling = WalkBlocks.Filled(edition)
                ? new Filling(
                    Columns(grid, i => WalkBlocks.AreDigits(grid, i)),
                    [.. grid.Rows.Select(row => Columns(grid, i => IsToFind(grid, row, i)))],
                    edition == Edition.Key
                )
                : null,
        };

    private static HashSet<int> Columns(Tables.Grid grid, Func<int, bool> choose) =>
        [.. Enumerable.Range(0, grid.Columns.Count).Where(choose)];

    /// <summary>Registers behind the load, and results.</summary>
    public static bool IsToFind(Tables.Grid grid, GridRow row, int column) =>
        row.Cells[column] is { IsEmpty: false } cell
        && row.Cycle != 0
        && (grid.Columns[column].Role == ColumnRole.Digits || cell.Lines[0].Runs.All(r => r.Kind == RunKind.Number));
}
