namespace Reckoner.Costing;

/// <summary>What stands at a place of a net of gates.</summary>
internal enum GateKind
{
    Constant,
    Input,
    And,
    Or,
    Xor,
    Not,

    /// <summary>Its inputs are the condition, the bit for 1, the bit for 0.</summary>
    Choice,

    /// <summary>A full adder's sum of three bits, where the model has full adders.</summary>
    Sum,

    /// <summary>Its carry, which stands behind the sum it belongs to.</summary>
    Carry,
}

/// <summary>
/// Gates over bits, each behind those it takes; a bit is known by its place. What is constant is no gate, and the same gate stands
/// there once.
/// </summary>
/// <param name="hasFullAdders">Whether sums of three bits are full adders of their own, or gates.</param>
internal sealed class GateNet(bool hasFullAdders = false)
{
    public const int Zero = 0;
    public const int One = 1;

    /// <param name="Timed">Of a choice: the place for whose time it waits instead of <paramref name="C"/>; 0 for none.</param>
    private readonly record struct Gate(GateKind Kind, int A, int B, int C, int Timed);

    private readonly List<Gate> gates = [new(GateKind.Constant, 0, 0, 0, 0), new(GateKind.Constant, 1, 0, 0, 0)];
    private readonly Dictionary<Gate, int> known = [];

    public bool HasFullAdders => hasFullAdders;

    /// <summary>The places of all inputs, in the order in which they were made.</summary>
    public List<int> Inputs { get; } = [];

    public int Input()
    {
        gates.Add(new Gate(GateKind.Input, Inputs.Count, 0, 0, 0));
        Inputs.Add(gates.Count - 1);
        return gates.Count - 1;
    }

    public int[] Word(int width) => [.. Enumerable.Range(0, width).Select(_ => Input())];

    private int Enter(GateKind kind, int a, int b = 0, int c = 0, int timed = 0)
    {
        var gate = new Gate(kind, a, b, c, timed);
        if (!known.TryGetValue(gate, out var place))
        {
            place = gates.Count;
            gates.Add(gate);
            known.Add(gate, place);
        }
        return place;
    }

    public int And(int a, int b) =>
        a == Zero || b == Zero ? Zero
        : a == One || a == b ? b
        : b == One ? a
        : Enter(GateKind.And, Math.Min(a, b), Math.Max(a, b));

    public int Or(int a, int b) =>
        a == One || b == One ? One
        : a == Zero || a == b ? b
        : b == Zero ? a
        : Enter(GateKind.Or, Math.Min(a, b), Math.Max(a, b));

    public int Xor(int a, int b) =>
        a == b ? Zero
        : a == Zero ? b
        : b == Zero ? a
        : a == One ? Not(b)
        : b == One ? Not(a)
        : Enter(GateKind.Xor, Math.Min(a, b), Math.Max(a, b));

    public int Not(int a) =>
        a <= One ? One - a
        : gates[a].Kind == GateKind.Not ? gates[a].A
        : Enter(GateKind.Not, a);

    /// <summary>one where the condition is 1, else zero.</summary>
    public int Choose(int condition, int one, int zero) =>
        condition == One || one == zero ? one
        : condition == Zero ? zero
        : (one, zero) == (One, Zero) ? condition
        : (one, zero) == (Zero, One) ? Not(condition)
        : zero == Zero ? And(condition, one)
        : one == One ? Or(condition, zero)
        : one == Zero ? And(Not(condition), zero)
        : zero == One ? Or(Not(condition), one)
        : Enter(GateKind.Choice, condition, one, zero);

    /// <summary>
    /// The carry where all places of a group pass it on, else what comes out of the group. That is then the same as what the group
    /// makes by itself, since the carry ends at the place that does not pass it on: nothing waits for the carry to ripple through.
    /// </summary>
    /// <param name="own">What comes out of the group without a carry into it: no hardware, only when it is there.</param>
    public int Bypass(int passes, int carry, int comes, int own) =>
        comes == own ? Or(comes, And(passes, carry)) : Enter(GateKind.Choice, passes, carry, comes, own);

    /// <summary>The sum of three bits and its carry: a full adder of the model, or gates; less where bits are 0.</summary>
    public (int Sum, int Carry) Full(int a, int b, int c)
    {
        if (!hasFullAdders || new[] { a, b, c }.Count(bit => bit == Zero) > 1)
        {
            var half = Xor(a, b);
            return (Xor(half, c), Or(And(a, b), And(half, c)));
        }
        var sum = Enter(GateKind.Sum, a, b, c);
        var carry = Enter(GateKind.Carry, a, b, c, sum);
        return (sum, carry);
    }

    /// <summary>The conjunction of bits as a tree.</summary>
    public int All(IReadOnlyList<int> bits) => Tree(bits, And, One);

    /// <summary>The disjunction of bits as a tree.</summary>
    public int Any(IReadOnlyList<int> bits) => Tree(bits, Or, Zero);

