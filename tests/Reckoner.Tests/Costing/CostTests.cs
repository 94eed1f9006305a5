using System.Numerics;
using Reckoner.Binding;
using Reckoner.Costing;
using Reckoner.Structure;
using Xunit;

namespace Reckoner.Tests;

/// <summary>What machines cost: worked out by hand for a small one, and what must be so for all.</summary>
public class CostTests
{
    private static MachineCost Cost(string name, int width, AdderKind adder = AdderKind.Ripple) =>
        Costs.Of(Walks.At(name, width), adder);

    /// <summary>
    /// Worked out by hand. Registers A and B of 4 bits: 8 bits of 6. A takes a word at the load and another in the step: 4 choices of 3;
    /// B stays: 4 to keep. The adder: a half adder of 3, three full adders of 7, less the two gates of the last carry, which nobody
    /// takes (its own and one with the or): 3 + 7 + 7 + 4. The path: the adder's last sum waits for the carry of place 0 (1), of 1 (4),
    /// of 2 (6), and an exclusive or (8); then the choice before A (10).
    /// </summary>
    [Fact]
    public void A_sum_costs_what_is_worked_out_by_hand()
    {
        var machine = Machine.Read(
            new Source(
                "sum.machine",
                """
                machine sum
                title "A sum"
                width n = 4 in 2..64
                operand a : n
                operand b : n
                register A : n loads a
                register B : n loads b
                step add
                  A <- A + B
                result s = A
                law s <= 2^n - 1
                """
            ),
            _ => null
        );
        var cost = Costs.Of(Machines.Bound(machine, ("n", 4)), AdderKind.Ripple);
        Assert.Equal(
            [(CostKind.Registers, 48L), (CostKind.RegisterInputs, 24L), (CostKind.Unit, 21L)],
            cost.Parts.Select(p => (p.Kind, p.Area))
        );
        Assert.Equal(10, cost.Clock);
        Assert.Equal(
            [(PathKind.Register, 0), (PathKind.Unit, 8), (PathKind.RegisterInput, 10)],
            cost.Critical.Hops.Select(h => (h.Kind, h.At))
        );
        Assert.Equal((10L, 10L), cost.Time);
    }

    public static TheoryData<string> Names => [.. Machines.Catalogue];

    private static int Narrow(string name)
    {
        var (low, high) = Machines.Range(Machines.Named(name));
        return Math.Clamp(4, low, high);
    }

    [Theory]
    [MemberData(nameof(Names))]
    public void Every_machine_has_a_cost_and_paths_that_begin_somewhere(string name)
    {
        var cost = Cost(name, Narrow(name));
        Assert.True(cost.Area > 0);
        Assert.True(cost.Clock > 0);
        Assert.Equal(cost.Datapath.Steps.Count() + 1, cost.Paths.Count(p => p.Loop is null));
        Assert.All(
            cost.Paths,
            path =>
            {
                var at = 0;
                Assert.All(path.Hops, hop => Assert.Equal(at += hop.Delay, hop.At));
                Assert.All(
                    path.Hops.Take(1),
                    hop =>
                        Assert.True(
                            hop.Kind is PathKind.Register or PathKind.Operand or PathKind.Control or PathKind.Last
                        )
                );
            }
        );
    }

    /// <summary>A refinement that saves an adder half as wide and register bits is smaller and, with carries that ripple, faster.</summary>
    [Fact]
    public void Each_version_of_the_dividers_is_smaller_and_no_slower()
    {
        string[] versions = ["divide-moving-divisor", "divide-still-divisor", "divide-shared-register"];
        var costs = versions.Select(v => Cost(v, 16)).ToList();
        Assert.True(costs[0].Area > costs[1].Area && costs[1].Area > costs[2].Area);
        Assert.True(costs[0].Clock > costs[1].Clock && costs[1].Clock >= costs[2].Clock);
    }

    [Fact]
    public void What_grows_by_a_law_is_found_to()
    {
        foreach (var law in Enum.GetValues<GrowthLaw>().Except([GrowthLaw.Constant]))
        {
            var growth = Growth.Of([
                .. new[] { 4, 8, 16, 32, 64 }.Select(n => (n, 500 + (long)Math.Round(1000 * Growth.At(law, n)))),
            ]);
            Assert.Equal(law, growth!.Value.Law);
            Assert.InRange(growth.Value.Factor, 999.9, 1000.1);
            Assert.InRange(growth.Value.Anyway, 499, 501);
            Assert.InRange(growth.Value.Deviation, 0, 1e-4);
        }
        Assert.Null(Growth.Of([(4, 1), (5, 2), (6, 3), (7, 4)]));
    }

