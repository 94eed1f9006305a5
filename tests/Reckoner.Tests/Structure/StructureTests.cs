using System.Numerics;
using Reckoner.Datapaths;
using Reckoner.Running;
using Reckoner.Structure;
using Xunit;

namespace Reckoner.Tests;

/// <summary>The structure of the hardware is complete and true: run by itself it does what the walk does, edge by edge.</summary>
public class StructureTests
{
    /// <summary>Operands have six bits together, and all of them are tried, or so many are.</summary>
    private const int Most = 32;

    public static TheoryData<string> Catalogue => [.. Machines.Catalogue];

    [Theory]
    [MemberData(nameof(Catalogue))]
    public void A_machine_run_from_its_structure_alone_is_the_walk(string name)
    {
        var seed = Seeds.Next();
        var random = new Random(seed);
        var machine = Machines.Named(name);
        foreach (var width in Machines.Widths(machine, upTo: 5, 8).TakeLast(2))
        {
            var structure = MachineStructure.Of(Machines.Bound(machine, width));
            foreach (var operands in Operands(structure.Datapath, random))
            {
                Seeds.Told(
                    seed,
                    $"width {width}, operands {string.Join(' ', operands)}",
                    () => Assert.True(IsTrue(structure, operands))
                );
            }
        }
    }

    /// <summary>
    /// The upper half of R is written in either way of the branch, the lower half in one; S is shifted with its sign, and its top
    /// bit alone is itself again.
    /// </summary>
    [Fact]
    public void An_enable_stands_only_before_bits_that_stay_together()
    {
        var structure = MachineStructure.Of(
            Machines.Bound(
                """
                machine m
                width n = 4 in 2..8
                operand a : n
                register R : 2n loads extend(a)
                register S : signed n loads signed(a)
                step s
                  if R[0]
                    R[2n-1..n] <- R[n-1..0]
                  else
                    R <- R[n-1..0]:R[2n-1..n]
                  end
                  S <- shr(S, S[n-1])
                result r = R
                """
            )
        );
        var fields = structure.Registers.SelectMany(r =>
            r.Fields.Select(f => (r.Register.Name, f.High, f.Low, f.Keeps))
        );
        Assert.Equal([("R", 7, 4, false), ("R", 3, 0, true), ("S", 3, 0, false)], fields);
    }

    /// <summary>
    /// Read from the description: step 2 subtracts 0:D from A and step 3 adds it again, both in alu; D is only loaded.
    /// </summary>
    [Fact]
    public void Before_one_unit_that_adds_and_subtracts_the_same_words_nothing_is_chosen()
    {
        var structure = MachineStructure.Of(Walks.At("divide-adding-back", 4));
        var alu = Assert.Single(structure.Units);
        Assert.Equal([UnitFunction.Add, UnitFunction.Subtract], alu.Settings.Select(s => s.Function).Order());
        Assert.Equal([2, 3], alu.Settings.Select(s => s.State).Order());
        var (a, d) = (Held(structure, "A"), Held(structure, "D"));
        Assert.Equal([a], alu.Inputs[0]);
        Assert.Equal([Bundle.Join([Bundle.Constant(0, 1), d])], alu.Inputs[1]);

        var divisor = Assert.Single(structure.Registers, r => r.Register.Name == "D");
        Assert.Equal(
            (3, 0, 1, true),
            Assert.Single(divisor.Fields.Select(f => (f.High, f.Low, f.Sources.Count, f.Keeps)))
        );
        var net = d.Nets.Single();
        Assert.DoesNotContain(structure.Nets, n => n.Inputs.Any(i => i.Nets.Contains(net)));
        Assert.Equal([divisor], structure.Registers.Where(r => r.Stored.Any(s => s.Nets.Contains(net))));
    }

    /// <summary>
    /// Read from the description: one line of it chooses between A + 0:D and A - 0:D, both in alu, so that the unit is told and
    /// nothing is chosen behind it; the last step adds or keeps, and there a multiplexer stands.
    /// </summary>
    [Fact]
    public void A_sum_or_a_difference_of_one_unit_needs_no_multiplexer()
    {
        var structure = MachineStructure.Of(Walks.At("divide-non-restoring", 4));
        Assert.Equal([5, 5], structure.Choices.Select(c => c.Width));
        Assert.Equal([NetKind.Unit, NetKind.Choice], structure.Choices.Select(c => Assert.Single(c.Gives.Nets).Kind));
        var first = Assert.Single(structure.Units).Settings.Where(s => s.State == 1).ToList();
        Assert.Equal([UnitFunction.Add, UnitFunction.Subtract], first.Select(s => s.Function));
        Assert.Equal([false, true], first.Select(s => Assert.Single(s.When).IsTurned));
    }

