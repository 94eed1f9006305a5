using System.Numerics;
using Reckoner.Datapaths;
using Reckoner.Execution;
using Reckoner.Notation;
using Reckoner.Reporting;
using Reckoner.Running;
using Reckoner.Structure;
using Reckoner.Words;

namespace Reckoner.Drawing;

/// <summary>
/// A state as lanes, blocks and arrivals: which words stand on wires, what takes them, what the registers take. With a walk's row,
/// what acts in its cycle and what is carried, as the walk has recorded it; without, what is there.
/// </summary>
internal sealed partial class Wiring
{
    private readonly Datapath datapath;
    private readonly Vocabulary words;
    private readonly Origins? origins;

    /// <summary>What the row of the walk holds in the moment that is being drawn; null where nothing acts.</summary>
    private Execution<BigInteger>? recorded;
    private readonly Lane?[] held;
    private readonly List<Lane> operands = [];
    private readonly Lane last;
    private readonly Dictionary<Wire, LaneBit[]> wires = [];
    private readonly Dictionary<Value, LaneBit[]> made = new(ReferenceEqualityComparer.Instance);
    private readonly Dictionary<Value, LaneBit[]> seconds = new(ReferenceEqualityComparer.Instance);
    private readonly List<Level> levels = [];
    private List<Block> blocks = [];
    private Dictionary<Unit, Block> busy = [];

    private Wiring(Datapath datapath, Vocabulary words, Lane last, Origins? origins)
    {
        this.datapath = datapath;
        this.words = words;
        this.last = last;
        this.origins = origins;
        held = new Lane?[datapath.Registers.Count];
    }

    /// <summary>The control signal of the last round.</summary>
    private static Lane LastLane(Running.Row? row, string control) =>
        new(Operations.Row(Operation.Last).Written, 1)
        {
            Bits = row?.Last is { } isLast ? (isLast ? 1 : 0) : null,
            From = control,
            IsControl = true,
        };

    /// <summary>The load and every step, with everything that is there.</summary>
    public static IReadOnlyList<Level> Still(MachineStructure structure, Vocabulary words)
    {
        var last = LastLane(null, words.Say("figure.control"));
        var load = new Wiring(structure.Datapath, words, last, null);
        load.Load(null);
        List<Level> levels = [.. InWords(load.Seen(0, ""))];
        foreach (var state in structure.States.Where(s => s.Step is not null))
        {
            var wiring = new Wiring(structure.Datapath, words, last, null);
            wiring.Hold(null, null);
            wiring.Take(state, null, []);
            levels.AddRange(wiring.levels);
        }
        return levels;
    }

    /// <summary>A load that computes nothing is told beside the first ribbons, which leaves the sheet to the steps.</summary>
    private static IEnumerable<Level> InWords(IReadOnlyList<Level> load) =>
        load is [{ IsArrival: true } only] ? [only with { Arrivals = [] }] : load;

    /// <summary>The load of a walk: registers take what the operands bring.</summary>
    public static IReadOnlyList<Level> OfLoad(Walk walk, Vocabulary words, Origins origins)
    {
        var wiring = new Wiring(walk.Datapath, words, LastLane(null, ""), origins);
        wiring.Load(walk);
        return wiring.Seen(0, "");
    }

    /// <summary>A state as it acts in a row of a walk.</summary>
    /// <param name="before">Where the bits came from that the registers hold before it.</param>
    public static IReadOnlyList<Level> OfState(
        State state,
        Walk walk,
        Running.Row row,
        Vocabulary words,
        ProvenanceRow before,
        Origins origins
    )
    {
        var count = walk.Datapath.Schedule.First(s => s.Steps.Contains(row.Step)).Count;
        var control = words.Say("figure.control-round", ("round", row.Round), ("count", count));
        var wiring = new Wiring(walk.Datapath, words, LastLane(row, control), origins);
        wiring.Hold(row, before);
        wiring.Take(state, row, walk.Operands);
        return wiring.Seen(row.Step!.Number, row.Step.Name ?? "");
    }

    /// <summary>Where nothing is computed and nothing written, the registers are seen all the same.</summary>
    private IReadOnlyList<Level> Seen(int step, string name)
    {
        if (levels.Count > 0)
        {
            return levels;
        }
        var still = held.OfType<Lane>().ToList();
        return [new Level(step, 1, name, [], [], still, still, [words.Say("figure.nothing-taken")])];
    }

    private void Load(Walk? walk)
    {
        foreach (var operand in datapath.Operands)
        {
            var lane = new Lane(operand.In(words.Language), operand.Width)
            {
                From = words.Say("figure.operand"),
                IsOperand = true,
            };
            if (walk is not null)
            {
                lane.Bits = walk.Operands[operand.Index];
                lane.Hues =
                [
                    .. lane.Hues.Select((_, i) => origins!.Hue(new BitSource(SourceKind.Operand, i, Operand: operand))),
                ];
            }
            operands.Add(lane);
        }
        recorded = walk is null ? null : new Execution<BigInteger>(new NumberWords(walk.Operands));
        var writes = datapath.Registers.Select(r => new Write(
            new Place(r, r.Width - 1, 0, null, r.Loads.Written!),
            Bits(r.Loads, walk is not null),
            [],
            walk is not null,
            words.Say("figure.loads", ("register", r.Name), ("value", WrittenText.Of(r.Loads, words))),
            r.Loads.Source!.LineOf(r.Loads.Written!.Span.Start)
        ));
        Arrive(0, 1, words.Say("walk.load"), [.. writes], walk?.Rows[0].Registers);
    }

