using System.Numerics;
using Reckoner.Datapaths;
using Reckoner.Running;
using Reckoner.Structure;

namespace Reckoner.Tests;

/// <summary>
/// Runs a machine from its structure alone, as hardware would: registers, units that do one thing in a cycle, choices, control words
/// and next states. It knows no acts and computes no value of the datapath.
/// </summary>
internal sealed class StructureRun
{
    private readonly MachineStructure structure;
    private readonly IReadOnlyList<BigInteger> operands;
    private readonly BigInteger[] registers;
    private readonly Dictionary<Net, BigInteger> wires = [];
    private readonly Dictionary<Unit, UnitSetting> told = [];
    private State state;
    private int round;

    /// <summary>The settings that may be so now.</summary>
    private IReadOnlyList<UnitSetting> settings = [];

    private StructureRun(MachineStructure structure, IReadOnlyList<BigInteger> operands)
    {
        this.structure = structure;
        this.operands = operands;
        // Before the load they hold whatever they happen to hold.
        registers = [.. structure.Registers.Select(r => Numbers.Bits.Mask(r.Register.Width))];
        state = structure.States[0];
    }

    /// <summary>Whether it does what a walk of its machine does, edge by edge, and gives the same results.</summary>
    public static bool IsTrue(MachineStructure structure, Walk walk)
    {
        var (rows, results) = Of(structure, walk.Operands, structure.Datapath.MostCycles);
        return walk.Results.SequenceEqual(results)
            && walk.Rows.Count == rows.Count
            && walk.Rows.Zip(rows, (a, b) => a.Registers.SequenceEqual(b)).All(same => same);
    }

    /// <summary>What the registers hold after the load and after each edge, and the results in the end.</summary>
    /// <param name="mostEdges">A run that takes more has failed.</param>
    public static (IReadOnlyList<BigInteger[]> Rows, IReadOnlyList<BigInteger> Results) Of(
        MachineStructure structure,
        IReadOnlyList<BigInteger> operands,
        int mostEdges
    )
    {
        var run = new StructureRun(structure, operands);
        var rows = new List<BigInteger[]>();
        do
        {
            if (rows.Count > mostEdges + 1)
            {
                throw new InvalidOperationException("it does not end");
            }
            rows.Add(run.Edge());
        } while (run.Follows());
        return (rows, [.. structure.Results.Select(run.Bits)]);
    }

    private BigInteger Bits(Bundle bundle) => bundle.Value(Bits);

    private bool IsSo(IEnumerable<Guard> guards) => guards.All(g => g.IsSo(Bits(g.Word)));

    // ---- a cycle

    private BigInteger[] Edge()
    {
        settings = [.. state.Settings];
        foreach (var setting in settings)
        {
            // Every unit is told what it does, whether anybody takes it or not.
            if (IsSo(setting.When))
            {
                Tell(setting);
            }
        }
        var next = structure.Registers.Select(r => Bits(r.Stored[state.Number])).ToArray();
        var entered = Entered();
        if (!next.SequenceEqual(entered))
        {
            throw new InvalidOperationException("entries say otherwise than what is stored");
        }
        next.CopyTo(registers, 0);
        wires.Clear();
        told.Clear();
        return [.. next];
    }

    /// <summary>The registers with every entry made whose conditions are so, one moment after the other.</summary>
    private BigInteger[] Entered()
    {
        var next = registers.ToArray();
        foreach (var entry in state.Entries.Where(e => IsSo(e.When)))
        {
            ref var register = ref next[entry.Register.Index];
            var place = Numbers.Bits.Mask(entry.Width) << entry.Low;
            register = (register & ~place) | (Bits(entry.Word) << entry.Low);
        }
        return next;
    }

    // ---- from one cycle to the next

    /// <summary>Goes the one way that is open; false at the end.</summary>
    private bool Follows()
    {
        var way = state.Next.Single(IsOpen);
        if (way.To is null)
        {
            wires.Clear();
            return false;
        }
        state = structure.States[way.To.Number];
        round = way.Round switch
        {
            RoundChange.Stays => round,
            RoundChange.Starts => 1,
            RoundChange.Counts => round + 1,
        };
        wires.Keys.Where(n => n.Kind == NetKind.Last).ToList().ForEach(n => wires.Remove(n));
        return true;
    }

