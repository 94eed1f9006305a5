using System.Globalization;
using System.Text;
using System.Xml.Linq;
using Reckoner.Drawing;
using Reckoner.Running;
using Reckoner.Structure;
using Reckoner.Words;
using Xunit;

namespace Reckoner.Tests;

public class BlocksViewTests
{
    public static IEnumerable<TheoryDataRow<string, int>> Machine => At(4, 8).Where(m => Portion.IsShort(m.Data.Item1));

    public static IEnumerable<TheoryDataRow<string, int>> Long => At(4, 8).Where(m => !Portion.IsShort(m.Data.Item1));

    public static IEnumerable<TheoryDataRow<string, int>> Wide => At(32);

    private static IEnumerable<TheoryDataRow<string, int>> At(params int[] widths) =>
        from name in Machines.Catalogue
        from width in Machines.Widths(Machines.Named(name), 0, widths)
        select new TheoryDataRow<string, int>(name, width);

    private static IReadOnlyList<BlockSheet> Still(string name, int width) =>
        BlocksView.StillSheets(Walks.At(name, width), Vocabulary.English);

    /// <summary>The load and a cycle in the middle of a walk.</summary>
    private static IEnumerable<BlockSheet> Moving(string name, int width)
    {
        var datapath = Walks.At(name, width);
        var walk = Walk.Of(datapath, SampleOperands.Of(datapath, new Random(8)).First(o => datapath.IsGiven(o)));
        return new[] { 0, (walk.Cycles + 1) / 2 }
            .Distinct()
            .SelectMany(c =>
                BlocksView.CycleSheets(Figure.Of(walk, Vocabulary.English) with { From = c, To = c, Until = c })
            );
    }

    /// <summary>What the tests ask of a machine's sheets, found while they are drawn once.</summary>
    private sealed record Seen(string Wrong, string Counted);

    private static readonly Once<(string Name, int Width), Seen> Sheets = new(key => Look(key.Name, key.Width));

    private static Seen Look(string name, int width)
    {
        var still = Still(name, width);
        var all = still.Concat(Moving(name, width)).Select(s => (Sheet: s, Scene: s.Scene())).ToList();
        var wrong = all.SelectMany(s => Wrong(s.Sheet, s.Scene)).Concat(Missing(name, width, still)).Take(4);
        return new Seen(
            string.Join('\n', wrong),
            string.Create(
                CultureInfo.InvariantCulture,
                $"{still.Count} {still.Sum(s => s.Layout.Pieces.Count)} {still.Sum(s => s.Ways.Count)}"
            )
        );
    }

    [Theory]
    [Trait("Length", "long")]
    [MemberData(nameof(Long))]
    public void So_do_long_descriptions(string name, int width)
    {
        Everything_stands_on_its_sheet_and_can_be_read(name, width);
        The_bars_behind_the_edge_hold_what_the_walk_stores(name, width);
    }

    [Theory]
    [Trait("Length", "long")]
    [MemberData(nameof(Wide))]
    public void So_does_everything_of_32_bits(string name, int width) =>
        Everything_stands_on_its_sheet_and_can_be_read(name, width);

    [Theory]
    [MemberData(nameof(Machine))]
    public void Everything_stands_on_its_sheet_and_can_be_read(string name, int width)
    {
        var wrong = Sheets[(name, width)].Wrong;
        Assert.True(wrong.Length == 0, wrong);
    }

    private static IEnumerable<string> Wrong(BlockSheet sheet, Scene scene) =>
        Sizes(scene)
            .Concat(BlockShapes.Covered(scene))
            .Concat(Bars(sheet, scene))
            .Concat(Arrows(sheet))
            .Concat(BlockShapes.Foreign(scene));

    /// <summary>A screen of 16 to 9, whose smallest text is a twenty-eighth of its height.</summary>
    private static IEnumerable<string> Sizes(Scene scene)
    {
        if ((scene.Width, scene.Height) != (1280, 720))
        {
            yield return $"a sheet of {scene.Width} to {scene.Height}";
        }
        foreach (
            var text in scene.Leaves.OfType<Text>().Where(t => t.Size < scene.Height / 28 || !scene.Box.Contains(t.Box))
        )
        {
            yield return $"too small or outside: {text.Words}";
        }
        if (XDocument.Parse(SvgWriter.Write(scene, Palette.Light)).Root!.Attribute("viewBox")!.Value != "0 0 1280 720")
        {
            yield return "a title that another font would push over the border";
        }
    }

