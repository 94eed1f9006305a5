using System.Numerics;
using Reckoner.Datapaths;
using Reckoner.Numbers;
using Reckoner.Running;
using Reckoner.Structure;

namespace Reckoner.Drawing;

/// <summary>What the wires of a structure carry in one cycle of a walk.</summary>
internal sealed class CycleWires(MachineStructure structure, State state, Walk walk, Row row)
{
    private readonly Dictionary<Net, BigInteger> known = [];

    public BigInteger this[Bundle word] => word.Value(Of);

    /// <summary>What a register holds as the cycle finds it.</summary>
    public BigInteger Before(Register register) => row.Before[register.Index];

    /// <summary>What a unit is told in this cycle; null where nothing is.</summary>
    public UnitSetting? Told(Unit unit) =>
        state.Settings.FirstOrDefault(s => s.Unit == unit && s.When.All(g => g.IsSo(this[g.Word])));

    private BigInteger Of(Net net)
    {
        if (!known.TryGetValue(net, out var bits))
        {
            known[net] = bits = Computed(net);
        }
        return bits;
    }

    private BigInteger Computed(Net net)
    {
        return net.Kind switch
        {
            NetKind.Operand => walk.Operands[net.Operand!.Index],
            NetKind.Register => row.Before[net.Register!.Index],
            NetKind.Last => row.Last == true ? 1 : 0,
            NetKind.Unit => Given(net),
            NetKind.And => In(0) & In(1),
            NetKind.Or => In(0) | In(1),
            NetKind.Xor => In(0) ^ In(1),
            NetKind.Not => Bits.Mask(net.Width) ^ In(0),
            NetKind.Equal => In(0) == In(1) ? 1 : 0,
            NetKind.Choice => In(0).IsOne ? In(1) : In(2),
            NetKind.Lookup => net.Table!.Cells[(int)In(0)],
        };

        BigInteger In(int i) => this[net.Inputs[i]];
    }

    /// <summary>What a unit gives; 0 where it is told nothing, since then nobody takes it.</summary>
    private BigInteger Given(Net net)
    {
        var (unit, told) = (net.Unit!, Told(net.Unit!) ?? Stops(net.Unit!));
        if (told is null)
        {
            return 0;
        }
        var (width, by) = (unit.Size.Count, unit.By.Count);
        var x = told.Operands.Select(o => this[o]).ToList();
        return told.Function switch
        {
            UnitFunction.Add when net.Output == UnitOutput.Carry => (x[0] + x[1]) >> width,
            UnitFunction.Add => Bits.Wrap(x[0] + x[1], width),
            UnitFunction.Subtract when net.Output == UnitOutput.Borrow => x[0] < x[1] ? 1 : 0,
            UnitFunction.Subtract => Bits.Wrap(x[0] - x[1], width),
            UnitFunction.Multiply => x[0] * x[1],
            UnitFunction.MultiplySigned => Bits.Wrap(Bits.AsSigned(x[0], width) * Bits.AsSigned(x[1], by), width + by),
            UnitFunction.Less => x[0] < x[1] ? 1 : 0,
            UnitFunction.Equal => x[0] == x[1] ? 1 : 0,
            UnitFunction.CarrySave when net.Output == UnitOutput.CarryWord => (x[0] & x[1])
                | (x[0] & x[2])
                | (x[1] & x[2]),
            UnitFunction.CarrySave => x[0] ^ x[1] ^ x[2],
        };
    }

    private UnitSetting? Stops(Unit unit) =>
        structure.EarlyStops.SelectMany(s => s.Settings).FirstOrDefault(s => s.Unit == unit);
}
