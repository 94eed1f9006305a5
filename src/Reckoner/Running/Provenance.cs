using Reckoner.Datapaths;

namespace Reckoner.Running;

/// <summary>Where the bits that an edge stores come from.</summary>
/// <param name="Sources">
/// For every register by index, for each bit from the lowest: what it came out of in this edge. Bits that move or stay come out
/// of a register as it was before.
/// </param>
/// <param name="Origins">The same, followed back to what is no register.</param>
/// <param name="Landings">Where the outputs that are kept were first written, in order.</param>
public sealed record ProvenanceRow(
    int Cycle,
    IReadOnlyList<IReadOnlyList<BitSource>> Sources,
    IReadOnlyList<IReadOnlyList<BitSource>> Origins,
    IReadOnlyList<Landing> Landings
);

/// <summary>Bits high..low of a register that first took in the output of a unit, a table or gates.</summary>
/// <param name="LowestBit">The output's bit at the low place.</param>
public sealed record Landing(Value Value, int LowestBit, Register Register, int High, int Low, int Line);

/// <summary>
/// Follows every bit of a walk: through slices, joins, shifts and the choices as they fell, up to what computed it. Needs a
/// walk; the statements are run once more, with sources beside the numbers.
/// </summary>
public sealed class Provenance
{
    private readonly Walk walk;
    private readonly Evaluator evaluator;
    private readonly BitSource[][] held;
    private readonly Dictionary<Wire, BitSource[]> wires = [];
    private readonly List<Landing> landings = [];

    private Provenance(Walk walk)
    {
        this.walk = walk;
        evaluator = new Evaluator(walk.Datapath, walk.Operands);
        held = new BitSource[walk.Datapath.Registers.Count][];
    }

    /// <summary>A row for the load and for every edge.</summary>
    public static IReadOnlyList<ProvenanceRow> Of(Walk walk)
    {
        var rows = new List<ProvenanceRow>();
        var provenance = new Provenance(walk);
        foreach (var row in walk.Rows)
        {
            rows.Add(provenance.Follow(row, rows.Count == 0 ? null : rows[^1]));
        }
        return rows;
    }

    /// <summary>Where the bits of each result come from: the registers as the last edge left them.</summary>
    public static IReadOnlyList<IReadOnlyList<BitSource>> OfResults(Walk walk)
    {
        var provenance = new Provenance(walk);
        provenance.Begin(walk.Rows[^1].Registers);
        return [.. walk.Datapath.Results.Select(r => provenance.Sources(r.Value))];
    }

    private void Begin(IReadOnlyList<System.Numerics.BigInteger> registers)
    {
        landings.Clear();
        wires.Clear();
        evaluator.Wires.Clear();
        foreach (var register in walk.Datapath.Registers)
        {
            evaluator.Registers[register.Index] = registers[register.Index];
            held[register.Index] =
            [
                .. Enumerable.Range(0, register.Width).Select(b => new BitSource(SourceKind.Register, b, register)),
            ];
        }
    }

    private ProvenanceRow Follow(Row row, ProvenanceRow? before)
    {
        if (row.Step is null)
        {
            var loads = walk.Datapath.Registers.Select(r => Sources(r.Loads)).ToList();
            return new ProvenanceRow(0, loads, loads, []);
        }
        Begin(row.Before);
        evaluator.IsLast = row.Last ?? false;
        foreach (var moment in row.Step.Moments)
        {
            Execute(moment);
        }
        List<BitSource[]> sources = [.. held];
        var origins = sources.Select(s =>
            (IReadOnlyList<BitSource>)
                [.. s.Select(b => b.Kind == SourceKind.Register ? before!.Origins[b.Register!.Index][b.Bit] : b)]
        );
        var kept = sources.SelectMany(s => s).Where(s => s.Value is not null).Select(s => s.Value).ToHashSet();
        return new ProvenanceRow(row.Cycle, sources, [.. origins], [.. landings.Where(l => kept.Contains(l.Value))]);
    }

    private void Execute(IReadOnlyList<Act> acts)
    {
        foreach (var act in acts)
        {
            switch (act)
            {
                case LetAct a:
                    Name(a.Wire);
                    if (a.Second is not null)
                    {
                        Name(a.Second);
                    }
                    break;
                case TransferAct a:
                    Transfer(a);
                    break;
                case BranchAct a:
                    Execute(evaluator.IsOne(a.Condition) ? a.Then : a.Otherwise);
                    break;
                case CaseAct a:
                    var arm = Evaluator.Arm([.. a.Arms.Select(x => x.Patterns)], evaluator.Bits(a.Subject));
                    Execute(a.Arms[arm].Acts);
                    break;
                case HoldAct or RemarkAct:
                    break;
                default:
                    throw new InvalidOperationException(act.GetType().Name);
            }
        }
    }