    private static IEnumerable<string> Bars(BlockSheet sheet, Scene scene)
    {
        var bars = sheet.Layout.Pieces.Concat(sheet.Layout.Afters).ToList();
        for (var i = 0; i < bars.Count; i++)
        {
            if (!scene.Box.Contains(bars[i].Box))
            {
                yield return $"outside: {bars[i].Kind} at {bars[i].Box}";
            }
            foreach (var other in bars.Skip(i + 1).Where(o => o.Box.Overlaps(bars[i].Box)))
            {
                yield return $"bar over bar: {bars[i].Kind} at {bars[i].Box}, {other.Kind} at {other.Box}";
            }
        }
    }

    /// <summary>What runs leaves the lower edge of the bar that gives it and ends at the upper edge of the one that takes it.</summary>
    private static IEnumerable<string> Arrows(BlockSheet sheet) =>
        sheet
            .Ways.Where(w =>
                w.Top != w.From.Bottom
                || w.Bottom != w.Into.Y
                || w.X < w.From.X - 0.01
                || w.To < w.Into.X - 0.01
                || w.To > w.Into.X + w.Into.Breadth
            )
            .Select(w => $"an arrow that ends at no bar: {w}");

    /// <summary>Each register stands once on every sheet, each unit once on some and never twice.</summary>
    private static IEnumerable<string> Missing(string name, int width, IReadOnlyList<BlockSheet> sheets)
    {
        var structure = MachineStructure.Of(Walks.At(name, width));
        foreach (var register in structure.Datapath.Registers)
        {
            if (
                sheets.Any(s =>
                    s.Layout.Pieces.Count(p => p.Kind == BlockPieceKind.Register && p.Register!.Index == register.Index)
                    != 1
                )
            )
            {
                yield return $"register {register.Name} does not stand once on every sheet";
            }
        }
        foreach (var unit in structure.Units.Where(u => u.Settings.Count > 0).Select(u => u.Unit))
        {
            var counts = sheets.Select(s => s.Layout.Pieces.Count(p => p.Unit?.Number == unit.Number)).ToList();
            if (counts.Max() != 1)
            {
                yield return $"unit {unit.Number} stands {counts.Max()} times on a sheet";
            }
        }
    }

    /// <summary>What the sheet of a cycle says is stored is what the walk stores.</summary>
    [Theory]
    [MemberData(nameof(Machine))]
    public void The_bars_behind_the_edge_hold_what_the_walk_stores(string name, int width)
    {
        var datapath = Walks.At(name, width);
        var structure = MachineStructure.Of(datapath);
        var walk = Walk.Of(datapath, SampleOperands.Of(datapath, new Random(3)).First());
        foreach (var row in walk.Rows.Take(12))
        {
            var state = structure.States[row.Step?.Number ?? 0];
            var wires = new CycleWires(structure, state, walk, row);
            Assert.Equal(row.Registers, structure.Registers.Select(r => wires[r.Stored[state.Number]]));
        }
    }

    /// <summary>From version to version nothing moves but what changed.</summary>
    [Theory]
    [InlineData("divide-moving-divisor", "divide-still-divisor", "divide-shared-register")]
    [InlineData("multiply-moving-multiplicand", "multiply-still-multiplicand", "multiply-shared-register")]
    public void Machines_that_follow_one_another_stand_on_one_grid(params string[] names)
    {
        var structures = names.Select(n => MachineStructure.Of(Walks.At(n, 8))).ToList();
        var grids = BlockGrid.Of(structures, 172);
        Assert.Single(grids.Select(g => g.Pitch).Distinct());
        foreach (var (a, b) in grids.Zip(grids.Skip(1)).SelectMany(g => Shared(structures, g.First, g.Second)))
        {
            Assert.Equal(a, b, 3);
        }
        Assert.Equal("2n 2n n, 2n n n, 2n n", string.Join(", ", structures.Select(Wide)));

        static IEnumerable<(double, double)> Shared(List<MachineStructure> all, BlockGrid one, BlockGrid other) =>
            from r in all.SelectMany(s => s.Datapath.Registers)
            where Has(one, r)
            from s in all.SelectMany(s => s.Datapath.Registers)
            where Has(other, s) && s.Name == r.Name
            select (one.X(r), other.X(s));

        static bool Has(BlockGrid grid, Datapaths.Register register) => grid.Stands(register);

        static string Wide(MachineStructure s) =>
            string.Join(' ', s.Datapath.Registers.Where(r => r.Width > 1).Select(BlockGrid.WidthOf));
    }

