using System.Text;
using Reckoner.Datapaths;
using Reckoner.Measuring;
using Reckoner.Notation;
using Reckoner.Reporting;
using Xunit;

namespace Reckoner.Tests;

/// <summary>What every machine of the catalogue is built of at its own width, pinned, so that a change is seen.</summary>
public class HardwareTests
{
    [Fact]
    public void The_machines_of_the_catalogue_are_built_of_this() =>
        Snapshot.Match(
            nameof(The_machines_of_the_catalogue_are_built_of_this),
            string.Join('\n', Machines.Catalogue.Select(m => Table(Hardware.Of(Walks.At(m)))))
        );

    [Fact]
    public void Every_pinned_table_belongs_to_a_test() =>
        Assert.Empty(Snapshot.Strays(Path.GetDirectoryName(Sources.File("tests/Reckoner.Tests/Measuring/x"))!));

    private static string Table(Hardware hardware)
    {
        var at = hardware.Datapath;
        var text = new StringBuilder();
        text.Append($"{at.Machine.Name}, {List(at.Widths.Select(w => $"{w.Name} = {w.Value}"))}\n");
        Line("registers", List(at.Registers.Select(Register)), $"= {hardware.RegisterBits.Count}");
        foreach (var unit in hardware.Units)
        {
            Line("unit", $"{unit.Name ?? "-"}: {unit.Kind} {UnitText.WidthOf(unit)}:", List(Uses(unit)));
        }
        Line("choices", $"{hardware.ChoiceBits} bits:", List(Choices(hardware)));
        Line("control", $"{Cycles(hardware)} cycles, counter {hardware.CounterBits} bits,", List(Control(hardware)));
        return text.ToString();

        void Line(string name, params string[] words) =>
            text.Append($"   {name, -10} {string.Join(' ', words)}".TrimEnd(' ', ',', ':')).Append('\n');
    }

    private static string List(IEnumerable<string> words) => string.Join(", ", words);

    private static string Register(Register register) =>
        $"{register.Name} {(register.IsSigned ? "signed " : "")}{register.Width}";

    private static IEnumerable<string> Uses(Unit unit) =>
        unit.Uses.Select(u => $"{(u.Step == 0 ? "load" : u.Step)} {Printer.Text(u.Value.Written!)}").Distinct();

    private static IEnumerable<string> Choices(Hardware hardware) =>
        hardware
            .Choices.GroupBy(c => (c.Origin.Step, c.Place))
            .Select(g => $"{Place(hardware, g.Key.Step, g.Key.Place.Line, g.Key.Place.Source)}: {g.Sum(c => c.Width)}")
            .Concat(hardware.Inputs.Where(i => i.Words > 1).Select(i => $"{i.Register.Name} {i.Words} words by step"));

    private static string Place(Hardware hardware, int step, int line, Source? source)
    {
        var isOwn = source == hardware.Datapath.Machine.Description.Source;
        return $"{(step == 0 ? "load " : "")}line {line}{(isOwn ? "" : $" of {source!.Name}")}";
    }

    private static string Cycles(Hardware hardware) =>
        hardware.Cycles.Least == hardware.Cycles.Most
            ? $"{hardware.Cycles.Most}"
            : $"{hardware.Cycles.Least}..{hardware.Cycles.Most}";

    private static IEnumerable<string> Control(Hardware hardware) =>
        (hardware.UsesLast ? ["last"] : Array.Empty<string>())
            .Concat(hardware.Decisions.Select(d => Printer.Text(d.Value.Written!)).Distinct())
            .Concat(hardware.Datapath.Tables.Select(t => $"table {t.Name} {t.Cells.Count} x {t.Width}"));
}
