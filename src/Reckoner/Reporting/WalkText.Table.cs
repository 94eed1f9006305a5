using System.Globalization;
using Reckoner.Datapaths;
using Reckoner.Execution;
using Reckoner.Running;
using Reckoner.Styles;
using Reckoner.Tables;

namespace Reckoner.Reporting;

internal sealed partial class WalkText
{
    private string Heading() =>
        string.Join(
            ' ',
            new[]
            {
                words.Say("walk.cycle"),
                hasRounds ? words.Say("walk.round") : "",
                hasSteps ? words.Say("walk.step") : "",
            }.Where(w => w.Length > 0)
        );

    private string Label(Row row)
    {
        var cycle = row.Cycle == 0 ? words.Say("walk.load") : row.Cycle.ToString(CultureInfo.InvariantCulture);
        var label = cycle.PadLeft(words.Say("walk.cycle").Length);
        if (hasRounds)
        {
            var round = row.Round == 0 ? "" : row.Round.ToString(CultureInfo.InvariantCulture);
            label += " " + round.PadLeft(words.Say("walk.round").Length);
        }
        return hasSteps ? $"{label} {row.Step?.In(words.Language)}" : label;
    }

    private int TableWidth => labelWidth + fields.Sum(f => Gap + f.Width);

    private void Table()
    {
        var together = TableWidth <= columns;
        var beside = columns - TableWidth - 2 * Gap;
        var room = speech.Form == ReasonForm.Full ? RoomBeside : Math.Min(RoomForShort, LongestReason());
        if (together)
        {
            Line(Cells(Heading(), fields.Select(f => f.Heading)));
        }
        List<string>? above = null;
        foreach (var row in walk.Rows)
        {
            var told = Told(row);
            var reasons = together && Marks.Repeats(above, told) ? [Marks.Same] : told;
            // What is told in full stands in every row.
            above = speech.Form == ReasonForm.Short ? told : null;
            if (!together)
            {
                Stacked(row, reasons);
            }
            else if (beside >= room)
            {
                Beside(row, [.. reasons.SelectMany(r => Wrapping.Folded(r, beside))]);
            }
            else
            {
                Line(Cells(Label(row), Texts(row)));
                foreach (var reason in reasons)
                {
                    Filled(reason, labelWidth + Gap);
                }
            }
            foreach (var held in walk.Holding?.Rows.GetValueOrDefault(row.Cycle) ?? [])
            {
                Filled(held, together ? labelWidth + Gap : 3, together ? "" : "   ");
            }
        }
        Line();
    }

    private IEnumerable<string> Texts(Row row) =>
        Registers.Select(r => Columns.Text(r, row.Registers[r.Index])).Concat(Said(row));

    /// <summary>What the registers of a row stand for.</summary>
    private List<string> Said(Row row)
    {
        var registers = NumberWords.Over(row.Registers);
        return [.. Datapath.Meanings.Select(m => m.IsSoAfter(row.Step) ? words.Decimal(m.Say(registers)) : "")];
    }

    private string Cells(string label, IEnumerable<string> cells)
    {
        var line = Wrapping.Padded(label, labelWidth);
        foreach (var (field, cell) in fields.Zip(cells))
        {
            line += new string(' ', Gap) + Wrapping.Padded(cell, field.Width);
        }
        return line;
    }

    private void Beside(Row row, List<string> reasons)
    {
        var lead = Cells(Label(row), Texts(row));
        foreach (var reason in reasons.DefaultIfEmpty(""))
        {
            Line(Wrapping.Padded(lead, TableWidth + 2 * Gap) + reason);
            lead = "";
        }
    }

    /// <summary>"cycle 3, round 1, seed": a row's place where no column heading stands above it.</summary>
    private string Spoken(Row row)
    {
        if (row.Cycle == 0)
        {
            return words.Say("walk.load");
        }
        var places = new List<string> { $"{words.Say("walk.cycle")} {row.Cycle}" };
        if (hasRounds && row.Round > 0)
        {
            places.Add($"{words.Say("walk.round")} {row.Round}");
        }
        if (row.Step?.In(words.Language) is { } name)
        {
            places.Add(name);
        }
        return string.Join(words.Say("walk.between-names"), places);
    }

    /// <summary>Registers under each other, long ones folded from the right so that places stand under places.</summary>
    private void Stacked(Row row, List<string> reasons)
    {
        Line(Spoken(row));
        var nameWidth = fields.Max(f => f.Heading.Length);
        foreach (var register in Registers)
        {
            var lead = $"   {register.Name.PadRight(nameWidth)}  ";
            foreach (var piece in Columns.Pieces(register, row.Registers[register.Index]))
            {
                foreach (var fold in Wrapping.Folds(piece, Math.Max(8, columns - lead.Length)))
                {
                    Line(lead + fold);
                    lead = new string(' ', lead.Length);
                }
            }
        }
        foreach (var (meaning, said) in Datapath.Meanings.Zip(Said(row)).Where(m => m.Second.Length > 0))
        {
            Filled(said, nameWidth + 5, $"   {meaning.Name}");
        }
        foreach (var reason in reasons)
        {
            Filled(reason, 3, "   ");
        }
    }

    private List<string> Told(Row row) => [.. Reasons.Of(row, speech).Select(c => $"{c}")];

    /// <summary>In columns, as far as that matters. Reasons are made once more when they are written: those of all rows would be kept else.</summary>
    private int LongestReason()
    {
        var longest = 0;
        foreach (var row in walk.Rows)
        {
            longest = Told(row).Select(Wrapping.Columns).Append(longest).Max();
            if (longest >= RoomForShort)
            {
                break;
            }
        }
        return longest;
    }
}
