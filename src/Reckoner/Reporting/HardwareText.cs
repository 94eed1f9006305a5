using System.Text;
using Reckoner.Datapaths;
using Reckoner.Measuring;
using Reckoner.Notation;
using Reckoner.Words;

namespace Reckoner.Reporting;

/// <summary>The hardware of a machine as text: registers, units and what they serve, choices, control.</summary>
public static class HardwareText
{
    private const string Indent = "   ";

    public static string Of(Hardware hardware, Vocabulary words, int columns)
    {
        var text = new StringBuilder();
        Registers(text, hardware, words, columns);
        Units(text, hardware, words, columns);
        Choices(text, hardware, words, columns);
        Control(text, hardware, words, columns);
        return text.ToString();
    }

    /// <summary>A line, and of which text where it is that of a machine inside this one.</summary>
    private static string Line(int line, Source? source, Datapath datapath, Vocabulary words) =>
        source is null || source == datapath.Machine.Description.Source
            ? words.Say("hardware.line", ("line", line))
            : words.Say("hardware.line-of", ("line", line), ("source", source.Name));

    private static void Heading(StringBuilder text, string heading) => text.Append(heading).Append('\n');

    /// <summary>Rows whose first cells stand in columns; the last fills the rest of the page.</summary>
    private static void Table(StringBuilder text, IReadOnlyList<string[]> rows, int columns)
    {
        if (rows.Count == 0)
        {
            text.Append('\n');
            return;
        }
        var last = rows[0].Length - 1;
        var widths = Enumerable.Range(0, last).Select(i => rows.Max(r => Wrapping.Columns(r[i]))).ToList();
        var before = Indent.Length + widths.Sum(w => w + 2);
        foreach (var row in rows)
        {
            var lead = Indent + string.Concat(row.Take(last).Select((cell, i) => Wrapping.Padded(cell, widths[i] + 2)));
            foreach (var line in Wrapping.Lines(row[last], Math.Max(20, columns - before)).DefaultIfEmpty(""))
            {
                text.Append((lead + line).TrimEnd()).Append('\n');
                lead = new string(' ', before);
            }
        }
        text.Append('\n');
    }

    private static void Registers(StringBuilder text, Hardware hardware, Vocabulary words, int columns)
    {
        Heading(text, words.Say("hardware.registers", ("bits", hardware.RegisterBits.ToString())));
        var rows = new List<string[]>();
        foreach (var register in hardware.Datapath.Registers)
        {
            var loads = words.Say("hardware.loads", ("value", Printer.Text(register.Loads.Written!)));
            var said = register.Phrase is null ? loads : $"{register.Phrase.In(words.Language)}; {loads}";
            rows.Add([register.Name, register.Size.ToString(), register.IsSigned ? words.Say("signed") : "", said]);
            foreach (var part in register.Parts)
            {
                var name = part.Phrase is null ? part.Name : $"{part.Name}, {part.Phrase.In(words.Language)}";
                rows.Add([
                    $"  [{part.High}..{part.Low}]",
                    part.Size.ToString(),
                    part.Reading == Reading.Signed ? words.Say("signed") : "",
                    name,
                ]);
            }
        }
        Table(text, rows, columns);
    }

    private static void Units(StringBuilder text, Hardware hardware, Vocabulary words, int columns)
    {
        Heading(text, words.Say("hardware.units", ("count", hardware.Units.Count())));
        var rows = hardware.Units.Select(unit =>
            new[] { unit.Name ?? "-", KindOf(unit, words), WidthOf(unit), Uses(unit, hardware.Datapath, words) }
        );
        Table(text, [.. rows], columns);
    }

    public static string KindOf(Unit unit, Vocabulary words) => KindOf(unit.Kind, words);

    public static string KindOf(Datapaths.UnitKind kind, Vocabulary words) =>
        words.Say(
            kind switch
            {
                Datapaths.UnitKind.Adder => "adder",
                Datapaths.UnitKind.Multiplier => "multiplier",
                Datapaths.UnitKind.Comparator => "comparator",
                Datapaths.UnitKind.CarrySaveAdder => "carry-save-adder",
            }
        );

    public static string WidthOf(Unit unit) =>
        unit.Kind == Datapaths.UnitKind.Multiplier ? $"{unit.Size} × {unit.By}" : unit.Size.ToString();

    private static string Uses(Unit unit, Datapath datapath, Vocabulary words)
    {
        var steps = datapath.Steps.ToDictionary(s => s.Number);
        var uses = unit.Uses.Select(use =>
        {
            var place =
                use.Step == 0 ? words.Say("hardware.at-load")
                : steps[use.Step].Name is { } name ? $"{name}, "
                : "";
            return words.Say(
                "hardware.use",
                ("value", Printer.Text(use.Value.Written!)),
                ("place", place),
                ("line", Line(use.Line, use.Value.Source, datapath, words))
            );
        });
        return string.Join("; ", uses.Distinct());
    }

    private static void Choices(StringBuilder text, Hardware hardware, Vocabulary words, int columns)
    {
        Heading(text, words.Say("hardware.choices", ("bits", hardware.ChoiceBits)));
        var rows = hardware
            .Choices.GroupBy(c => (c.Step, c.Line, c.Source))
            .Select(g =>
                new[]
                {
                    words.Say("hardware.bits", ("count", g.Sum(c => c.Width))),
                    (g.Key.Step == 0 ? words.Say("hardware.at-load") : "")
                        + Line(g.Key.Line, g.Key.Source, hardware.Datapath, words),
                }
            )
            .ToList();
        foreach (var input in hardware.Inputs.Where(i => i.Words > 1))
        {
            rows.Add([
                words.Say("hardware.bits", ("count", input.Register.Width)),
                words.Say("hardware.by-step", ("name", input.Register.Name), ("count", input.Words)),
            ]);
        }
        Table(text, rows, columns);
    }

    private static void Control(StringBuilder text, Hardware hardware, Vocabulary words, int columns)
    {
        Heading(text, words.Say("hardware.control"));
        var (least, most) = hardware.Cycles;
        var cycles =
            least == most ? most.ToString(System.Globalization.CultureInfo.InvariantCulture) : $"{least}..{most}";
        var rows = new List<string[]> { new[] { words.Say("hardware.cycles"), cycles } };
        if (hardware.CounterBits > 0)
        {
            var loops = hardware
                .Datapath.Schedule.Where(s => s.IsLoop)
                .Select(s =>
                    words.Say(
                        "hardware.rounds",
                        ("count", s.Count),
                        ("line", Line(s.Line, s.Steps[0].Source, hardware.Datapath, words))
                    )
                );
            rows.Add([
                words.Say("hardware.counter"),
                words.Say("hardware.bits", ("count", hardware.CounterBits)) + ": " + string.Join(", ", loops),
            ]);
        }
        if (hardware.UsesLast)
        {
            rows.Add([words.Say("hardware.last"), words.Say("hardware.last-decoded")]);
        }
        foreach (var decision in hardware.Decisions.DistinctBy(d => (d.Text, d.Line, d.Source)))
        {
            rows.Add([
                words.Say("hardware.decision"),
                words.Say(
                    "hardware.decided",
                    ("value", decision.Text),
                    ("line", Line(decision.Line, decision.Source, hardware.Datapath, words))
                ),
            ]);
        }
        foreach (var table in hardware.Datapath.Tables)
        {
            rows.Add([
                words.Say("hardware.table"),
                words.Say(
                    "hardware.table-size",
                    ("name", table.Name),
                    ("cells", table.Cells.Count),
                    ("bits", table.Width)
                ),
            ]);
        }
        Table(text, rows, columns);
    }
}
