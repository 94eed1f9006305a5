using Reckoner.Costing;
using Reckoner.Drawing;
using Reckoner.Questions;
using Reckoner.Reporting;
using Reckoner.Words;
using Xunit;

namespace Reckoner.Tests;

/// <summary>Models of costs: what files say, what is wrong with them, and what is counted by them.</summary>
public class ModelTests
{
    private static CostModel Model(string text)
    {
        var (model, found) = ModelReader.Read(new Source("test.model", text));
        Assert.Empty(found);
        return model!;
    }

    /// <summary>Two times every row, and the units of both kinds changed: area and delay of every machine are twice as much.</summary>
    [Theory]
    [InlineData("divide-still-divisor", 8)]
    [InlineData("divide-srt-radix-4-1994", 8)]
    [InlineData("multiply-booth", 6)]
    [InlineData("divide-goldschmidt", 4)]
    public void Pieces_that_take_twice_as_much_make_machines_that_do(string name, int width)
    {
        var twice = Model(
            """
            model "Twice" -- with a comment
            and area 2 cells delay 2 ps
            or area 2 cells delay 2 ps
            xor area 4 cells delay 4 ps
            choice area 6 cells delay 4 ps
            register area 12 cells
            """
        );
        Assert.Equal(("Twice", "cells", "ps"), (twice.Title, twice.AreaUnit, twice.DelayUnit));
        foreach (var adder in Adders.All)
        {
            var (one, two) = (
                Costs.Of(Walks.At(name, width), adder),
                Costs.Of(Walks.At(name, width), new AdderChoice(adder), twice)
            );
            Assert.Equal(2 * one.Area, two.Area);
            Assert.Equal(2 * one.Clock, two.Clock);
        }
    }

    [Fact]
    public void Pieces_of_their_own_take_the_place_of_gates()
    {
        var chained = Model(
            """
            full-adder area 1 "logic cells" delay 450 ps carry 126 ps
            and area 1 "logic cells" delay 450 ps
            or area 1 "logic cells" delay 450 ps
            xor area 1 "logic cells" delay 450 ps
            choice area 1 "logic cells" delay 450 ps
            register area 1 "logic cells" delay 540 ps
            table-bit area 1 "logic cells" delay 900 ps
            counter-bit area 2 "logic cells"
            """
        );
        var divider = Costs.Of(Walks.At("divide-still-divisor", 8), new AdderChoice(AdderKind.Ripple), chained);
        Assert.Equal(8, divider.Parts.Single(p => p.Kind == CostKind.Unit).Area);
        Assert.Equal(8, divider.Parts.Single(p => p.Kind == CostKind.Counter).Area);
        // The register, the first place, six carries more, the last sum, two choices of the text and the one before the register.
        Assert.Equal(540 + 450 + (6 * 126) + 450 + (3 * 450), divider.Clock);
        var table = Costs.Of(Walks.At("divide-srt-radix-4-1994", 8), new AdderChoice(AdderKind.Ripple), chained);
        Assert.Contains(table.Parts, p => p.Kind == CostKind.Tables && p.Area == p.Bits);
        Assert.Contains(table.Paths.SelectMany(p => p.Hops), h => h is { Kind: PathKind.Lookup, Delay: 900 });
    }

    [Fact]
    public void What_is_wrong_is_said_like_this() =>
        Snapshot.Match(
            nameof(What_is_wrong_is_said_like_this),
            string.Concat(
                new[]
                {
                    "exor area 2 gates",
                    "xor area -2 gates",
                    "xor area 2.5 gates",
                    "xor",
                    "xor area 2",
                    "xor area 2 gates\nand area 1 cells",
                    "xor area 2 cells",
                    "xor area 2 gates\nxor area 3 gates",
                    "full-adder area 7 gates delay 4 gates",
                    "counter-bit area 7 gates delay 4 gates",
                    "table-bit area 7 gates",
                    "model Mine",
                }.Select(text =>
                    DiagnosticText.Of(ModelReader.Read(new Source("test.model", text)).Found, Vocabulary.English, 80)
                )
            )
        );

    [Fact]
    public void The_cheapest_adders_that_meet_a_clock_are_found()
    {
        var machine = Machines.Named("divide-still-divisor");
        var all = Adders.All.Select(a => Costs.Of(Walks.At(machine.Name, 64), a)).ToList();
        foreach (var clock in new[] { 21, 25, 30, 40, 60, 200 })
        {
            var asked = new CostQuestion([new AskedMachine(machine) { Widths = AskedWidths.Read("64") }])
            {
                Clock = clock,
            };
            var found = Assert.Single(asked.Ask().Data!);
            Assert.True(found.Clock <= clock);
            // The machine has one unit, so that it is the least of all kinds.
            Assert.Equal(all.Where(c => c.Clock <= clock).Min(c => c.Area), found.Area);
        }
        var refused = new CostQuestion([new AskedMachine(machine) { Widths = AskedWidths.Read("64") }]) { Clock = 5 };
        Assert.Equal("clock-too-short", Assert.Single(refused.Ask().Refusals).Diagnostic.Id.Name);
        var tooMany = new CostQuestion([new AskedMachine(machine) { Widths = AskedWidths.Read("4..36") }])
        {
            Clock = 500,
        };
        Assert.Equal("widths-too-many", Assert.Single(tooMany.Ask().Refusals).Diagnostic.Id.Name);
    }