    /// <summary>A row of carries takes two gates for each bit, a tree of Sklansky's two for each level.</summary>
    [Theory]
    [InlineData(AdderKind.Ripple, "n")]
    [InlineData(AdderKind.Sklansky, "log n")]
    public void The_clock_grows_as_the_carries_do(AdderKind adder, string law)
    {
        var growth = Growths
            .Of([.. new[] { 8, 16, 32, 64, 128 }.Select(n => Cost("divide-shared-register", n, adder))])
            .Single(g => g.Of == CostSum.Clock)
            .Growth;
        Assert.Equal(law == "n" ? GrowthLaw.Linear : GrowthLaw.Logarithm, growth.Law);
        Assert.Equal(2, growth.Factor, 1e-6);
        Assert.Equal(0, growth.Deviation);
    }

    [Fact]
    public void A_prefix_adder_buys_time_with_area()
    {
        var (slow, fast) = (Cost("divide-still-divisor", 64), Cost("divide-still-divisor", 64, AdderKind.Sklansky));
        Assert.True(fast.Clock < slow.Clock / 3);
        Assert.True(fast.Area > slow.Area);
    }

    /// <summary>The gates of every unit of the catalogue compute what the unit is told: drawn operands, against whole numbers.</summary>
    [Theory]
    [MemberData(nameof(Names))]
    public void Gates_of_units_compute_what_they_are_told(string name)
    {
        var structure = MachineStructure.Of(Walks.At(name, Narrow(name)));
        var random = new Random(4);
        foreach (var unit in structure.Units.Where(u => u.Settings.Count > 0))
        {
            foreach (var kind in Adders.All)
            {
                var gates = UnitGates.Of(unit, kind);
                foreach (var function in unit.Settings.Select(s => s.Function).Distinct())
                {
                    Told(gates, function, random);
                }
            }
        }
    }

    /// <summary>What no machine of the catalogue has: a unit that multiplies with and without a sign, sides of two widths.</summary>
    private const string Products = """
        machine products
        title "Products"
        width n = 4 in 2..16
        operand a : n
        operand b : n
        register A : n loads a
        register B : n loads b
        register P : 2n loads 0
        register S : signed 2n loads 0
        register T : signed 2n loads 0
        unit both : multiplier n
        unit one : multiplier n
        step bare
          P <- A * B via both
        step read
          S <- signed(A) * signed(B) via both
        step alone
          T <- signed(A) * signed(B) via one
        result p = P
        result s = S
        result t = T
        law p >= 0
        """;

    [Theory]
    [InlineData(2)]
    [InlineData(4)]
    [InlineData(7)]
    public void Products_of_both_readings_are_computed_by_gates(int width)
    {
        var structure = MachineStructure.Of(Machines.Bound(Machines.Of(Products), ("n", width)));
        var random = new Random(width);
        var units = structure.Units.Where(u => u.Settings.Count > 0).ToList();
        Assert.Equal(
            [
                [UnitFunction.Multiply, UnitFunction.MultiplySigned],
                [UnitFunction.MultiplySigned],
            ],
            units.Select(u => u.Settings.Select(s => s.Function).Distinct().Order().ToArray())
        );
        foreach (var unit in units)
        {
            foreach (var function in unit.Settings.Select(s => s.Function).Distinct())
            {
                Told(UnitGates.Of(unit, AdderKind.BrentKung), function, random);
            }
        }
    }

    /// <summary>What the catalogue and the products together have, so that nothing is held against nothing.</summary>
    [Fact]
    public void Every_function_of_a_unit_is_tried() =>
        Assert.Equal(
            Enum.GetValues<UnitFunction>(),
            Machines
                .Catalogue.Select(name => MachineStructure.Of(Walks.At(name, Narrow(name))))
                .Append(MachineStructure.Of(Machines.Bound(Machines.Of(Products), ("n", 4))))
                .SelectMany(s => s.Units)
                .SelectMany(u => u.Settings)
                .Select(s => s.Function)
                .Distinct()
                .Order()
        );

    /// <summary>
    /// Two units, of which in one branch the first takes what the second gives, in the other the reverse: the longest path is that of
    /// the branch with the longer one, whichever it is, and whatever the units are called.
    /// </summary>
    [Theory]
    [InlineData("u", "v")]
    [InlineData("v", "u")]
    public void Units_that_wait_for_each_other_in_turn_have_the_path_of_the_longer_branch(string one, string other)
    {
        var cost = Costs.Of(Machines.Bound(Machines.Of(Turns(one, other, both: true)), ("n", 6)), AdderKind.Ripple);
        var alone = Costs.Of(Machines.Bound(Machines.Of(Turns(one, other, both: false)), ("n", 6)), AdderKind.Ripple);
        Assert.Equal(
            ["u", "v"],
            cost.Critical.Hops.Where(h => h.Kind == PathKind.Unit).Select(h => h.Unit!.Name).Order()
        );
        Assert.True(cost.Clock >= alone.Clock);
        Assert.Equal(
            cost.Clock,
            Costs.Of(Machines.Bound(Machines.Of(Turns(other, one, both: true)), ("n", 6)), AdderKind.Ripple).Clock
        );
    }