    private void Take(State state, Running.Row? row, IReadOnlyList<BigInteger> given)
    {
        var step = state.Step!;
        for (var moment = 1; moment <= step.Moments.Count; moment++)
        {
            blocks = [];
            busy = [];
            made.Clear();
            seconds.Clear();
            recorded = row is null ? null : Recorded(row, moment, given);
            var writes = new List<Write>();
            foreach (var doing in state.Doings.Where(d => d.Moment == moment))
            {
                Take(doing, writes);
            }
            Arrive(step.Number, moment, step.In(words.Language) ?? "", writes, row?.Moments[moment - 1].Registers);
        }
    }

    /// <summary>What stands on wires in a moment of a row: registers as the moment before left them, and what is named so far.</summary>
    private static Execution<BigInteger> Recorded(Running.Row row, int moment, IReadOnlyList<BigInteger> given)
    {
        var recorded = new Execution<BigInteger>(new NumberWords(given)) { Last = row.Last == true ? 1 : 0 };
        recorded.Begin(moment == 1 ? row.Before : row.Moments[moment - 2].Registers);
        foreach (var named in row.Moments[moment - 1].Values)
        {
            recorded.Wires[named.Wire] = named.Bits;
        }
        return recorded;
    }

    private void Hold(Running.Row? row, ProvenanceRow? before)
    {
        foreach (var register in datapath.Registers)
        {
            var lane = new Lane(register.Name, register.Width, register);
            if (row is not null)
            {
                lane.Bits = row.Before[register.Index];
                lane.Hues = [.. before!.Origins[register.Index].Select(origins!.Hue)];
            }
            held[register.Index] = lane;
        }
    }

    // ---- acts

    /// <summary>A register's bits written in a moment, and what stands above that in branches.</summary>
    private sealed record Write(
        Place Place,
        LaneBit[] Bits,
        IReadOnlyList<LaneBit[]> Steers,
        bool Acts,
        string Said,
        int Line
    );

    private void Take(Doing doing, List<Write> writes)
    {
        var isTaken = recorded is not null && doing.When.All(g => g.IsSo(recorded.Word(g.Value)));
        doing.Act.Switch(
            let: a =>
            {
                Name(a.Wire, isTaken);
                if (a.Second is not null)
                {
                    Name(a.Second, isTaken);
                }
            },
            transfer: a => Transfer(a, isTaken, [.. doing.When.Select(g => Bits(g.Value, isTaken))], writes),
            branch: a => Bits(Plain(a.Condition), isTaken),
            arms: a => Bits(a.Subject, isTaken),
            hold: _ => { },
            remark: _ => { }
        );
    }

    /// <summary>A condition without the turning of it, which needs no hardware of its own.</summary>
    private static Value Plain(Value condition) =>
        condition.Operation == Operation.Not ? Plain(condition.Inputs[0]) : condition;

    private void Name(Wire wire, bool isTaken)
    {
        var bits = Bits(wire.Value, isTaken);
        wires[wire] = Renamed(bits, wire.In(words.Language));
    }

    /// <summary>What a block gives takes the name that the description gives it first.</summary>
    private static LaneBit[] Renamed(LaneBit[] bits, string name)
    {
        if (bits[0].Lane is { Name: "" } lane && bits.Length == lane.Width && bits.All(b => b.Lane == lane))
        {
            lane.Name = name;
        }
        return bits;
    }

    private void Transfer(TransferAct act, bool isTaken, IReadOnlyList<LaneBit[]> steers, List<Write> writes)
    {
        var bits = Bits(act.Value, isTaken);
        var low = act.Value.Width;
        foreach (var place in act.Places)
        {
            low -= place.Width;
            writes.Add(new Write(place, bits[low..(low + place.Width)], steers, isTaken, Said(act), act.Line));
        }
    }

    private string Said(TransferAct act) =>
        string.Join(':', act.Places.Select(p => Printer.Text(p.Written)))
        + " <- "
        + (act.Value.Written is not null ? WrittenText.Of(act.Value, words) : "");

    // ---- the end of a moment

