using Reckoner.Documents.Lessons;
using Reckoner.Reporting;
using Reckoner.Tables;
using Reckoner.Words;

namespace Reckoner.Documents.Packs;

/// <summary>A cell of a sheet as a spreadsheet.</summary>
/// <param name="Text">What stands there; empty where something is to be written.</param>
internal readonly record struct SheetCell(string Text, bool IsOpen = false, bool IsHead = false, bool IsDigits = false)
{
    /// <summary>The same where whoever opens it may take it for a number or a formula.</summary>
    public string Listed { get; init; } = Csv.Guarded(Text);
}

/// <summary>A question as rows of cells, for a workbook and for a list.</summary>
internal static class SheetCells
{
    public static IEnumerable<IReadOnlyList<SheetCell>> Of(AskedQuestion asked, Vocabulary words)
    {
        yield return [new SheetCell(QuestionBlocks.Head(asked, words), IsHead: true)];
        yield return [new SheetCell(asked.Prompt)];
        foreach (var row in asked.Works.SelectMany(w => Of(w, words)))
        {
            yield return row;
        }
    }

    private static IEnumerable<IReadOnlyList<SheetCell>> Of(Work work, Vocabulary words) =>
        work.Match<IEnumerable<IReadOnlyList<SheetCell>>>(
            table: Of,
            fields: w =>
                w.Fields.Select(f =>
                    (IReadOnlyList<SheetCell>)[new SheetCell(f.Label), new SheetCell("", IsOpen: true)]
                ),
            figure: w =>
                [
                    [new SheetCell(w.Figure.Caption(words))],
                    [new SheetCell(words.Say("sheet.on-paper"))],
                ],
            text: w => w.Lines.Select(l => (IReadOnlyList<SheetCell>)[new SheetCell(l, IsDigits: true)]),
            options: w =>
                w.Options.Select((o, i) => (IReadOnlyList<SheetCell>)[new SheetCell($"{OptionsWork.Letter(i)}  {o}")]),
            lines: _ =>
                [
                    [new SheetCell(words.Say("question.answer")), new SheetCell("", IsOpen: true)],
                ]
        );

    private static IEnumerable<IReadOnlyList<SheetCell>> Of(TableWork work)
    {
        var grid = work.Grid;
        var shown = work.Shown;
        yield return [new SheetCell(work.Caption ?? "")];
        yield return [.. shown.Select(i => new SheetCell(Marks.FullHead(grid.Columns[i]), IsHead: true))];
        for (var r = 0; r < grid.Rows.Count; r++)
        {
            var open = work.Open[r];
            var cells = Marks.Cells(grid, grid.Rows[r]).ToList();
            yield return
            [
                .. shown.Select(i =>
                {
                    var column = grid.Columns[i];
                    var isOpen = open.Contains(i);
                    return new SheetCell(
                        isOpen ? "" : $"{cells[i]}",
                        isOpen,
                        IsDigits: column.Role == ColumnRole.Digits
                    )
                    {
                        Listed = isOpen ? "" : Csv.Plain(cells[i]),
                    };
                }),
            ];
        }
        var spare = work.OpenSpare;
        for (var r = 0; r < work.Spare; r++)
        {
            var label = work.SpareLabel(r);
            yield return
            [
                .. shown.Select(i =>
                    i == 0 ? new SheetCell(label) : new SheetCell(work.SpareText(i), spare.Contains(i))
                ),
            ];
        }
        foreach (var sign in work.Signs)
        {
            yield return [new SheetCell(sign)];
        }
    }
}
