using Reckoner.Datapaths;
using Reckoner.Execution;

namespace Reckoner.Running;

/// <summary>Notes what happens, and beside it where the bits come from that each edge stores.</summary>
internal sealed partial class Tracer(Datapath datapath) : Recorder<TracedWord>(w => w.Bits)
{
    private readonly List<ProvenanceRow> rows = [];
    private readonly List<Landing> landings = [];
    private Dictionary<Value, IReadOnlyList<IReadOnlyList<BitSource>>> fed = [];

    public IReadOnlyList<ProvenanceRow> Provenance => rows;

    private List<BitSource[]> Sources() => [.. datapath.Registers.Select(r => Heard.Registers[r.Index].Sources)];

    public override void EndsLoad()
    {
        base.EndsLoad();
        var loads = Sources();
        rows.Add(new ProvenanceRow(0, loads, loads, []));
    }

    public override void Begins(Cycle cycle, TracedWord active)
    {
        base.Begins(cycle, active);
        landings.Clear();
        dropped.Clear();
        fed = [];
    }

    public override void Ends(Cycle cycle)
    {
        base.Ends(cycle);
        var sources = Sources();
        var before = rows[^1].Origins;
        var origins = sources.Select(s =>
            (IReadOnlyList<BitSource>)
                [.. s.Select(b => b.Kind == SourceKind.Register ? before[b.Register!.Index][b.Bit] : b)]
        );
        var kept = sources.SelectMany(s => s).Where(s => s.Value is not null).Select(s => s.Value).ToHashSet();
        rows.Add(
            new ProvenanceRow(rows.Count, sources, [.. origins], [.. landings.Where(l => kept.Contains(l.Value))])
            {
                Fed = fed,
                Dropped = [.. dropped.Where(d => !kept.Contains(d.Value))],
            }
        );
    }

    public override void Computed(Value value, ReadOnlySpan<TracedWord> inputs, TracedWord word)
    {
        base.Computed(value, inputs, word);
        if (Tally.Adds(value))
        {
            fed[value] = [.. inputs.ToArray().Select(i => i.Sources)];
        }
    }

    public override void Wrote(TransferAct act, TracedWord word)
    {
        base.Wrote(act, word);
        if (IsTaken)
        {
            landings.AddRange(Landings(act, word));
        }
        Drop(act, word);
    }

    /// <summary>Where a decision chose between 1 and 0, the output that decided comes down, if it has not before.</summary>
    public override void Joined(Act act)
    {
        foreach (var inner in IsTaken ? act.All : [])
        {
            foreach (var place in inner.Writes)
            {
                var held = Heard.Registers[place.Register.Index].Sources;
                var found = Landings(place, held.AsSpan(place.Low, place.Width), inner.Line);
                landings.AddRange(found.Where(f => !landings.Exists(l => l.Holds(f))));
            }
        }
    }

    private static IEnumerable<Landing> Landings(TransferAct act, TracedWord word)
    {
        var low = act.Value.Width;
        foreach (var place in act.Places)
        {
            low -= place.Width;
            foreach (var landing in Landings(place, word.Sources.AsSpan(low, place.Width), act.Line))
            {
                yield return landing;
            }
        }
    }

    /// <summary>Runs of bits that come out of one and the same thing.</summary>
    private static List<Landing> Landings(Place place, ReadOnlySpan<BitSource> sources, int line)
    {
        var found = new List<Landing>();
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
                var (high, low) = (place.Low + to - 1, place.Low + from);
                found.Add(new Landing(value, sources[from].Bit, place.Register, high, low, line));
            }
            from = to;
        }
        return found;
    }
}
