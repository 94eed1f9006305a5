using Reckoner.Datapaths;
using Reckoner.Structure;

namespace Reckoner.Drawing;

/// <summary>
/// Which registers stand side by side and which below each other, as on paper: what is joined stands side by side in one row, and
/// what a unit takes stands below the word that it meets, column for column.
/// </summary>
internal sealed class Arrangement
{
    private readonly MachineStructure structure;
    private readonly Dictionary<Register, Register> right = [];
    private readonly Dictionary<Register, Meeting> below = [];

    /// <param name="Row">From 1.</param>
    /// <param name="Above">A register of the top row, and its bit that stands above bit 0; it may lie beyond its ends.</param>
    internal sealed record Meeting(int Row, Register Above, int Bit);

    public Arrangement(MachineStructure structure)
    {
        this.structure = structure;
        foreach (
            var act in structure.Datapath.Steps.SelectMany(s => s.Moments).SelectMany(m => m).SelectMany(a => a.All)
        )
        {
            Neighbours(act);
        }
        foreach (var unit in structure.Units.OrderByDescending(u => u.Unit.Size.Count))
        {
            foreach (var setting in unit.Settings.Where(s => s.State > 0).OrderByDescending(s => Rounds(s.State)))
            {
                Meet(setting);
            }
        }
    }

    /// <summary>How often a step is taken, at most.</summary>
    private int Rounds(int state) => structure.Datapath.Schedule.First(s => s.Steps.Any(x => x.Number == state)).Count;

    /// <summary>Those below others, with where.</summary>
    public IReadOnlyDictionary<Register, Meeting> Below => below;

    /// <summary>
    /// The top row from the left: runs of registers without a gap. The run that most meets in comes first, flags last.
    /// </summary>
    public IReadOnlyList<IReadOnlyList<Register>> Runs =>
        [
            .. structure
                .Datapath.Registers.Where(r => !below.ContainsKey(r) && !right.ContainsValue(r))
                .Select(Run)
                .OrderBy(run => run.All(r => r.Width == 1))
                .ThenByDescending(run => below.Values.Count(m => run.Contains(m.Above)))
                .ThenBy(run => run[0].Index),
        ];

    private List<Register> Run(Register first)
    {
        var run = new List<Register> { first };
        while (right.TryGetValue(run[^1], out var next))
        {
            run.Add(next);
        }
        return run;
    }

    // ---- side by side

    private void Neighbours(Act act) =>
        act.Switch(
            let: a => Neighbours(a.Wire.Value),
            transfer: a =>
            {
                Neighbours(a.Value);
                foreach (var (left, next) in a.Places.Zip(a.Places.Skip(1)))
                {
                    Join((left.Register, left.High, left.Low), (next.Register, next.High, next.Low));
                }
                if (a.Entering is { } entering && a.Places is [var place] && Lowest(entering) is { } from)
                {
                    Join(from, (place.Register, place.High, place.Low));
                }
            },
            branch: a => Neighbours(a.Condition),
            arms: a => Neighbours(a.Subject),
            hold: _ => { },
            remark: _ => { }
        );

    private void Neighbours(Value value)
    {
        if (value.Operation == Operation.Join)
        {
            foreach (var (left, next) in value.Inputs.Zip(value.Inputs.Skip(1)))
            {
                Join(Bits(left), Bits(next));
            }
        }
        foreach (var input in value.Inputs)
        {
            Neighbours(input);
        }
    }

    private static (Register, int High, int Low)? Bits(Value value) =>
        value.Operation switch
        {
            Operation.Register => (value.Register!, value.Width - 1, 0),
            Operation.Slice when value.Inputs[0].Register is { } r => (r, value.Low + value.Width - 1, value.Low),
            _ => null,
        };

    /// <summary>The register at whose low end a bit is made that a shift to the right lets enter elsewhere.</summary>
    private static (Register, int High, int Low)? Lowest(Value value) =>
        value is { Operation: Operation.Slice, Low: 0, Width: 1 } && First(value.Inputs[0]) is { } register
            ? (register, register.Width - 1, 0)
            : null;

    private static Register? First(Value value) =>
        value.Operation switch
        {
            Operation.Register => value.Register,
            Operation.Wire => First(value.Wire!.Value),
            Operation.Add or Operation.Subtract or Operation.CarrySaveSum => First(value.Inputs[0]),
            _ => null,
        };

    private void Join((Register Register, int High, int Low)? left, (Register Register, int High, int Low)? next)
    {
        if (
            left is not { Low: 0 } a
            || next is not { } b
            || b.High != b.Register.Width - 1
            || right.ContainsKey(a.Register)
            || right.ContainsValue(b.Register)
            || Run(b.Register).Contains(a.Register)
        )
        {
            return;
        }
        right.Add(a.Register, b.Register);
    }

    // ---- below each other

    private void Meet(UnitSetting setting)
    {
        var above = Places(setting.Operands[0]);
        foreach (var operand in setting.Operands.Skip(1))
        {
            var votes = Places(operand)
                .Where(p => above.ContainsKey(p.Key))
                .Select(p => (Below: p.Value, Above: above[p.Key]))
                .Where(p => p.Below.Register != p.Above.Register)
                .GroupBy(p => (p.Below.Register, Above: p.Above.Register, Bit: p.Above.Bit - p.Below.Bit))
                .OrderByDescending(g => g.Count())
                .FirstOrDefault();
            if (votes is not null)
            {
                Stand(votes.Key.Register, votes.Key.Above, votes.Key.Bit);
            }
        }
    }

    private void Stand(Register register, Register above, int bit)
    {
        var isBound = below.ContainsKey(register) || right.ContainsKey(register) || right.ContainsValue(register);
        if (isBound || below.ContainsKey(above) || below.Values.Any(m => m.Above == register))
        {
            return;
        }
        var row = below.Values.Where(m => m.Above == above).Select(m => m.Row).Append(0).Max() + 1;
        below.Add(register, new Meeting(row, above, bit));
    }

    /// <summary>For each place of a word the register bit that comes there, if one does.</summary>
    private static Dictionary<int, (Register Register, int Bit)> Places(Bundle word)
    {
        var places = new Dictionary<int, (Register, int)>();
        Collect(word, 0, word.Width, 0, places, 0);
        return places;
    }

    /// <param name="low">The first bit of the word that is asked for.</param>
    /// <param name="to">Where it stands in what was asked first.</param>
    private static void Collect(
        Bundle word,
        int low,
        int width,
        int to,
        Dictionary<int, (Register, int)> places,
        int depth
    )
    {
        var at = to;
        foreach (var stretch in word.Part(low, width).Stretches.Reverse())
        {
            if (stretch is { Net: { } net, Times: 1 })
            {
                if (net.Register is { } register)
                {
                    for (var i = 0; i < stretch.Width; i++)
                    {
                        places.TryAdd(at + i, (register, stretch.Low + i));
                    }
                }
                else if (depth < 8)
                {
                    var inputs =
                        net.Kind == NetKind.Choice ? net.Inputs.Skip(1)
                        : net.Kind == NetKind.Not ? net.Inputs
                        : [];
                    foreach (var input in inputs)
                    {
                        Collect(input, stretch.Low, stretch.Width, at, places, depth + 1);
                    }
                }
            }
            at += stretch.Width;
        }
    }
}
