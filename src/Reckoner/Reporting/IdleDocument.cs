using System.Globalization;
using Reckoner.Checking;
using Reckoner.Datapaths;
using Reckoner.Tables;
using Reckoner.Words;

namespace Reckoner.Reporting;

/// <summary>Idle bits: a row for each cycle, a mark for each bit of each register, and the registers that could share one.</summary>
internal static class IdleDocument
{
    public static Document Of(IdleStudy study, Vocabulary words)
    {
        var blocks = new List<Block>
        {
            new Paragraph(
                words.Spell(study.IsExhaustive ? "idle.legend" : "idle.legend-structure"),
                ParagraphRole.Note
            ),
            Bits(study, words),
        };
        var sharable = study.Sharable();
        if (sharable.Count > 0)
        {
            blocks.Add(
                new Paragraph([.. sharable.Select(s => Sharable(s.First, s.Second, s.Most, words))], ParagraphRole.Note)
            );
        }
        return new Document(
            study.Datapath.Machine.Name,
            words.Language,
            Names.Of(study.Datapath, words),
            Subtitle: null,
            blocks
        )
        {
            Leads =
            [
                study.IsExhaustive
                    ? words.Spell(
                        study.Datapath.Given.Count > 0 ? "idle.over-all-given" : "idle.over-all",
                        ("cases", study.Rows[0].Cases!.Value)
                    )
                    : words.Spell("idle.by-structure"),
            ],
        };
    }

    private static Grid Bits(IdleStudy study, Vocabulary words)
    {
        var datapath = study.Datapath;
        var differ = study.Rows.Any(r => !r.IsForAll);
        return new Grid(
            "bits",
            words.Say(
                "idle.caption",
                ("machine", datapath.Machine.Title?.In(words.Language) ?? datapath.Machine.Name),
                ("widths", Names.Widths(datapath, words))
            ),
            [
                new GridColumn(words.Say("walk.cycle"), ColumnRole.Label),
                .. datapath.Registers.Select(r => new GridColumn(r.Name, ColumnRole.Marks)),
                .. differ ? [new GridColumn(words.Say("idle.reached"), ColumnRole.Short)] : Array.Empty<GridColumn>(),
            ],
            [
                .. study.Rows.Select(row => new GridRow([
                    Cell.Of(row.Cycle == 0 ? words.Say("walk.load") : row.Cycle.ToString(CultureInfo.InvariantCulture)),
                    .. datapath.Registers.Select(r => Cell.Of(new Run(RunKind.Marks, IdleMarks.InParts(row, r)))),
                    .. differ ? [Cell.Of(Reached(row, words))] : Array.Empty<Cell>(),
                ])
                {
                    Cycle = row.Cycle,
                }),
            ]
        )
        {
            Role = GridRole.BitMarks,
        };
    }

    /// <summary>How many operands reach a cycle, in machines where not all of them do.</summary>
    private static string Reached(IdleRow row, Vocabulary words) =>
        row.Cases is { } cases ? words.Say("idle.cases", ("cases", cases))
        : row.IsForAll ? ""
        : words.Say("idle.not-all");

    private static Content Sharable(Register first, Register second, int most, Vocabulary words)
    {
        var wider = first.Width >= second.Width ? first : second;
        return words.Spell(
            "idle.sharable",
            ("first", first.Name),
            ("second", second.Name),
            ("most", most),
            ("wider", wider.Name),
            ("width", wider.Width)
        );
    }
}