    /// <param name="after">What the registers hold then, as recorded.</param>
    private void Arrive(int step, int moment, string name, List<Write> writes, IReadOnlyList<BigInteger>? after)
    {
        foreach (var block in blocks)
        {
            SetLevel(block);
        }
        var before = held.OfType<Lane>().ToList();
        foreach (var level in blocks.GroupBy(b => b.Level).OrderBy(g => g.Key))
        {
            levels.Add(new Level(step, moment, name, [.. level], [], before, before, []));
        }
        if (writes.Count == 0)
        {
            return;
        }
        var arrivals = new List<Arrival>();
        foreach (var of in writes.GroupBy(w => w.Place.Register).OrderBy(g => g.Key.Index))
        {
            var next = new Lane(of.Key.Name, of.Key.Width, of.Key);
            var now = held[of.Key.Index];
            next.Bits = after?[of.Key.Index];
            next.Hues = now is null ? next.Hues : [.. now.Hues];
            foreach (var group in Overlapping([.. of]))
            {
                arrivals.AddRange(Arrivals(of.Key, group, now));
                Store(group, next);
            }
            held[of.Key.Index] = next;
        }
        levels.Add(new Level(step, moment, name, [], arrivals, before, [.. held.OfType<Lane>()], [.. Notes(writes)]));
    }

    private static int SetLevel(Block block)
    {
        if (block.Level == 0)
        {
            block.Level =
                1 + block.Taps.Select(t => t.Lane.Maker is { } maker ? SetLevel(maker) : 0).DefaultIfEmpty(0).Max();
        }
        return block.Level;
    }

    private IEnumerable<string> Notes(List<Write> writes)
    {
        if (recorded is not null)
        {
            var acting = writes.Where(w => w.Acts).Select(w => w.Said).Distinct().ToList();
            return acting.Count > 0 ? acting : [words.Say("figure.nothing-taken")];
        }
        return writes.Select(w => w.Said).Distinct();
    }

    /// <summary>Writes of one register that share bits, together.</summary>
    private static IEnumerable<List<Write>> Overlapping(List<Write> writes)
    {
        var groups = new List<List<Write>>();
        foreach (var write in writes)
        {
            var with = groups.Where(g =>
                g.Exists(w => w.Place.Low <= write.Place.High && write.Place.Low <= w.Place.High)
            );
            List<Write> joined = [.. with.ToList().SelectMany(g => g), write];
            groups.RemoveAll(g => joined.Contains(g[0]));
            groups.Add(joined);
        }
        return groups;
    }

    private static void Store(List<Write> writes, Lane next)
    {
        foreach (var write in writes.Where(w => w.Acts))
        {
            for (var i = 0; i < write.Bits.Length; i++)
            {
                var (place, bit) = (write.Place.Low + i, write.Bits[i]);
                next.Hues[place] = bit.Lane?.Hues[bit.Index] ?? Role.Neutral;
            }
        }
    }

    private static IEnumerable<Arrival> Arrivals(Register register, List<Write> writes, Lane? now)
    {
        var (high, low) = (writes.Max(w => w.Place.High), writes.Min(w => w.Place.Low));
        var first = writes[0];
        if (writes.Count > 1 || first.Steers.Count > 0)
        {
            yield return Chosen(register, writes, high, low, now);
            yield break;
        }
        // Bits that only move are threads; those that come from elsewhere land under a bar.
        for (var from = 0; from < first.Bits.Length; )
        {
            var moves = IsMove(first.Bits[from]);
            var to = from + 1;
            while (to < first.Bits.Length && IsMove(first.Bits[to]) == moves)
            {
                to++;
            }
            var bits = first.Bits[from..to];
            var taps = moves ? [] : Tap.Of(bits, steers: false, first.Acts).ToList();
            yield return new Arrival(
                register,
                low + to - 1,
                low + from,
                !moves,
                taps,
                moves ? bits : [],
                Stays: false,
                StaysNow: false,
                first.Line
            );
            from = to;
        }
    }

    private static bool IsMove(LaneBit bit) => bit.Lane is null or { Register: not null };

    private static Arrival Chosen(Register register, List<Write> writes, int high, int low, Lane? now)
    {
        var taps = new List<Tap>();
        var moves = Enumerable.Range(low, high - low + 1).Select(_ => default(LaneBit)).ToArray();
        foreach (var write in writes)
        {
            // What is taken now and comes out of registers is drawn bit by bit, as threads.
            var others = write.Acts ? write.Bits.Where(b => !IsMove(b)) : write.Bits;
            foreach (var tap in Tap.Of([.. others], steers: false, write.Acts))
            {
                Add(taps, tap);
            }
            foreach (var tap in write.Steers.SelectMany(s => Tap.Of(s, steers: true, acts: true)))
            {
                Add(taps, tap);
            }
            for (var i = 0; i < write.Bits.Length && write.Acts; i++)
            {
                moves[write.Place.Low + i - low] = IsMove(write.Bits[i]) ? write.Bits[i] : default;
            }
        }
        var stays = !writes.Exists(w => w.Steers.Count == 0) && now is not null;
        var acting = writes.Where(w => w.Acts).ToList();
        return new Arrival(register, high, low, true, taps, moves, stays, acting.Count == 0, writes[0].Line);
    }

    /// <summary>One tap for the same bits, however many take them; it acts where one of them does.</summary>
    private static void Add(List<Tap> taps, Tap tap)
    {
        var at = taps.FindIndex(t => t.IsOf(tap));
        if (at < 0)
        {
            taps.Add(tap);
        }
        else if (tap.Acts)
        {
            taps[at] = tap;
        }
    }
}