    private bool IsOpen(Transition way)
    {
        var isReached = way.Reached is { } most && round >= most;
        return (way.Below is null || round < way.Below)
            && (isReached || way.When.Take(1).All(Looked))
            && way.When.Skip(1).All(Looked);
    }

    private bool Looked(Guard guard)
    {
        settings = structure.EarlyStops.FirstOrDefault(s => s.Goes.Value == guard.Value)?.Settings ?? [];
        return IsSo([guard]);
    }

    // ---- wires

    private BigInteger Bits(Net net)
    {
        if (!wires.TryGetValue(net, out var bits))
        {
            wires[net] = bits = Computed(net);
        }
        return bits;
    }

    private BigInteger Computed(Net net)
    {
        return net.Kind switch
        {
            NetKind.Operand => state.Number == 0
                ? operands[net.Operand!.Index]
                : throw new InvalidOperationException("operands are there at the load only"),
            NetKind.Register => registers[net.Register!.Index],
            NetKind.Last => One(IsLast),
            NetKind.Unit => Given(net),
            NetKind.And => In(0) & In(1),
            NetKind.Or => In(0) | In(1),
            NetKind.Xor => In(0) ^ In(1),
            NetKind.Not => Numbers.Bits.Mask(net.Width) ^ In(0),
            NetKind.Equal => One(In(0) == In(1)),
            NetKind.Choice => In(0).IsOne ? In(1) : In(2),
            NetKind.Lookup => net.Table!.Cells[(int)In(0)],
        };

        BigInteger In(int i) => Bits(net.Inputs[i]);
    }

    private static BigInteger One(bool holds) => holds ? 1 : 0;

    private bool IsLast =>
        structure.Datapath.Schedule.Single(s => s.Steps.Contains(state.Step)) is { While: null } segment
        && round == segment.Count;

    // ---- units

    private BigInteger Given(Net net)
    {
        var unit = net.Unit!;
        if (!told.TryGetValue(unit, out var setting))
        {
            setting = settings.First(s => s.Unit == unit && IsSo(s.When));
            Tell(setting);
        }
        var (width, by) = (unit.Size.Count, unit.By.Count);
        var x = setting.Operands.Select(Bits).ToList();
        var isWide = setting.Operands.Select(o => o.Width).SequenceEqual(x.Select((_, i) => i == 1 ? by : width));
        return !isWide
            ? throw new InvalidOperationException("operands are not as wide as the unit")
            : (setting.Function, net.Output) switch
            {
                (UnitFunction.Add, UnitOutput.Result) => Numbers.Bits.Wrap(x[0] + x[1], width),
                (UnitFunction.Add, UnitOutput.Carry) => (x[0] + x[1]) >> width,
                (UnitFunction.Subtract, UnitOutput.Result) => Numbers.Bits.Wrap(x[0] - x[1], width),
                (UnitFunction.Subtract, UnitOutput.Borrow) => One(x[0] < x[1]),
                (UnitFunction.Multiply, UnitOutput.Result) => x[0] * x[1],
                (UnitFunction.MultiplySigned, UnitOutput.Result) => Numbers.Bits.Wrap(
                    Numbers.Bits.AsSigned(x[0], width) * Numbers.Bits.AsSigned(x[1], by),
                    width + by
                ),
                (UnitFunction.Less, UnitOutput.Less) => One(x[0] < x[1]),
                (UnitFunction.Equal, UnitOutput.Equal) => One(x[0] == x[1]),
                (UnitFunction.CarrySave, UnitOutput.Result) => x[0] ^ x[1] ^ x[2],
                (UnitFunction.CarrySave, UnitOutput.CarryWord) => (x[0] & x[1]) | (x[0] & x[2]) | (x[1] & x[2]),
                _ => throw new InvalidOperationException($"{setting.Function} gives no {net.Output}"),
            };
    }

    private void Tell(UnitSetting setting)
    {
        if (told.TryGetValue(setting.Unit, out var other) && !other.DoesAs(setting))
        {
            throw new InvalidOperationException($"unit {setting.Unit.Number} is told two things at once");
        }
        told[setting.Unit] = setting;
    }
}
