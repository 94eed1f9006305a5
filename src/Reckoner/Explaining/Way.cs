using Reckoner.Datapaths;
using Reckoner.Execution;
using Reckoner.Slips;
using Reckoner.Timelines;

namespace Reckoner.Explaining;

/// <summary>
/// A way to work a table out: the machine itself, one with a slip, or another machine, over rows that are laid out as those of the
/// machine are. A register that only this way has lies above them.
/// </summary>
internal sealed class Way
{
    private readonly Place[] places;
    private readonly WordCode load;
    private readonly Edge[] edges;
    private readonly WordCode ending;

    private Way(Datapath datapath, Slip? slip, Place[] places, WordCode load, Edge[] edges, WordCode ending)
    {
        Datapath = datapath;
        Slip = slip;
        this.places = places;
        this.load = load;
        this.edges = edges;
        this.ending = ending;
    }

    /// <summary>Where a register lies in a row.</summary>
    private readonly record struct Place(int Low, int Width);

    /// <param name="Goes">Whether the loop goes on, asked before it; null where nothing is asked.</param>
    /// <param name="Beyond">The first edge behind the loop.</param>
    private readonly record struct Edge(WordCode Code, WordCode? Goes, int Beyond);

    public Datapath Datapath { get; }

    public Slip? Slip { get; }

    /// <summary>Registers that the machine itself lacks, in bits.</summary>
    public int HiddenBits { get; private init; }

    /// <summary>Whether every register of the machine is one of this way's at its full width.</summary>
    public bool HasAllRegisters { get; private init; }

    /// <summary>Whether the machine has a register that this way has not at all, so that its rows cannot be compared.</summary>
    public bool LacksRegister { get; private init; }

    /// <summary>Cycles, those of loops that may stop early up to their bound.</summary>
    public int MostCycles => edges.Length;

    /// <summary>Null where a word is too wide, or a register wider than it is in the layout.</summary>
    public static Way? Of(Datapath datapath, RowLayout layout, Slip? slip = null)
    {
        var places = new Place[datapath.Registers.Count];
        var (above, common) = (layout.Bits, 0);
        foreach (var register in datapath.Registers)
        {
            var known = layout.Datapath.Registers.FirstOrDefault(r => r.Name == register.Name);
            if (known is null)
            {
                places[register.Index] = new Place(above, register.Width);
                above += register.Width;
            }
            else if (register.Width <= known.Width)
            {
                places[register.Index] = new Place(layout.Lows[known.Index], register.Width);
                common += register.Width == known.Width ? 1 : 0;
            }
            else
            {
                return null;
            }
        }
        var graph = new WordGraph();
        var unrolling = new Unrolling(graph, graph.Operand);
        unrolling.Load(datapath);
        var load = WordCode.Of(graph, unrolling.Registers);
        var (endGraph, results) = EdgeAlone.Ending(datapath);
        var ending = WordCode.Of(endGraph, results);
        return
            above <= RowLayout.MostBits
            && load is not null
            && ending is not null
            && Edges(datapath) is { } edges
            && datapath.Operands.All(o => o.Width <= 64)
            ? new Way(datapath, slip, places, load, edges, ending)
            {
                HiddenBits = above - layout.Bits,
                HasAllRegisters = common == layout.Datapath.Registers.Count,
                LacksRegister = layout.Datapath.Registers.Any(r => datapath.Registers.All(own => own.Name != r.Name)),
            }
            : null;
    }

    /// <summary>Cycles that are alike share their code, so that they can be told to be.</summary>
    private static Edge[]? Edges(Datapath datapath)
    {
        var known = new Dictionary<(int Step, bool IsLast), (WordCode Code, WordCode? Goes)>();
        var edges = new List<Edge>();
        foreach (var cycle in Cycle.Of(datapath))
        {
            var key = (cycle.Step.Number, cycle.IsLastRound);
            if (!known.TryGetValue(key, out var code))
            {
                var alone = EdgeAlone.Of(datapath, cycle.Segment, cycle.Step, cycle.IsLastRound);
                var goes = alone.Goes is { } word ? WordCode.Of(alone.Graph, [word]) : null;
                if (WordCode.Of(alone.Graph, alone.Registers) is not { } made || (alone.Goes is null) != (goes is null))
                {
                    return null;
                }
                known[key] = code = (made, goes);
            }
            var beyond = cycle.Number + (cycle.Segment.Count - cycle.Round + 1) * cycle.Segment.Steps.Count - 1;
            edges.Add(new Edge(code.Code, code.Goes, beyond));
        }
        return [.. edges];
    }

    /// <summary>The row of the load.</summary>
    public UInt128 Load(ReadOnlySpan<ulong> operands)
    {
        Span<ulong> registers = stackalloc ulong[places.Length];
        load.Run(operands, registers);
        return Packed(registers);
    }

    /// <summary>The place in the schedule of the next cycle that takes place; <see cref="MostCycles"/> where none does.</summary>
    public int Next(int at, UInt128 row)
    {
        while (at < edges.Length && edges[at].Goes is { } goes && !Goes(goes, row))
        {
            at = edges[at].Beyond;
        }
        return at;
    }

    private bool Goes(WordCode goes, UInt128 row)
    {
        Span<ulong> registers = stackalloc ulong[places.Length];
        Span<ulong> on = stackalloc ulong[1];
        Unpack(row, registers);
        goes.Run(registers, on);
        return on[0] != 0;
    }

    /// <summary>What one cycle makes of a row, whatever stands in it.</summary>
    public UInt128 After(int at, UInt128 row)
    {
        Span<ulong> before = stackalloc ulong[places.Length];
        Span<ulong> after = stackalloc ulong[places.Length];
        Unpack(row, before);
        edges[at].Code.Run(before, after);
        return Packed(after);
    }

    public bool AreAlike(int at, int other) => edges[at].Code == edges[other].Code;

    /// <summary>One place of each kind of cycle.</summary>
    public IReadOnlyList<int> Distinct =>
        field ??= [.. Enumerable.Range(0, edges.Length).DistinctBy(i => edges[i].Code)];

    /// <summary>The bits of the results, by what the registers hold in the end.</summary>
    public ulong[] Results(UInt128 row)
    {
        Span<ulong> registers = stackalloc ulong[places.Length];
        Unpack(row, registers);
        var results = new ulong[Datapath.Results.Count];
        ending.Run(registers, results);
        return results;
    }

    /// <summary>Every row, hidden registers included: the load, then one for each cycle that takes place.</summary>
    public List<UInt128> Table(ReadOnlySpan<ulong> operands)
    {
        var row = Load(operands);
        List<UInt128> rows = [row];
        for (var at = Next(0, row); at < edges.Length; at = Next(at + 1, row))
        {
            rows.Add(row = After(at, row));
        }
        return rows;
    }

    public ulong[] Final(ReadOnlySpan<ulong> operands)
    {
        var row = Load(operands);
        for (var at = Next(0, row); at < edges.Length; at = Next(at + 1, row))
        {
            row = After(at, row);
        }
        return Results(row);
    }

    private UInt128 Packed(ReadOnlySpan<ulong> registers)
    {
        var row = UInt128.Zero;
        for (var i = 0; i < places.Length; i++)
        {
            row |= (UInt128)registers[i] << places[i].Low;
        }
        return row;
    }

    private void Unpack(UInt128 row, Span<ulong> registers)
    {
        for (var i = 0; i < places.Length; i++)
        {
            registers[i] = (ulong)((row >> places[i].Low) & RowLayout.Ones(places[i].Width));
        }
    }
}
