using System.Numerics;
using Reckoner.Datapaths;
using Reckoner.Structure;

namespace Reckoner.Costing;

/// <summary>
/// When which bit is there in one cycle, its registers being there at the beginning. What the control unit says by the state alone is
/// there at the beginning too; what it says by a bit that is looked at comes when that bit is there.
/// </summary>
/// <param name="settings">What units are told in this cycle.</param>
internal sealed class CycleTiming(CostedParts parts, IReadOnlyList<UnitSetting> settings)
{
    private readonly CostModel model = parts.Model;
    private readonly Dictionary<Net, Arrival[]> nets = [];
    private readonly Dictionary<Unit, (Arrival[] Inputs, int[] At, int[] From)> units = [];

    /// <summary>When a bit is there, and what it waited for; constants are there before any time.</summary>
    internal readonly record struct Arrival(int At, Trail? Trail)
    {
        public static readonly Arrival Always = new(int.MinValue, null);

        public bool IsAlways => At == int.MinValue;

        public Arrival Behind(PathKind kind, int delay, Func<PathHop, PathHop>? told = null)
        {
            if (IsAlways)
            {
                return this;
            }
            var hop = new PathHop(kind, delay, At + delay);
            return new Arrival(hop.At, new Trail(told?.Invoke(hop) ?? hop, Trail));
        }
    }

    internal sealed record Trail(PathHop Hop, Trail? Before);

    private static Arrival Latest(IEnumerable<Arrival> arrivals) =>
        arrivals.Aggregate(Arrival.Always, (a, b) => b.At > a.At ? b : a);

    private static int Levels(int count) => count <= 1 ? 0 : BitOperations.Log2((uint)(count - 1)) + 1;

    /// <summary>The longest path to what is stored at the end of the cycle.</summary>
    public IReadOnlyList<PathHop> Longest(int state) => Hops(Latest(parts.Registers.Select(r => Stored(r, state))));

    /// <summary>The longest path to whether a loop goes on.</summary>
    public IReadOnlyList<PathHop> Longest(Guard guard) => Hops(When(guard));

    private static List<PathHop> Hops(Arrival last)
    {
        var hops = new List<PathHop>();
        for (var trail = last.Trail; trail is not null; trail = trail.Before)
        {
            hops.Add(trail.Hop);
        }
        hops.Reverse();
        return hops;
    }

    private Arrival Stored(CostedRegister register, int state)
    {
        var word = register.Structure.Stored[state];
        return Latest(
            register
                .Fields.Select(field => (Of: field, Word: word.Part(field.Field.Low, field.Field.Width)))
                .Where(f => f.Of.Field.Sources.Contains(f.Word))
                .Select(f =>
                {
                    var last = Latest(Of(f.Word));
                    var levels = Levels(f.Of.Field.Sources.Count) + (f.Of.Holds ? 1 : 0);
                    return levels == 0
                        ? last
                        : last.Behind(
                            PathKind.RegisterInput,
                            levels * model.Choice.Delay,
                            hop => hop with { Register = register.Structure.Register }
                        );
                })
        );
    }

    /// <summary>When it is known whether something is done.</summary>
    private Arrival When(Guard guard)
    {
        var last = Latest(Of(guard.Word));
        return guard.Arms.Count == 0
            ? last
            : last.Behind(PathKind.Equal, Levels(guard.Word.Width) * model.And.Delay, Here(guard.Value));
    }

    private static Func<PathHop, PathHop> Here(Value value) =>
        hop =>
            value is { Written: { } written, Source: { } source }
                ? hop with
                {
                    Source = source,
                    Line = source.LineOf(written.Span.Start),
                }
                : hop;

    private static Func<PathHop, PathHop> Here(Net net) =>
        hop => hop with { Source = net.Origin.Source, Line = net.Origin.Line };

    /// <summary>The bits of a bundle, the lowest first.</summary>
    private Arrival[] Of(Bundle bundle)
    {
        var bits = new List<Arrival>(bundle.Width);
        foreach (var stretch in bundle.Stretches.Reverse())
        {
            if (stretch.Net is not { } net)
            {
                bits.AddRange(Enumerable.Repeat(Arrival.Always, stretch.Width));
                continue;
            }
            var all = Of(net);
            for (var i = 0; i < stretch.Width; i++)
            {
                bits.Add(all[stretch.Low + (stretch.Times > 1 ? 0 : i)]);
            }
        }
        return [.. bits];
    }

    private Arrival[] Of(Net net)
    {
        if (!nets.TryGetValue(net, out var bits))
        {
            var before = circles;
            bits = Found(net);
            if (circles == before)
            {
                nets[net] = bits;
            }
        }
        return bits;
    }