    /// <summary>Two units, one of them on no long path: only the other one is made faster.</summary>
    [Fact]
    public void Each_unit_has_the_adder_that_it_needs()
    {
        var machine = Machines.Of(
            """
            machine two-adders
            title "Two adders"
            width n = 16 in 2..64
            operand a : n
            operand b : n
            register A : n loads a
            register B : n loads b
            register S : 4 loads 0
            unit wide : adder n
            unit small : adder 4
            step only
              A <- A + B via wide
              S <- S + B[3..0] via small
            result s = A
            result t = S
            law s >= 0
            """
        );
        var asked = new AskedMachine(machine) { Widths = AskedWidths.Read("16") };
        var found = Assert.Single(
            new CostQuestion([asked]) { Clock = 20 }
                .Ask()
                .Data!
        );
        var units = found.Datapath.Units;
        Assert.NotEqual(AdderKind.Ripple, found.Adders.Of(units[0]));
        Assert.Equal(AdderKind.Ripple, found.Adders.Of(units[1]));
        var named = new AdderChoice(AdderKind.Ripple)
        {
            Named = new Dictionary<string, AdderKind> { ["wide"] = AdderKind.KoggeStone },
        };
        var fast = Assert.Single(
            new CostQuestion([asked]) { Adders = named }
                .Ask()
                .Data!
        );
        var slow = Assert.Single(new CostQuestion([asked]).Ask().Data!);
        Assert.True(fast.Clock < slow.Clock);
        Assert.Equal(
            slow.Parts.Single(p => p.Unit == slow.Datapath.Units[1]).Area,
            fast.Parts.Single(p => p.Unit == fast.Datapath.Units[1]).Area
        );
        var unknown = named with { Named = new Dictionary<string, AdderKind> { ["wid"] = AdderKind.Skip } };
        var refused = new CostQuestion([asked]) { Adders = unknown }.Ask();
        Assert.Equal("no-such-unit", Assert.Single(refused.Refusals).Diagnostic.Id.Name);
        // As it is built, a unit that is not there is refused alike.
        Assert.Equal(
            "no-such-unit",
            Assert
                .Single(
                    new HdlQuestion(asked) { Built = unknown }
                        .Ask(Vocabulary.English)
                        .Refusals
                )
                .Diagnostic.Id.Name
        );
        Assert.Equal("no-unit-named", Refusal("multiply-early-out", "alu"));
    }

    /// <summary>What is said where a unit is named: that the machine does not have.</summary>
    private static string Refusal(string name, string unit)
    {
        var datapath = Walks.At(name, 4);
        var adders = new AdderChoice(AdderKind.Ripple)
        {
            Named = new Dictionary<string, AdderKind> { [unit] = AdderKind.Skip },
        };
        return Assert
            .Single(
                new CostQuestion([datapath]) { Adders = adders }
                    .Ask()
                    .Refusals
            )
            .Diagnostic.Id.Name;
    }

    [Fact]
    public void A_table_beyond_gates_is_refused_and_counted_by_its_bits()
    {
        var machine = Machines.Of(
            """
            machine look-up
            title "A table"
            width n = 8 in 2..24
            operand a : n
            register A : n loads a
            table far(i : n) : n
              else: i
            end
            step look
              A <- far(A)
            result r = A
            law r = a
            """
        );
        var asked = new AskedMachine(machine) { Widths = AskedWidths.Read("16") };
        Assert.Equal("table-beyond-gates", Assert.Single(new CostQuestion([asked]).Ask().Refusals).Diagnostic.Id.Name);
        var counted = new CostQuestion([asked]) { Model = Model("table-bit area 1 gates delay 9 gates") };
        var means = new Means(new InterpretedRunner(), () => TimeSpan.Zero);
        var view = View.All.Single(v => v.Name == "trade");
        AskedMachine[] after = [Walks.At("multiply-booth", 4), asked];
        foreach (var (machines, index) in new[] { (new[] { asked }, 0), ([asked, asked], 0), (after, 1) })
        {
            var refusal = Assert.Single(new DrawQuestion(machines, view, Vocabulary.English).Ask(means).Refusals);
            Assert.Equal(("table-beyond-gates", index), (refusal.Diagnostic.Id.Name, refusal.Index));
        }
        // And the choice before the register.
        Assert.Equal(9 + 2, Assert.Single(counted.Ask().Data!).Clock);
    }
}
