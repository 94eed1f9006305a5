using Reckoner.Datapaths;
using Reckoner.Reporting;
using Reckoner.Running;

namespace Reckoner.Drawing;

internal sealed partial class Wiring
{
    /// <summary>The bits of a value, from the lowest, as bits of lanes; what needs hardware becomes a block.</summary>
    private LaneBit[] Bits(Value v, bool isTaken)
    {
        return v.Operation switch
        {
            Operation.Unknown => throw new InvalidOperationException("a datapath has no unknown values"),
            Operation.Constant => new LaneBit[v.Width],
            Operation.Operand => operands[v.Operand!.Index].All,
            Operation.Register => held[v.Register!.Index]!.All,
            Operation.Wire => wires[v.Wire!],
            Operation.Last => last.All,
            Operation.Slice => In(0)[v.Low..(v.Low + v.Width)],
            Operation.Join => [.. v.Inputs.Reverse().SelectMany(i => Bits(i, isTaken))],
            Operation.Copies => [.. Enumerable.Repeat(In(0)[0], v.Width)],
            Operation.Reread => In(0),
            Operation.Extend => Extended(),
            Operation.ShiftLeft => [.. In(1), .. In(0)[..(v.Width - v.Inputs[1].Width)]],
            Operation.ShiftRight => [.. In(0)[v.Inputs[1].Width..], .. In(1)],
            Operation.Less when v.IsSignTest => [In(0)[^1]],
            Operation.Add
            or Operation.Subtract
            or Operation.Negate
            or Operation.Magnitude
            or Operation.Multiply
            or Operation.CarrySaveSum
            or Operation.And
            or Operation.Or
            or Operation.Xor
            or Operation.Not
            or Operation.Equal
            or Operation.Unequal
            or Operation.Less
            or Operation.LessOrEqual
            or Operation.Greater
            or Operation.GreaterOrEqual
            or Operation.Choose
            or Operation.Select
            or Operation.Lookup => Made(v, isTaken),
            Operation.CarrySaveCarry or Operation.Carry or Operation.Borrow => Second(v, isTaken),
        };

        LaneBit[] In(int i) => Bits(v.Inputs[i], isTaken);

        LaneBit[] Extended()
        {
            var inner = In(0);
            var above = v.Reading == Reading.Signed ? inner[^1] : default;
            return [.. inner, .. Enumerable.Repeat(above, v.Width - inner.Length)];
        }
    }

    private LaneBit[] Second(Value v, bool isTaken)
    {
        var first = v.Inputs[0];
        var block = Made(first, isTaken)[0].Lane!.Maker!;
        if (!seconds.TryGetValue(first, out var bits))
        {
            if (block.Gives.Count == 1)
            {
                block.Gives.Insert(0, new Lane("", v.Width) { Maker = block });
            }
            bits = block.Gives[0].All;
            seconds.Add(first, bits);
        }
        Carry(block.Gives[0], v, isTaken);
        return bits;
    }

    private LaneBit[] Made(Value v, bool isTaken)
    {
        if (made.TryGetValue(v, out var bits))
        {
            return bits;
        }
        var taps = Taken(v, isTaken).ToList();
        var said = v.Written is not null ? WrittenText.Of(v, words) : Operations.Row(v.Operation).Written;
        var shared = Found(v, said, taps) ?? New(v, said);
        if (isTaken)
        {
            shared.Words = said;
        }
        else if (recorded is null && !shared.Words.Contains(said, StringComparison.Ordinal))
        {
            shared.Words = words.Say("figure.or", ("first", shared.Words), ("second", said));
        }
        shared.Acts |= isTaken;
        taps.ForEach(t => Add(shared.Taps, t));
        Carry(shared.Gives[^1], v, isTaken);
        bits = shared.Gives[^1].All;
        made.Add(v, bits);
        return bits;
    }

    /// <summary>A block that serves this too: gates written twice, or a unit whose uses exclude each other.</summary>
    private Block? Found(Value v, string said, List<Tap> taps) =>
        v.Unit is not { } unit ? blocks.Find(b => b.Words == said && IsSame(b, taps))
        : busy.TryGetValue(unit, out var used)
        && used.Gives[^1].Width == v.Width
        && !taps.Exists(t => t.Lane.Maker is { } maker && maker.DependsOn(used))
            ? used
        : null;