    /// <summary>Many short schedules in which loops that may stop early stand one behind the other: conditions are looked at together.</summary>
    [Fact]
    public void Loops_one_behind_the_other_run_from_their_structure_alone_are_the_walk()
    {
        var first = Seeds.Next();
        for (var seed = first; seed < first + 100; seed++)
        {
            var text = new RandomLoops(new Random(seed)).Text();
            var structure = MachineStructure.Of(Machines.Bound(text));
            foreach (var operands in TwinFiles.AllOperands(structure.Datapath))
            {
                Seeds.Told(
                    first,
                    $"operands {string.Join(' ', operands)}\n{text}",
                    () => Assert.True(IsTrue(structure, operands))
                );
            }
        }
    }

    /// <summary>
    /// When the first loop does not go on, the cycle behind it has looked at both conditions, and does what its own step says:
    /// three adders. Only the last step looks at nothing.
    /// </summary>
    [Fact]
    public void What_is_looked_at_on_the_way_into_a_cycle_shares_no_unit_with_what_is_done_in_it()
    {
        var structure = MachineStructure.Of(
            Machines.Bound(
                """
                machine m
                width n = 4 in 2..8
                operand a : n
                register A : n loads a
                register B : n loads a
                repeat at most 2 while A - 1 <> 0
                  A <- A - 2
                end
                repeat at most 2 while B + 1 <> 0
                  B <- B + 2
                end
                step tail
                  A <- A - 3
                step behind
                  A <- A - 4
                result r = A
                """
            )
        );
        Assert.Equal(
            [
                [(0, 6), (4, 15)],
                [(1, 7), (0, 9)],
                [(2, 10), (3, 13)],
            ],
            structure
                .Units.Where(u => u.Unit.Kind == UnitKind.Adder)
                .Select(u =>
                    u.Settings.Select(s => (s.Moment == 0 ? 0 : s.State, s.Line)).OrderBy(s => s.Line).ToArray()
                )
        );
    }

    /// <summary>
    /// The carry is told with its sum, under the sum's condition. The sum word of the row of full adders is always 0 and asks for
    /// nothing, so that its carry word alone tells the unit.
    /// </summary>
    [Fact]
    public void What_a_second_output_asks_of_its_unit_belongs_to_the_act_that_names_it()
    {
        var structure = MachineStructure.Of(
            Machines.Bound(
                """
                machine m
                width n = 4 in 2..8
                operand a : n
                register A : n loads a
                register B : n loads 0
                unit alu : adder n
                step one
                  if A[0]
                    let s, c = A + 1 via alu
                    B <- s
                  else
                    let t, e = A - 3 via alu
                    B <- t
                  end
                  then
                  A <- B
                step two
                  let z, k = csa(A, A, 0)
                  B <- z
                  then
                  A <- B xor k
                result r = A
                """
            )
        );
        Assert.Equal(
            [
                (UnitFunction.Add, 1, 1, 9, false),
                (UnitFunction.Subtract, 1, 1, 12, true),
                (UnitFunction.CarrySave, 2, 1, 18, false),
            ],
            structure
                .Units.SelectMany(u => u.Settings)
                .Select(s => (s.Function, s.State, s.Moment, s.Line, s.When.Any(g => g.IsTurned)))
        );
    }

    private static Bundle Held(MachineStructure structure, string register) =>
        structure.Nets.Single(n => n.Register?.Name == register).Word;

    /// <summary>Two units, each of which takes in one step what the other gives in it.</summary>
    [Theory]
    [InlineData("first", "second", 0)]
    [InlineData("second", "first", 2)]
    public void Units_that_wait_for_each_other_in_different_states_are_found(string inner, string outer, int count)
    {
        var text = $"""
            machine test
            width n = 4 in 2..8
            operand a : n
            register A : n loads a
            unit first : adder n
            unit second : adder n
            step one
              let x = A + 1 via first
              A <- x - 3 via second
            step two
              let x = A + 5 via {inner}
              A <- x - 7 via {outer}

            """;
        Assert.Equal(count, MachineStructure.Of(Machines.Bound(text)).UnitsInCircles.Count);
    }

