using System.Globalization;
using System.Text;
using Reckoner.Checking;
using Reckoner.Datapaths;
using Reckoner.Words;

namespace Reckoner.Reporting;

/// <summary>
/// Idle bits as a picture in text: a row per cycle, a column per register bit. # carries something, 0 and 1 are the same for all
/// operands, - is not looked at any more.
/// </summary>
public static class IdleText
{
    private const string Indent = "   ";

    public static string Of(Datapath datapath, IReadOnlyList<IdleRow> rows, Vocabulary words, int columns)
    {
        var text = new StringBuilder();
        var widths = string.Join(", ", datapath.Widths.Select(w => $"{w.Name} = {w.Value}"));
        text.Append($"{datapath.Machine.Name} {words.Say("walk.at", ("widths", widths))}\n");
        Filled(text, words.Say("idle.over-all", ("cases", rows[0].Cases)), columns, "");
        text.Append('\n');
        Filled(text, words.Say("idle.legend"), columns, Indent);
        text.Append('\n');
        Table(text, datapath, rows, words, columns);
        text.Append('\n');
        foreach (var (first, second, most) in Idle.Sharable(datapath, rows))
        {
            var wider = first.Width >= second.Width ? first : second;
            Filled(
                text,
                words.Say(
                    "idle.sharable",
                    ("first", first.Name),
                    ("second", second.Name),
                    ("most", most),
                    ("wider", wider.Name),
                    ("width", wider.Width)
                ),
                columns,
                Indent
            );
        }
        return text.ToString().TrimEnd('\n') + "\n";
    }

    private static void Filled(StringBuilder text, string said, int columns, string indent)
    {
        foreach (var line in Wrapping.Lines(said, columns - indent.Length))
        {
            text.Append(indent).Append(line).Append('\n');
        }
    }

    private static void Table(
        StringBuilder text,
        Datapath datapath,
        IReadOnlyList<IdleRow> rows,
        Vocabulary words,
        int columns
    )
    {
        var cycle = words.Say("walk.cycle");
        var showsCases = rows.Any(r => r.Cases != rows[0].Cases);
        var casesWidth = rows[0].Cases.ToString(CultureInfo.InvariantCulture).Length + 2;
        var width =
            cycle.Length
            + (showsCases ? casesWidth : 0)
            + datapath.Registers.Sum(r => 2 + Math.Max(r.Name.Length, Columns.Width(r)));
        var together = width <= columns;
        if (together)
        {
            var heads = datapath.Registers.Select(r => "  " + r.Name.PadRight(Columns.Width(r)));
            text.Append((cycle + string.Concat(heads)).TrimEnd()).Append('\n');
        }
        foreach (var row in rows)
        {
            var label = (
                row.Cycle == 0 ? words.Say("walk.load") : row.Cycle.ToString(CultureInfo.InvariantCulture)
            ).PadLeft(cycle.Length);
            var cases = showsCases ? "  " + words.Say("idle.cases", ("cases", row.Cases)) : "";
            if (together)
            {
                var cells = datapath.Registers.Select(r =>
                    "  " + Picture(row, r).PadRight(Math.Max(r.Name.Length, Columns.Width(r)))
                );
                text.Append((label + string.Concat(cells) + cases).TrimEnd()).Append('\n');
                continue;
            }
            text.Append((label.TrimStart() + cases).TrimEnd()).Append('\n');
            foreach (var register in datapath.Registers)
            {
                text.Append($"{Indent}{register.Name}  {Picture(row, register)}\n");
            }
        }
    }

    /// <summary>The bits of a register, most significant first, cut where its parts end.</summary>
    public static string Picture(IdleRow row, Register register)
    {
        var picture = new StringBuilder();
        var cuts = Columns.Cuts(register);
        for (var bit = register.Width - 1; bit >= 0; bit--)
        {
            picture.Append(
                row.Bits[register.Index][bit] switch
                {
                    Carried.Something => '#',
                    Carried.AlwaysZero => '0',
                    Carried.AlwaysOne => '1',
                    Carried.Unread => '-',
                }
            );
            if (bit > 0 && cuts.Contains(bit))
            {
                picture.Append(' ');
            }
        }
        return picture.ToString();
    }

    public static string Json(Datapath datapath, IReadOnlyList<IdleRow> rows) =>
        Reporting.Json.Document(json =>
        {
            json.Subject(datapath);
            json.WriteString("over", "all operands");
            json.Objects(
                "rows",
                rows,
                row =>
                {
                    json.WriteNumber("cycle", row.Cycle);
                    json.WriteNumber("repeat", row.Repeat);
                    json.WriteNumber("round", row.Round);
                    json.WriteString("step", row.Step?.Name);
                    json.WriteString("cases", row.Cases.ToString(CultureInfo.InvariantCulture));
                    json.Object(
                        "registers",
                        () =>
                        {
                            foreach (var register in datapath.Registers)
                            {
                                json.WriteString(
                                    register.Name,
                                    Picture(row, register).Replace(" ", "", StringComparison.Ordinal)
                                );
                            }
                        }
                    );
                }
            );
            json.Objects(
                "sharable",
                Idle.Sharable(datapath, rows),
                pair =>
                {
                    json.WriteString("first", pair.First.Name);
                    json.WriteString("second", pair.Second.Name);
                    json.WriteNumber("most", pair.Most);
                }
            );
        });
}