    private static int Tree(IReadOnlyList<int> bits, Func<int, int, int> joined, int none)
    {
        var level = bits;
        while (level.Count > 1)
        {
            level = [.. level.Chunk(2).Select(pair => pair.Length == 2 ? joined(pair[0], pair[1]) : pair[0])];
        }
        return level.Count == 0 ? none : level[0];
    }

    private IEnumerable<int> InputsOf(int place)
    {
        var gate = gates[place];
        return gate.Kind switch
        {
            GateKind.Constant or GateKind.Input => [],
            GateKind.Not => [gate.A],
            GateKind.And or GateKind.Or or GateKind.Xor => [gate.A, gate.B],
            GateKind.Choice or GateKind.Sum or GateKind.Carry => [gate.A, gate.B, gate.C],
        };
    }

    /// <summary>The gates and inputs that these bits need, each behind those it takes; a full adder's two outputs as two.</summary>
    public IReadOnlyList<(int Place, GateKind Kind, int A, int B, int C)> Needed(IEnumerable<int> outputs)
    {
        var needed = Wanted(outputs);
        for (var place = gates.Count - 1; place > One; place--)
        {
            foreach (var input in needed[place] ? InputsOf(place) : [])
            {
                needed[input] = true;
            }
        }
        return
        [
            .. gates
                .Index()
                .Where(g => needed[g.Index])
                .Select(g => (g.Index, g.Item.Kind, g.Item.A, g.Item.B, g.Item.C)),
        ];
    }

    private bool[] Wanted(IEnumerable<int> outputs)
    {
        var wanted = new bool[gates.Count];
        foreach (var output in outputs)
        {
            wanted[output] = true;
        }
        return wanted;
    }

    /// <summary>The area of all gates that these bits need.</summary>
    public long Area(CostModel model, IEnumerable<int> outputs)
    {
        var needed = Wanted(outputs);
        var area = 0L;
        // A full adder is one piece, whichever of its two outputs are needed.
        var counted = new HashSet<int>();
        for (var place = gates.Count - 1; place > One; place--)
        {
            if (needed[place])
            {
                var gate = gates[place];
                var isCounted =
                    gate.Kind is GateKind.Sum or GateKind.Carry
                    && !counted.Add(gate.Kind == GateKind.Carry ? gate.Timed : place);
                area += isCounted ? 0 : model.Of(gate.Kind).Area;
                foreach (var input in InputsOf(place))
                {
                    needed[input] = true;
                }
            }
        }
        return area;
    }

    /// <summary>When each place has its value, and by which input's value it waits longest; -1 where it waits for none.</summary>
    /// <param name="at">When inputs have theirs, by their order. An input that has it before the edge is said to have it below 0.</param>
    public (int[] At, int[] From) Arrivals(CostModel model, Func<int, int> at)
    {
        var (times, from) = (new int[gates.Count], new int[gates.Count]);
        times[Zero] = times[One] = int.MinValue;
        from[Zero] = from[One] = -1;
        for (var place = One + 1; place < gates.Count; place++)
        {
            var gate = gates[place];
            if (gate.Kind == GateKind.Input)
            {
                (times[place], from[place]) = (at(gate.A), gate.A);
                continue;
            }
            var last = Waits(gate).MaxBy(w => Behind(times[w.For], w.Delay));
            times[place] = Behind(times[last.For], last.Delay);
            from[place] = from[last.For];
        }
        return (times, from);

        static int Behind(int time, int delay) => time == int.MinValue ? time : time + delay;

        (int For, int Delay)[] Waits(Gate gate)
        {
            var delay = model.Of(gate.Kind).Delay;
            return gate.Kind switch
            {
                GateKind.Constant or GateKind.Input => [],
                GateKind.Not => [(gate.A, delay)],
                GateKind.And or GateKind.Or or GateKind.Xor => [(gate.A, delay), (gate.B, delay)],
                GateKind.Choice => [(gate.A, delay), (gate.B, delay), (gate.Timed == 0 ? gate.C : gate.Timed, delay)],
                GateKind.Sum => [(gate.A, delay), (gate.B, delay), (gate.C, delay)],
                GateKind.Carry => [(gate.A, delay), (gate.B, delay), (gate.C, model.CarryDelay)],
            };
        }
    }

    /// <summary>What every place gives, for 64 sets of inputs at a time.</summary>
    public ulong[] Evaluate(IReadOnlyList<ulong> inputs)
    {
        var value = new ulong[gates.Count];
        for (var place = 0; place < value.Length; place++)
        {
            var (kind, a, b, c, _) = gates[place];
            value[place] = kind switch
            {
                GateKind.Constant => a == 0 ? 0 : ulong.MaxValue,
                GateKind.Input => inputs[a],
                GateKind.And => value[a] & value[b],
                GateKind.Or => value[a] | value[b],
                GateKind.Xor => value[a] ^ value[b],
                GateKind.Not => ~value[a],
                GateKind.Choice => (value[a] & value[b]) | (~value[a] & value[c]),
                GateKind.Sum => value[a] ^ value[b] ^ value[c],
                GateKind.Carry => (value[a] & value[b]) | (value[c] & (value[a] | value[b])),
            };
        }
        return value;
    }
}