    private Arrival[] Found(Net net)
    {
        var begin = new Arrival(0, null);
        return net.Kind switch
        {
            NetKind.Operand => All(begin.Behind(PathKind.Operand, 0, h => h with { Operand = net.Operand })),
            NetKind.Register => All(
                begin.Behind(PathKind.Register, model.Register.Delay, h => h with { Register = net.Register })
            ),
            NetKind.Last => All(
                begin.Behind(PathKind.Last, Levels(parts.Structure.Datapath.RoundBits) * model.And.Delay)
            ),
            NetKind.And => Gates(PathKind.And, model.And.Delay),
            NetKind.Or => Gates(PathKind.Or, model.Or.Delay),
            NetKind.Xor => Gates(PathKind.Xor, model.Xor.Delay),
            NetKind.Not => [.. Of(net.Inputs[0]).Select(b => b.Behind(PathKind.Not, model.Not.Delay, Here(net)))],
            NetKind.Equal => [Equal()],
            NetKind.Choice => Choice(),
            NetKind.Lookup => Lookup(),
            NetKind.Unit => UnitBits(net),
        };

        Arrival[] All(Arrival each) => [.. Enumerable.Repeat(each, net.Width)];

        Arrival[] Gates(PathKind kind, int delay) =>
            [
                .. Of(net.Inputs[0])
                    .Zip(
                        Of(net.Inputs[1]),
                        (a, b) =>
                            a.IsAlways ? b
                            : b.IsAlways ? a
                            : Latest([a, b]).Behind(kind, delay, Here(net))
                    ),
            ];

        Arrival Equal()
        {
            var pairs = Of(net.Inputs[0]).Zip(Of(net.Inputs[1])).ToList();
            var compared = pairs.Exists(p => !p.First.IsAlways && !p.Second.IsAlways) ? model.Xor.Delay : 0;
            var last = Latest(pairs.SelectMany(p => new[] { p.First, p.Second }));
            return last.Behind(PathKind.Equal, compared + Levels(pairs.Count) * model.And.Delay, Here(net));
        }

        Arrival[] Choice()
        {
            var condition = Of(net.Inputs[0])[0];
            return
            [
                .. Of(net.Inputs[1])
                    .Zip(
                        Of(net.Inputs[2]),
                        (one, zero) =>
                            Latest([condition, one, zero])
                                .Behind(
                                    PathKind.Choice,
                                    (one.IsAlways, zero.IsAlways) switch
                                    {
                                        (true, true) => model.Not.Delay,
                                        (false, false) => model.Choice.Delay,
                                        _ => Math.Max(model.And.Delay, model.Or.Delay),
                                    },
                                    Here(net)
                                )
                    ),
            ];
        }

        Arrival[] Lookup()
        {
            var address = Of(net.Inputs[0]);
            if (model.TableBit is { } bit)
            {
                return All(Latest(address).Behind(PathKind.Lookup, bit.Delay, h => h with { Table = net.Table }));
            }
            var gates = parts.Tables[net.Table!];
            var (at, from) = gates.Arrivals(model, i => address[i].At);
            return
            [
                .. gates.Bits.Select(place =>
                    Through(PathKind.Lookup, place, at, from, address, h => h with { Table = net.Table })
                ),
            ];
        }
    }

    private static Arrival Through(
        PathKind kind,
        int place,
        int[] at,
        int[] from,
        IReadOnlyList<Arrival> inputs,
        Func<PathHop, PathHop> told
    )
    {
        if (at[place] == int.MinValue)
        {
            return Arrival.Always;
        }
        var first = inputs[from[place]];
        return first.Behind(kind, at[place] - first.At, told);
    }

    private Arrival[] UnitBits(Net net)
    {
        if (Timed(net.Unit!) is not var (inputs, at, from))
        {
            return [.. Enumerable.Repeat(Arrival.Always, net.Width)];
        }
        return
        [
            .. parts
                .Units[net.Unit!]
                .Gates[net.Output]
                .Select(place =>
                    Through(
                        PathKind.Unit,
                        place,
                        at,
                        from,
                        inputs,
                        h => h with { Unit = net.Unit, Output = net.Output }
                    )
                ),
        ];
    }

    /// <summary>
    /// How often a unit was asked for while it was being found. What was computed meanwhile holds for this way of asking alone, since
    /// no path leads through a unit twice, and is not kept.
    /// </summary>
    private int circles;

    private readonly HashSet<Unit> beingFound = [];

    /// <summary>Null while it is being found: a unit waits for itself in no cycle, only in the list of all that it may be told.</summary>
    private (Arrival[] Inputs, int[] At, int[] From)? Timed(Unit unit)
    {
        if (units.TryGetValue(unit, out var timed))
        {
            return timed;
        }
        if (!beingFound.Add(unit))
        {
            circles++;
            return null;
        }
        var before = circles;
        var told = settings.Where(s => s.Unit == unit).ToList();
        var chosen = Latest(told.Count > 1 ? told.SelectMany(s => s.When).Select(When) : []);
        var costed = parts.Units[unit];
        var inputs = new List<Arrival>();
        for (var i = 0; i < costed.Gates.Operands.Count; i++)
        {
            var words = told.Select(s => s.Operands[i]).Distinct().Select(Of).ToList();
            var levels = Levels(costed.Inputs[i].Count);
            for (var bit = 0; bit < costed.Gates.Operands[i].Length; bit++)
            {
                var last = Latest(words.Select(w => w[bit]).Concat(words.Count > 1 ? [chosen] : []));
                inputs.Add(
                    levels == 0
                        ? last
                        : last.Behind(PathKind.UnitInput, levels * model.Choice.Delay, h => h with { Unit = unit })
                );
            }
        }
        if (costed.Gates.IsTold)
        {
            inputs.Add(
                told.Select(s => s.Function).Distinct().Count() > 1
                    ? chosen
                    : new Arrival(0, null).Behind(PathKind.Control, 0)
            );
        }
        var (at, from) = costed.Gates.Arrivals(model, i => inputs[i].At);
        var found = (inputs.ToArray(), at, from);
        beingFound.Remove(unit);
        if (circles == before)
        {
            units[unit] = found;
        }
        return found;
    }
}
