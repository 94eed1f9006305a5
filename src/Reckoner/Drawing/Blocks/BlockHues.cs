using Reckoner.Datapaths;
using Reckoner.Running;
using Reckoner.Structure;

namespace Reckoner.Drawing;

/// <summary>
/// The colours of a sheet of blocks, those of the weave: where bits come from. A register has that of the operand it loads, else
/// of what steps give it.
/// </summary>
internal sealed class BlockHues
{
    private readonly Origins origins;
    private readonly Dictionary<Register, int> registers = [];

    public BlockHues(MachineStructure structure)
    {
        var datapath = structure.Datapath;
        origins = new Origins(
            [],
            datapath
                .Operands.Select(o => new BitSource(SourceKind.Operand, 0, Operand: o))
                .Concat(datapath.Units.Where(u => u.Uses.Count > 0).Select(u => Wiring.SourceOf(u.Uses[0].Value)))
                .Append(new BitSource(SourceKind.Decision, 0))
                .Append(new BitSource(SourceKind.Gates, 0))
                .Concat(datapath.Tables.Select(Of))
        );
        foreach (var register in structure.Registers)
        {
            var loads = Sources(register.Stored[0], []).OrderBy(h => h.Rank).Select(h => (int?)h.Hue).FirstOrDefault();
            registers[register.Register] = loads ?? Role.Neutral;
        }
        foreach (var register in structure.Registers.Where(r => registers[r.Register] == Role.Neutral))
        {
            var given = register.Stored.Skip(1).SelectMany(w => Sources(w, [])).OrderBy(h => h.Rank);
            registers[register.Register] = given.Select(h => (int?)h.Hue).FirstOrDefault() ?? Role.Neutral;
        }
    }

    public int Decided => origins.Hue(new BitSource(SourceKind.Decision, 0));

    public int Of(Register register) => registers[register];

    public int Of(Unit unit) => unit.Uses.Count == 0 ? Role.Neutral : origins.Hue(Wiring.SourceOf(unit.Uses[0].Value));

    public int Of(Net net) =>
        net.Kind switch
        {
            NetKind.Operand => Of(net.Operand!),
            NetKind.Register => Of(net.Register!),
            NetKind.Last or NetKind.Equal => Decided,
            NetKind.Unit => net.Output is UnitOutput.Result or UnitOutput.CarryWord ? Of(net.Unit!) : Decided,
            NetKind.And or NetKind.Or or NetKind.Xor or NetKind.Not => net.Width == 1 ? Decided : First(net.Inputs),
            NetKind.Choice => First(net.Inputs.Skip(1)),
            NetKind.Lookup => origins.Hue(Of(net.Table!)),
        };

    private int First(IEnumerable<Bundle> words) =>
        words.SelectMany(w => w.Nets).Select(n => (int?)Of(n)).FirstOrDefault() ?? Role.Neutral;

    private int Of(Operand operand) => origins.Hue(new BitSource(SourceKind.Operand, 0, Operand: operand));

    private static BitSource Of(Table table) =>
        new(SourceKind.Table, 0, Value: new Value(Operation.Lookup, table.Size, table.Reading) { Table = table });

    /// <summary>What gives the bits of a word: operands before units, units before decisions.</summary>
    private IEnumerable<(int Rank, int Hue)> Sources(Bundle word, HashSet<Net> seen) =>
        word
            .Nets.Where(seen.Add)
            .SelectMany(net =>
                net.Kind switch
                {
                    NetKind.Operand => [(0, Of(net.Operand!))],
                    NetKind.Register => [],
                    NetKind.Unit when net.Output is UnitOutput.Result or UnitOutput.CarryWord => [(1, Of(net.Unit!))],
                    NetKind.Unit or NetKind.Last or NetKind.Equal => [(3, Decided)],
                    NetKind.And or NetKind.Or or NetKind.Xor or NetKind.Not => net.Width == 1
                        ? [(3, Decided)]
                        : net.Inputs.SelectMany(i => Sources(i, seen)),
                    NetKind.Choice => net.Inputs.Skip(1).SelectMany(i => Sources(i, seen)),
                    NetKind.Lookup => new[] { (2, Of(net)) },
                }
            );
}
