using Reckoner.Numbers;
using Reckoner.Tables;

namespace Reckoner.Reporting;

internal sealed partial class HardwareDocument
{
    private Grid Choices() =>
        Inventory(
            "choices",
            words.Say("hardware.choices", ("bits", hardware.ChoiceBits)),
            ["head.width", "head.where"],
            hardware
                .Choices.GroupBy(c => (c.Origin.Step, c.Place))
                .Select(g =>
                    Row(
                        BitsOf(g.Sum(c => c.Width)),
                        (g.Key.Step == 0 ? words.Say("hardware.at-load") : "")
                            + Line(g.Key.Place.Line, g.Key.Place.Source)
                    )
                )
                .Concat(
                    hardware
                        .Inputs.Where(i => i.Words > 1)
                        .Select(input =>
                            Row(
                                BitsOf(input.Register.Width),
                                words.Say("hardware.by-step", ("name", input.Register.Name), ("count", input.Words))
                            )
                        )
                )
        );

    private Grid Control() =>
        Inventory(
            "control",
            words.Say("hardware.control"),
            ["compare.part", "head.said"],
            [Cycles(), .. Counters(), .. Decisions(), .. Tables()]
        );

    private GridRow Cycles()
    {
        var (least, most) = hardware.Cycles;
        return Row(words.Say("hardware.cycles"), least == most ? Bits.Text(most) : $"{least}..{most}");
    }

    private IEnumerable<GridRow> Counters()
    {
        if (hardware.CounterBits > 0)
        {
            var loops = Datapath
                .Schedule.Where(s => s.IsLoop)
                .Select(s =>
                    words.Say("hardware.rounds", ("count", s.Count), ("line", Line(s.Line, s.Steps[0].Source)))
                );
            yield return Row(
                words.Say("hardware.counter"),
                $"{BitsOf(hardware.CounterBits)}: {string.Join(", ", loops)}"
            );
        }
        if (hardware.UsesLast)
        {
            yield return Row(words.Say("hardware.last"), words.Say("hardware.last-decoded"));
        }
    }

    private IEnumerable<GridRow> Decisions() =>
        hardware
            .Decisions.DistinctBy(d => (ControlText.Of(d, words), d.Line, d.Source))
            .Select(d =>
                Row(
                    words.Say("hardware.decision"),
                    words.Say(
                        "hardware.decided",
                        ("value", WrittenText.Of(d.Value, words)),
                        ("line", Line(d.Line, d.Source))
                    )
                )
            );

    private IEnumerable<GridRow> Tables() =>
        Datapath.Tables.Select(table =>
            Row(
                words.Say("hardware.table"),
                words.Say(
                    "hardware.table-size",
                    ("name", table.Name),
                    ("cells", table.Cells.Count),
                    ("bits", table.Width)
                )
            )
        );
}
