using Reckoner.Choosing;
using Reckoner.Datapaths;
using Reckoner.Tables;
using Reckoner.Words;

namespace Reckoner.Reporting;

/// <summary>Slips in rows, chosen operands in columns: what each slip gives for them.</summary>
internal static class SlipsGrid
{
    private const string AsRight = ".";

    public static Grid Of(Datapath datapath, SlipsShown shown, Vocabulary words)
    {
        var results = string.Join(", ", datapath.Results.Select(r => r.In(words.Language)));
        var right = shown.Chosen.Select(c => Cell.Of(OperandsText.Numbers(datapath, c.Results)));
        return new Grid(
            "slips",
            words.Say("operands.slips", ("results", results)),
            [
                new GridColumn("", ColumnRole.Label),
                .. shown.Chosen.Select((_, i) => new GridColumn(ExampleLetter.Of(i), ColumnRole.Numbers)),
            ],
            [
                new GridRow([Cell.Of(words.Say("operands.slips-right")), .. right]),
                .. shown.Slips.Select(s => new GridRow([
                    Cell.Of(s.Slip.Name),
                    .. s.Results.Select(wrong =>
                        wrong is null ? Cell.Of(Content.Text(AsRight)) : Cell.Of(OperandsText.Numbers(datapath, wrong))
                    ),
                ])),
            ]
        )
        {
            Role = GridRole.Crossing,
        };
    }
}