    [Fact]
    public void The_divider_that_shares_a_register_looks_like_this() =>
        Snapshot.Match(
            nameof(The_divider_that_shares_a_register_looks_like_this),
            SvgWriter.Write(Still("divide-shared-register", 8)[0].Scene(), Palette.Light),
            "svg"
        );

    [Fact]
    public void A_cycle_of_the_divider_whose_divisor_stays_looks_like_this()
    {
        var walk = Walks.Of(Walks.At("divide-still-divisor", 8), 200, 13);
        var figure = Figure.Of(walk, Vocabulary.English) with { From = 6, To = 6, Until = 6 };
        Snapshot.Match(
            nameof(A_cycle_of_the_divider_whose_divisor_stays_looks_like_this),
            SvgWriter.Write(Assert.Single(BlocksView.Of(figure)), Palette.Light),
            "svg"
        );
    }

    /// <summary>The labels of a case, the register that a moment before has left, and names in the reader's language.</summary>
    [Fact]
    public void What_is_asked_and_chosen_reads_as_the_description_has_it()
    {
        var sheets = BlocksView.StillSheets(Walks.At("divide-srt-radix-2", 8), Vocabulary.English);
        var round = sheets[1].Scene().Leaves.OfType<Text>().Select(t => t.Words).ToList();
        Assert.All(["q?", "1", "-1", "P - B", "P + B", "P"], said => Assert.Contains(said, round));
        Assert.Contains(round, said => said.Contains("q = digit(P[8..6])", StringComparison.Ordinal));
        var german = BlocksView.StillSheets(Walks.At("divide-srt-radix-2", 8), Vocabulary.Of("de")!);
        var correct = german[3].Scene().Leaves.OfType<Text>().Select(t => t.Words).ToList();
        Assert.All(["P < 0?", "behält P", "Rest", "Quotient"], said => Assert.Contains(said, correct));
        Assert.Contains(correct, said => said.Contains("korrigieren: ein negativer Rest", StringComparison.Ordinal));
    }

    /// <summary>The point of the first divider: its divisor moves, also where its bar holds digits.</summary>
    [Fact]
    public void In_a_cycle_a_register_that_only_shifts_says_so()
    {
        var walk = Walks.Of(Walks.At("divide-moving-divisor", 5), 29, 6);
        var figure = Figure.Of(walk, Vocabulary.English) with { From = 4, To = 4, Until = 4 };
        var said = Assert.Single(BlocksView.Of(figure)).Leaves.OfType<Text>().Select(t => t.Words);
        Assert.Contains("next D: → 1 place right, 0 enters", said);
    }

    /// <summary>Sheets, bars and ways of the machines. What changes needs a reason.</summary>
    [Fact]
    public void The_sheets_come_out_as_many_and_as_full_as_this() =>
        Snapshot.Match(nameof(The_sheets_come_out_as_many_and_as_full_as_this), Counted(Machine));

    [Fact]
    [Trait("Length", "long")]
    public void Those_of_long_descriptions_come_out_so() =>
        Snapshot.Match(nameof(Those_of_long_descriptions_come_out_so), Counted(Long));

    private static string Counted(IEnumerable<TheoryDataRow<string, int>> machines)
    {
        var table = new StringBuilder("machine width sheets bars ways\n");
        foreach (var row in machines)
        {
            var (name, width) = row.Data;
            table.Append(CultureInfo.InvariantCulture, $"{name} {width} {Sheets[(name, width)].Counted}\n");
        }
        return table.ToString();
    }
}
