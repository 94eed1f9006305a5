using Reckoner.Choosing;
using Reckoner.Datapaths;
using Reckoner.Tables;
using Reckoner.Words;

namespace Reckoner.Reporting;

/// <summary>
/// Chosen operands in rows: operands, results, cycles where they differ, and what was decided cycle by cycle; then what the marks
/// mean.
/// </summary>
internal static class ExamplesGrid
{
    /// <param name="rows">At least one.</param>
    /// <param name="isMarked">Whether each row has a letter, by which it is spoken of elsewhere.</param>
    public static IEnumerable<Block> Of(
        Datapath datapath,
        IReadOnlyList<ChosenOperands> rows,
        Vocabulary words,
        bool isMarked
    )
    {
        yield return new Grid(
            "operands",
            Names.Of(datapath, words),
            [
                .. isMarked ? [new GridColumn("", ColumnRole.Label)] : Array.Empty<GridColumn>(),
                .. datapath.Operands.Select(o => new GridColumn(o.In(words.Language), ColumnRole.Numbers)),
                .. datapath.Results.Select(r => new GridColumn(r.In(words.Language), ColumnRole.Numbers)),
                .. datapath.MayStopEarly
                    ? [new GridColumn(words.Say("operands.cycles"), ColumnRole.Numbers)]
                    : Array.Empty<GridColumn>(),
                .. rows[0]
                    .Decisions.Select(d => new GridColumn(WrittenText.Of(d.Text, datapath, words), ColumnRole.Marks)),
            ],
            [.. rows.Select((row, i) => new GridRow([.. Cells(datapath, row, isMarked ? ExampleLetter.Of(i) : null)]))]
        )
        {
            Role = GridRole.Examples,
        };
        if (rows[0].Decisions.Count > 0)
        {
            var key = rows[0].Decisions.Any(d => d.IsChoice) ? "operands.legend-arms" : "operands.legend";
            yield return new Paragraph(words.Spell(key), ParagraphRole.Note);
        }
    }

    private static IEnumerable<Cell> Cells(Datapath datapath, ChosenOperands row, string? letter) =>
        [
            .. letter is null ? [] : new[] { Cell.Of(letter) },
            .. datapath.Operands.Zip(row.Operands, (o, b) => Cell.Of(Run.Number(o.Number(b)))),
            .. datapath.Results.Zip(row.Results, (r, b) => Cell.Of(Run.Number(r.Number(b)))),
            .. datapath.MayStopEarly ? [Cell.Of(Run.Number(row.Cycles))] : Array.Empty<Cell>(),
            .. row.Decisions.Select(d => Cell.Of(new Run(RunKind.Marks, Strip(d)))),
        ];

    /// <summary>A mark for each cycle; of a choice the label of the arm, its 0b left out.</summary>
    private static string Strip(MetDecision decision) =>
        decision.IsChoice
            ? string.Join(' ', decision.Outcomes.Select(o => o?.Replace("0b", "", StringComparison.Ordinal) ?? "."))
            : string.Concat(
                decision.Outcomes.Select(o =>
                    o switch
                    {
                        null => ".",
                        "1" => "#",
                        _ => "-",
                    }
                )
            );
}