    /// <summary>The check itself, fed with structures in which one thing is wrong: each must be told from the walk.</summary>
    [Theory]
    [InlineData("divide-adding-back", 20)]
    [InlineData("divide-signed-floored", 30)]
    [InlineData("divide-repeated-subtraction", 15)]
    public void One_thing_wrong_in_a_structure_is_seen(string name, int atLeast)
    {
        var structure = MachineStructure.Of(Walks.At(name, 4));
        var tuples = TwinFiles.AllOperands(structure.Datapath).ToList();
        var states = structure.States.SelectMany(s =>
            Wrong(s).Select(w => (w.What, Where: With(structure, s, w.Where)))
        );
        var wrong = states.Concat(Rewired(structure)).ToList();
        Assert.True(wrong.Count >= atLeast, $"only {wrong.Count} were made");
        Assert.Empty(wrong.Where(w => tuples.TrueForAll(t => IsSeenAsTrue(w.Where, t))).Select(w => w.What));
    }

    private static bool IsSeenAsTrue(MachineStructure structure, BigInteger[] operands)
    {
        try
        {
            return IsTrue(structure, operands);
        }
        catch (InvalidOperationException)
        {
            return false;
        }
    }

    private static MachineStructure With(MachineStructure structure, State state, State wrong) =>
        structure with
        {
            States = [.. structure.States.Select(s => s == state ? wrong : s)],
        };

    /// <summary>Control words and next states with one thing wrong: something not told, something told the wrong way round.</summary>
    private static IEnumerable<(string What, State Where)> Wrong(State state)
    {
        foreach (var entry in state.Entries)
        {
            var name = $"{entry.Register.Name} in state {state.Number}";
            yield return ($"{name} is not told", state with { Entries = [.. state.Entries.Where(e => e != entry)] });
            foreach (var when in Turned(entry.When))
            {
                var entries = state.Entries.Select(e => e == entry ? e with { When = when } : e);
                yield return ($"{name} the wrong way round", state with { Entries = [.. entries] });
            }
        }
        foreach (var setting in state.Settings)
        {
            var other = setting.Function == UnitFunction.Add ? UnitFunction.Subtract : UnitFunction.Add;
            var settings = state.Settings.Select(s => s == setting ? s with { Function = other } : s);
            yield return (
                $"unit {setting.Unit.Number} in state {state.Number}",
                state with
                {
                    Settings = [.. settings],
                }
            );
        }
        foreach (var way in state.Next)
        {
            var name = $"from {state.Number} to {way.To?.Number}";
            yield return ($"{name} is missing", state with { Next = [.. state.Next.Where(w => w != way)] });
            foreach (var when in Turned(way.When))
            {
                var ways = state.Next.Select(w => w == way ? w with { When = when } : w);
                yield return ($"{name} the wrong way round", state with { Next = [.. ways] });
            }
        }
    }

    private static IEnumerable<IReadOnlyList<Guard>> Turned(IReadOnlyList<Guard> when) =>
        when.Select(turned =>
            (IReadOnlyList<Guard>)[.. when.Select(g => g == turned ? g with { IsTurned = !g.IsTurned } : g)]
        );

    /// <summary>A register that keeps its bits in a state that writes it.</summary>
    private static IEnumerable<(string What, MachineStructure Where)> Rewired(MachineStructure structure) =>
        from register in structure.Registers
        from state in register.Writing
        let held = structure.Nets.Single(n => n.Register == register.Register).Word
        let wrong = register with
        {
            Stored = [.. register.Stored.Select((s, i) => i == state ? held : s)],
        }
        let registers = structure.Registers.Select(r => r == register ? wrong : r)
        select ($"{register.Register.Name} keeps in state {state}", structure with { Registers = [.. registers] });

    private static IEnumerable<BigInteger[]> Operands(Datapath datapath, Random random) =>
        datapath.Operands.Sum(o => o.Width) <= 6
            ? TwinFiles.AllOperands(datapath)
            : SampleOperands.Of(datapath, random).Take(Most);

    private static bool IsTrue(MachineStructure structure, IReadOnlyList<BigInteger> operands) =>
        StructureRun.IsTrue(structure, Walk.Of(structure.Datapath, operands));
}