    private static string Turns(string one, string other, bool both) =>
        $"""
            machine turns
            title "Two units in turn"
            width n = 6 in 2..16
            operand a : n
            operand b : n
            operand c : 1
            register A : n loads a
            register B : n loads b
            register C : 1 loads c
            unit u : adder n
            unit v : adder n
            step only
              if C
                let x = A + B via {one}
                A <- x + B via {other}
              else
                let y = {(both ? $"A + B via {other}" : "B")}
                A <- y + A via {one}
              end
            result s = A
            law s >= 0
            """;

    /// <summary>Two widths of which one is followed; what stays is said to stay.</summary>
    [Fact]
    public void Growth_follows_the_width_that_varies()
    {
        static IReadOnlyList<MachineCost> At(params int[] widths) =>
            [
                .. widths.Select(m =>
                    Costs.Of(
                        Machines.Bound(Machines.Named("multiply-two-widths"), ("n", 8), ("m", m)),
                        AdderKind.Ripple
                    )
                ),
            ];
        var growths = Growths.Of(At(2, 3, 4, 5, 6, 8));
        Assert.Equal(2, growths.Count);
        Assert.All(growths, g => Assert.True(double.IsFinite(g.Growth.Factor) && g.Growth.Deviation < 0.2));
        Assert.Empty(Growths.Of(At(4, 4, 4, 4, 4)));
        Assert.Equal(GrowthLaw.Constant, Growth.Of([.. Enumerable.Range(4, 6).Select(n => (n, 7L))])!.Value.Law);
    }

    private static void Told(UnitGates gates, UnitFunction function, Random random)
    {
        for (var i = 0; i < 20; i++)
        {
            var operands = gates
                .Operands.Select(o => (BigInteger)random.NextInt64() & ((BigInteger.One << o.Length) - 1))
                .ToArray();
            if (i % 4 == 0)
            {
                // Drawn words are hardly ever the same.
                operands[1] = operands[0] & Mask(gates.Operands[1].Length);
            }
            var bits = operands
                .Zip(gates.Operands)
                .SelectMany(p => Enumerable.Range(0, p.Second.Length).Select(k => ((p.First >> k) & 1) == 1 ? 1UL : 0))
                .ToList();
            if (gates.IsTold)
            {
                bits.Add(function is UnitFunction.Subtract or UnitFunction.MultiplySigned ? 1UL : 0);
            }
            var values = gates.Evaluate(bits);
            var width = gates.Operands[0].Length;
            var (a, b) = (operands[0], operands[1]);
            switch (function)
            {
                case UnitFunction.Add:
                    Same(UnitOutput.Result, (a + b) & Mask(width));
                    Same(UnitOutput.Carry, (a + b) >> width);
                    break;
                case UnitFunction.Subtract:
                    Same(UnitOutput.Result, (a - b) & Mask(width));
                    Same(UnitOutput.Borrow, a < b ? 1 : 0);
                    break;
                case UnitFunction.Less:
                    Same(UnitOutput.Less, a < b ? 1 : 0);
                    break;
                case UnitFunction.Equal:
                    Same(UnitOutput.Equal, a == b ? 1 : 0);
                    break;
                case UnitFunction.Multiply:
                    Same(UnitOutput.Result, a * b);
                    break;
                case UnitFunction.MultiplySigned:
                    var product = Numbers.Bits.AsSigned(a, width) * Numbers.Bits.AsSigned(b, gates.Operands[1].Length);
                    Same(UnitOutput.Result, product & Mask(width + gates.Operands[1].Length));
                    break;
                case UnitFunction.CarrySave:
                    Same(UnitOutput.Result, a ^ b ^ operands[2]);
                    Same(UnitOutput.CarryWord, (a & b) | (a & operands[2]) | (b & operands[2]));
                    break;
                default:
                    Assert.Fail($"{function} is not tried");
                    break;
            }

            void Same(UnitOutput output, BigInteger expected) =>
                Assert.Equal(
                    expected,
                    gates[output]
                        .Index()
                        .Aggregate(BigInteger.Zero, (n, p) => n + ((BigInteger)(values[p.Item] & 1) << p.Index))
                );
        }
    }

    private static BigInteger Mask(int width) => (BigInteger.One << width) - 1;

    [Fact]
    public void Gates_of_tables_give_their_cells()
    {
        var tables = Machines.Catalogue.SelectMany(name => Walks.At(name, Narrow(name)).Tables).ToList();
        Assert.NotEmpty(tables);
        foreach (var table in tables)
        {
            var gates = new TableGates(table);
            var address = BitOperations.Log2((uint)table.Cells.Count);
            for (var cell = 0; cell < table.Cells.Count; cell++)
            {
                var values = gates.Evaluate([.. Enumerable.Range(0, address).Select(i => (ulong)((cell >> i) & 1))]);
                Assert.Equal(
                    table.Cells[cell],
                    gates
                        .Bits.Index()
                        .Aggregate(BigInteger.Zero, (n, p) => n + ((BigInteger)(values[p.Item] & 1) << p.Index))
                );
            }
        }
    }
}