    private void Name(Wire wire)
    {
        wires[wire] = Sources(wire.Value);
        evaluator.Wires[wire] = evaluator.Bits(wire.Value);
    }

    private void Transfer(TransferAct act)
    {
        var sources = Sources(act.Value);
        var bits = evaluator.Bits(act.Value);
        var low = act.Value.Width;
        foreach (var place in act.Places)
        {
            low -= place.Width;
            var index = place.Register.Index;
            var taken = sources.AsSpan(low, place.Width);
            held[index] = [.. held[index]];
            taken.CopyTo(held[index].AsSpan(place.Low));
            var field = Numbers.Bits.Wrap(bits >> low, place.Width) << place.Low;
            var others = Numbers.Bits.Mask(place.Register.Width) ^ place.Mask;
            evaluator.Registers[index] = (evaluator.Registers[index] & others) | field;
            Land(place, taken, act.Line);
        }
    }

    /// <summary>Notes runs of bits that come out of one and the same thing.</summary>
    private void Land(Place place, ReadOnlySpan<BitSource> sources, int line)
    {
        for (var from = 0; from < sources.Length; )
        {
            var to = from + 1;
            while (
                to < sources.Length
                && sources[to].IsOfSame(sources[from])
                && sources[to].Bit == sources[from].Bit + to - from
            )
            {
                to++;
            }
            if (sources[from] is { Value: { } value, Kind: not SourceKind.Decision })
            {
                landings.Add(
                    new Landing(value, sources[from].Bit, place.Register, place.Low + to - 1, place.Low + from, line)
                );
            }
            from = to;
        }
    }

    /// <summary>The sources of a value's bits, from the lowest.</summary>
    private BitSource[] Sources(Value v)
    {
        return v.Operation switch
        {
            Operation.Unknown => throw new InvalidOperationException("a datapath has no unknown values"),
            Operation.Constant => Each(i => (v.Bits >> i).IsEven ? BitSource.Zero : BitSource.One),
            Operation.Operand => Each(i => new BitSource(SourceKind.Operand, i, Operand: v.Operand)),
            Operation.Register => held[v.Register!.Index],
            Operation.Wire => wires[v.Wire!],
            Operation.Slice => In(0)[v.Low..(v.Low + v.Width)],
            Operation.Join => [.. v.Inputs.Reverse().SelectMany(Sources)],
            Operation.Copies => [.. Enumerable.Repeat(In(0)[0], v.Width)],
            Operation.Reread => In(0),
            Operation.Extend => Extended(),
            Operation.ShiftLeft => [.. In(1), .. In(0)[..(v.Width - v.Inputs[1].Width)]],
            Operation.ShiftRight => [.. In(0)[v.Inputs[1].Width..], .. In(1)],
            Operation.Choose => In(evaluator.IsOne(v.Inputs[0]) ? 1 : 2),
            Operation.Select => In(1 + Evaluator.Arm(v.Arms, evaluator.Bits(v.Inputs[0]))),
            Operation.Add
            or Operation.Subtract
            or Operation.Negate
            or Operation.Magnitude
            or Operation.Multiply
            or Operation.CarrySaveSum => Out(SourceKind.Unit),
            Operation.CarrySaveCarry => Second(v.Inputs[0], i => v.Inputs[0].Width + i),
            Operation.Carry or Operation.Borrow => Second(v.Inputs[0], _ => v.Inputs[0].Width),
            Operation.Lookup => Out(SourceKind.Table),
            Operation.Less when v.IsSignTest => [In(0)[^1]],
            Operation.Last
            or Operation.Equal
            or Operation.Unequal
            or Operation.Less
            or Operation.LessOrEqual
            or Operation.Greater
            or Operation.GreaterOrEqual => Out(SourceKind.Decision),
            Operation.And or Operation.Or or Operation.Xor or Operation.Not => Out(
                v.Width == 1 ? SourceKind.Decision : SourceKind.Gates
            ),
        };

        BitSource[] In(int i) => Sources(v.Inputs[i]);

        BitSource[] Each(Func<int, BitSource> source) => [.. Enumerable.Range(0, v.Width).Select(source)];

        BitSource[] Out(SourceKind kind) => Each(i => new BitSource(kind, i, Value: v));

        BitSource[] Second(Value first, Func<int, int> place) =>
            Each(i => new BitSource(SourceKind.Unit, place(i), Value: first));

        BitSource[] Extended()
        {
            var inner = In(0);
            var above = v.Reading == Reading.Signed ? inner[^1] : BitSource.Zero;
            return [.. inner, .. Enumerable.Repeat(above, v.Width - inner.Length)];
        }
    }
}
