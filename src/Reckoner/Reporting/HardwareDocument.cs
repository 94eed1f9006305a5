using Reckoner.Datapaths;
using Reckoner.Measuring;
using Reckoner.Tables;
using Reckoner.Words;

namespace Reckoner.Reporting;

/// <summary>The hardware of a machine: registers, units and what they serve, choices, control.</summary>
internal sealed partial class HardwareDocument
{
    private readonly Hardware hardware;
    private readonly Vocabulary words;

    private HardwareDocument(Hardware hardware, Vocabulary words)
    {
        this.hardware = hardware;
        this.words = words;
    }

    private Datapath Datapath => hardware.Datapath;

    public static Document Of(Hardware hardware, Vocabulary words)
    {
        var made = new HardwareDocument(hardware, words);
        var datapath = hardware.Datapath;
        return new Document(
            datapath.Machine.Name,
            words.Language,
            Names.Of(datapath, words),
            datapath.Machine.Title?.In(words.Language),
            [made.Registers(), made.Units(), made.Choices(), made.Control()]
        );
    }

    /// <param name="heads">The last is that of what is said.</param>
    private Grid Inventory(string name, string caption, IReadOnlyList<string> heads, IEnumerable<GridRow> rows) =>
        new(
            name,
            caption,
            [
                .. heads.Select(
                    (key, i) =>
                        new GridColumn(
                            words.Say(key),
                            i == heads.Count - 1 ? ColumnRole.Sentences
                                : i == 0 ? ColumnRole.Label
                                : ColumnRole.Short
                        )
                ),
            ],
            [.. rows]
        )
        {
            Role = GridRole.Inventory,
        };

    private static GridRow Row(params IEnumerable<string> cells) => new([.. cells.Select(Cell.Of)]);

    /// <summary>A line, and of which text where it is that of a machine inside this one.</summary>
    private string Line(int line, Source? source) =>
        source is null || source == Datapath.Machine.Description.Source
            ? words.Say("hardware.line", ("line", line))
            : words.Say("hardware.line-of", ("line", line), ("source", source.Name));

    private string BitsOf(int count) => words.Say("hardware.bits", ("count", count));

    private Grid Registers() =>
        Inventory(
            "registers",
            words.Say("hardware.registers", ("bits", hardware.RegisterBits.ToString())),
            ["head.name", "head.width", "head.sign", "head.said"],
            Datapath.Registers.SelectMany(r => r.Parts.Select(Of).Prepend(Of(r)))
        );

    private GridRow Of(Register register)
    {
        var loads = words.Say("hardware.loads", ("value", WrittenText.Of(register.Loads, words)));
        var said = register.Phrase is null ? loads : $"{register.Phrase.In(words.Language)}; {loads}";
        return Row(register.Name, register.Size.ToString(), register.IsSigned ? words.Say("signed") : "", said);
    }

    private GridRow Of(Part part) =>
        Row(
            $"[{part.High}..{part.Low}]",
            part.Size.ToString(),
            part.Reading == Reading.Signed ? words.Say("signed") : "",
            part.Phrase is null ? part.Name : $"{part.Name}, {part.Phrase.In(words.Language)}"
        ) with
        {
            IsPart = true,
        };

    private Grid Units() =>
        Inventory(
            "units",
            words.Say("hardware.units", ("count", hardware.Units.Count())),
            ["head.name", "head.kind", "head.width", "head.serves"],
            hardware.Units.Select(unit =>
                Row(unit.Name ?? "-", UnitText.KindOf(unit, words), UnitText.WidthOf(unit), Uses(unit))
            )
        );

    private string Uses(Unit unit)
    {
        var steps = Datapath.Steps.ToDictionary(s => s.Number);
        var uses = unit.Uses.Select(use =>
        {
            var place =
                use.Step == 0 ? words.Say("hardware.at-load")
                : steps[use.Step].In(words.Language) is { } name ? $"{name}, "
                : "";
            return words.Say(
                "hardware.use",
                ("value", WrittenText.Of(use.Value, words)),
                ("place", place),
                ("line", Line(use.Line, use.Value.Source))
            );
        });
        return string.Join("; ", uses.Distinct());
    }
}