    private Block New(Value v, string said)
    {
        var own = v.Source == datapath.Machine.Description.Source;
        var block = new Block(KindOf(v), said)
        {
            Line = own ? v.Source?.LineOf(v.Written?.Span.Start ?? 0) : null,
            Unit = v.Unit,
            Table = v.Table,
            Chooses = v.Operation is Operation.Choose or Operation.Select,
        };
        block.Gives.Add(new Lane("", v.Width) { Maker = block });
        blocks.Add(block);
        if (v.Unit is not null)
        {
            busy[v.Unit] = block;
        }
        return block;
    }

    private static bool IsSame(Block block, List<Tap> taps) =>
        block.Taps.Count == taps.Count && block.Taps.Zip(taps).All(p => p.First.IsOf(p.Second));

    private IEnumerable<Tap> Taken(Value v, bool isTaken)
    {
        if (v.Operation is Operation.Choose or Operation.Select)
        {
            var chosen =
                !isTaken ? -1
                : v.Operation == Operation.Choose ? (recorded!.Word(v.Inputs[0]).IsOne ? 1 : 2)
                : 1 + ArmPatterns.Acting(v.Arms, recorded!.Word(v.Inputs[0]));
            var steering = v.Operation == Operation.Choose ? Plain(v.Inputs[0]) : v.Inputs[0];
            return Tap.Of(Bits(steering, isTaken), steers: true, isTaken)
                .Concat(
                    v.Inputs.Skip(1).SelectMany((x, i) => Tap.Of(Bits(x, isTaken), steers: false, i + 1 == chosen))
                );
        }
        return Leaves(v).SelectMany(x => Tap.Of(Bits(x, isTaken), steers: false, isTaken));
    }

    /// <summary>What a block takes: gates on gates are one block.</summary>
    private static IEnumerable<Value> Leaves(Value v) =>
        Operations.Row(v.Operation).Cost == Cost.Gates
            ? v.Inputs.SelectMany(i => Operations.Row(i.Operation).Cost == Cost.Gates ? Leaves(i) : [i])
            : v.Inputs;

    /// <summary>What a lane carries in this cycle, and where each bit of it came from.</summary>
    private void Carry(Lane lane, Value v, bool isTaken)
    {
        if (!isTaken)
        {
            return;
        }
        lane.Bits = recorded!.Word(v);
        if (v.Operation is Operation.Choose or Operation.Select)
        {
            var chosen =
                v.Operation == Operation.Choose
                    ? (recorded.Word(v.Inputs[0]).IsOne ? 1 : 2)
                    : 1 + ArmPatterns.Acting(v.Arms, recorded.Word(v.Inputs[0]));
            var bits = Bits(v.Inputs[chosen], isTaken);
            lane.Hues = [.. bits.Select(b => b.Lane?.Hues[b.Index] ?? Role.Neutral)];
            return;
        }
        var hue = origins!.Hue(SourceOf(v));
        lane.Hues = [.. Enumerable.Repeat(hue, lane.Width)];
    }

    /// <summary>What a block's word counts as coming from.</summary>
    public static BitSource SourceOf(Value v) =>
        v.Operation is Operation.CarrySaveCarry or Operation.Carry or Operation.Borrow ? SourceOf(v.Inputs[0])
        : Operations.Row(v.Operation).Cost == Cost.Table ? new BitSource(SourceKind.Table, 0, Value: v)
        : v.Unit is { Kind: not Datapaths.UnitKind.Comparator } ? new BitSource(SourceKind.Unit, 0, Value: v)
        : new BitSource(v.Width == 1 ? SourceKind.Decision : SourceKind.Gates, 0, Value: v);

    private string KindOf(Value v) =>
        v.Unit is { } unit ? unit.Name ?? UnitText.KindOf(unit, words)
        : v.Table is { } table ? table.Name
        : v.Operation is Operation.Choose or Operation.Select ? words.Say("figure.choice")
        : v.Width == 1 ? words.Say("figure.decision")
        : words.Say("figure.gates");
}
