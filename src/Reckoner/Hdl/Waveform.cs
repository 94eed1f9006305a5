using System.Globalization;
using System.Numerics;
using Reckoner.Datapaths;
using Reckoner.Numbers;
using Reckoner.Running;

namespace Reckoner.Hdl;

/// <summary>
/// Writes a walk as a dump of value changes (IEEE 1364-2005, clause 18), for viewers of waveforms. The clock rises in the middle of each
/// ten units of time, the first time for the load; between two rises stands what a row of the walk shows: registers as they are held, the
/// values that are named in that cycle, and nothing known in the others.
/// </summary>
internal sealed class Waveform
{
    private const int Period = 10;
    private const int Rise = 5;

    /// <summary>Signs that may stand for a variable: those that print, without the blank.</summary>
    private const int FirstSign = '!';
    private const int Signs = '~' - '!' + 1;

    private readonly TextWriter text;
    private readonly Walk walk;
    private readonly List<Variable> variables = [];

    /// <summary>A name of the description that is one of ours too becomes another.</summary>
    private readonly HashSet<string> taken = [];
    private readonly Dictionary<(string, int), Variable> named = [];

    private readonly Variable clock;
    private readonly Variable start;
    private readonly Variable busy;
    private readonly Variable done;
    private readonly Variable step;
    private readonly Variable round;
    private readonly List<Variable> operands;
    private readonly List<Variable> registers;

    private sealed record Variable(string Sign, string Name, int Width)
    {
        /// <summary>What it was said to be last; null while nothing is known of it.</summary>
        public BigInteger? Bits { get; set; }

        public bool IsSaid { get; set; }
    }

    private Waveform(TextWriter text, Walk walk)
    {
        this.text = text;
        this.walk = walk;
        var datapath = walk.Datapath;
        clock = New(HdlModule.Clock, 1);
        start = New(HdlModule.Start, 1);
        busy = New(HdlModule.Busy, 1);
        done = New(HdlModule.Done, 1);
        step = New("step_number", Wide(datapath.Steps.Count()));
        round = New("round_number", Wide(datapath.Schedule.Select(s => s.Count).Append(0).Max()));
        operands = [.. datapath.Operands.Select(o => New(o.Name, o.Width))];
        registers = [.. datapath.Registers.Select(r => New(r.Name, r.Width))];
    }

    /// <param name="head">What is said above it.</param>
    public static void Write(TextWriter text, Walk walk, IReadOnlyList<string> head) =>
        new Waveform(text, walk).Write(head);

    private static int Wide(int most) => BitOperations.Log2((uint)most) + 1;

    private string Free(string name)
    {
        var free = name;
        for (var number = 2; !taken.Add(free); number++)
        {
            free = $"{name}_{number}";
        }
        return free;
    }

    private Variable New(string name, int width)
    {
        var sign = "";
        for (var rest = variables.Count; rest >= 0; rest = rest / Signs - 1)
        {
            sign = (char)(FirstSign + rest % Signs) + sign;
        }
        var variable = new Variable(sign, Free(name), width);
        variables.Add(variable);
        return variable;
    }

    private void Write(IReadOnlyList<string> head)
    {
        foreach (var wire in Wires())
        {
            // What several steps name alike is one variable, where it is of one width.
            named.TryAdd((wire.Name, wire.Value.Width), New(wire));
        }
        foreach (var line in head)
        {
            text.Write($"$comment {line.Replace("$", "", StringComparison.Ordinal)} $end\n");
        }
        text.Write("$timescale 1 ns $end\n");
        text.Write($"$scope module {walk.Datapath.Machine.Name} $end\n");
        foreach (var variable in variables)
        {
            var places = variable.Width == 1 ? "" : $" [{variable.Width - 1}:0]";
            text.Write($"$var wire {variable.Width} {variable.Sign} {variable.Name}{places} $end\n");
        }
        text.Write("$upscope $end\n$enddefinitions $end\n");
        Values();
    }

    private IEnumerable<Wire> Wires() =>
        walk
            .Datapath.Steps.SelectMany(s => s.Moments)
            .SelectMany(m => m)
            .SelectMany(a => a.All)
            .SelectMany(a => a.Names);

    private Variable New(Wire wire) =>
        named.TryGetValue((wire.Name, wire.Value.Width), out var known) ? known : New(wire.Name, wire.Value.Width);

    private void Values()
    {
        text.Write("#0\n$dumpvars\n");
        Set(start, 1);
        for (var i = 0; i < operands.Count; i++)
        {
            Set(operands[i], walk.Operands[i]);
        }
        foreach (var low in new[] { clock, busy, done, step, round })
        {
            Set(low, 0);
        }
        foreach (var unknown in variables.Where(v => !v.IsSaid))
        {
            Set(unknown, null);
        }
        text.Write("$end\n");
        for (var edge = 0; edge <= walk.Cycles; edge++)
        {
            Edge(edge);
        }
        At(walk.Cycles + 1, Rise);
        Set(clock, 1);
        Set(done, 0);
        At(walk.Cycles + 2, 0);
        Set(clock, 0);
    }

    /// <summary>A clock edge, 0 being the load, and what stands until the next.</summary>
    private void Edge(int edge)
    {
        At(edge, Rise);
        Set(clock, 1);
        var row = walk.Rows[edge];
        for (var i = 0; i < registers.Count; i++)
        {
            Set(registers[i], row.Registers[i]);
        }
        var next = edge < walk.Cycles ? walk.Rows[edge + 1] : null;
        Set(busy, next is null ? 0 : 1);
        Set(done, next is null ? 1 : 0);
        Set(step, next?.Step?.Number ?? 0);
        Set(round, next?.Round ?? 0);
        var carried = (next?.Moments ?? []).SelectMany(m => m.Values).ToLookup(v => Of(v.Wire), v => v.Bits);
        foreach (var variable in named.Values)
        {
            Set(variable, carried[variable].Select(b => (BigInteger?)b).LastOrDefault());
        }
        At(edge + 1, 0);
        Set(clock, 0);
        Set(start, 0);
        foreach (var operand in operands)
        {
            Set(operand, null);
        }
    }

    private Variable Of(Wire wire) => named[(wire.Name, wire.Value.Width)];

    private void At(int edge, int within) =>
        text.Write($"#{((long)edge * Period + within).ToString(CultureInfo.InvariantCulture)}\n");

    /// <summary>Only changes are written.</summary>
    /// <param name="bits">Null where nothing is known.</param>
    private void Set(Variable variable, BigInteger? bits)
    {
        if (variable.IsSaid && variable.Bits == bits)
        {
            return;
        }
        variable.IsSaid = true;
        variable.Bits = bits;
        var digits = bits is { } known ? Bits.Text(known, variable.Width) : "x";
        text.Write(variable.Width == 1 ? $"{digits}{variable.Sign}\n" : $"b{digits} {variable.Sign}\n");
    }
}
