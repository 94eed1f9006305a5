namespace Reckoner.Checking;

/// <summary>
/// Makes gates carry more. Needs the gates of a graph and how often each is read; leaves a list of the same length and
/// numbering in which some gates are read by nothing any more. A gate that only one other reads is taken into it where their
/// inputs together are three at most, as in a chain of ORs. Where they share an input but have four, the inner gate gives up
/// the shared one if it can: "a or the difference a ^ p ^ q" is a ^ (s &amp; x) with x = p ^ q, which costs less with two-input
/// instructions and reads less memory without.
/// </summary>
internal sealed class GatePacking
{
    private static readonly byte[] Ones = [0xF0, 0xCC, 0xAA];

    private readonly int inputs;
    private readonly Gate[] gates;
    private readonly int[] uses;

    private GatePacking(GateGraph graph, IEnumerable<int> literals)
    {
        inputs = graph.Inputs;
        gates = [.. graph.Gates];
        uses = new int[1 + inputs + gates.Length];
        foreach (var literal in literals)
        {
            uses[literal >> 1]++;
        }
        for (var i = gates.Length - 1; i >= 0; i--)
        {
            if (uses[1 + inputs + i] > 0)
            {
                foreach (var input in Inputs(gates[i]))
                {
                    uses[input]++;
                }
            }
        }
    }

    /// <param name="literals">What must still be there; other gates may change their meaning.</param>
    public static IReadOnlyList<Gate> Packed(GateGraph graph, IEnumerable<int> literals)
    {
        var packing = new GatePacking(graph, literals);
        for (var i = 0; i < packing.gates.Length; i++)
        {
            if (packing.uses[1 + packing.inputs + i] > 0)
            {
                while (packing.Pack(i)) { }
            }
        }
        return packing.gates;
    }

    private static List<int> Inputs(Gate gate)
    {
        var inputs = new List<int>(3);
        foreach (var plane in (ReadOnlySpan<int>)[gate.A, gate.B, gate.C])
        {
            if (plane != 0 && !inputs.Contains(plane))
            {
                inputs.Add(plane);
            }
        }
        return inputs;
    }

    private bool Pack(int index)
    {
        var gate = gates[index];
        return TakesIn(index, gate.A) || TakesIn(index, gate.B) || TakesIn(index, gate.C);
    }

    /// <summary>Whether a gate took in one that it reads and is worth another look.</summary>
    private bool TakesIn(int index, int plane)
    {
        if (plane <= inputs || uses[plane] != 1)
        {
            return false;
        }
        var outer = Inputs(gates[index]);
        var inner = Inputs(gates[plane - 1 - inputs]);
        var together = outer.Where(p => p != plane).Union(inner).ToList();
        if (together.Count <= 3)
        {
            TakeIn(index, plane, together);
            return true;
        }
        if (inner.Count == 3 && inner.Intersect(outer).ToList() is [var shared])
        {
            GiveUp(index, plane, shared);
        }
        return false;
    }

    private void TakeIn(int index, int plane, List<int> together)
    {
        var (outer, inner) = (gates[index], gates[plane - 1 - inputs]);
        foreach (var input in Inputs(inner).Intersect(Inputs(outer)))
        {
            uses[input]--;
        }
        uses[plane] = 0;
        gates[index] = Over(together, value => Output(outer, p => p == plane ? Output(inner, value) : value(p)));
    }

    /// <summary>
    /// Splits the inner gate into k(shared, m(p, q)), leaves m in its place and puts k into the outer gate. That works when
    /// with the shared input fixed either way the inner gate is constant, m or m turned over.
    /// </summary>
    private void GiveUp(int index, int plane, int shared)
    {
        var (outer, inner) = (gates[index], gates[plane - 1 - inputs]);
        var others = Inputs(inner).Where(p => p != shared).ToList();
        Gate Half(bool one) => Over(others, value => Output(inner, p => p == shared ? one : value(p)));
        Gate[] fixedAt = [Half(one: false), Half(one: true)];
        if (Rest(fixedAt.Select(g => g.Function)) is not { } rest)
        {
            return;
        }
        var small = fixedAt[0] with { Function = rest };
        gates[plane - 1 - inputs] = small;
        uses[shared]--;
        gates[index] = Over(
            Inputs(outer),
            value =>
                Output(
                    outer,
                    p => p != plane ? value(p) : Applied(fixedAt[value(shared) ? 1 : 0].Function, rest, value(plane))
                )
        );
    }

    /// <summary>The function of two inputs, 0 for two zeros, that both halves come down to; null if there is none.</summary>
    private static byte? Rest(IEnumerable<byte> halves)
    {
        byte? rest = null;
        foreach (var half in halves)
        {
            var normal = (half & 1) != 0 ? (byte)~half : half;
            if (normal != 0 && rest is { } known && known != normal)
            {
                return null;
            }
            rest ??= normal != 0 ? normal : null;
        }
        return rest;
    }

    private static bool Applied(byte half, byte rest, bool value) =>
        half == 0 ? false
        : half == 0xFF ? true
        : half == rest ? value
        : !value;

    private static bool Output(Gate gate, Func<int, bool> value)
    {
        bool At(int plane) => plane != 0 && value(plane);
        var row = (At(gate.A) ? 4 : 0) + (At(gate.B) ? 2 : 0) + (At(gate.C) ? 1 : 0);
        return ((gate.Function >> row) & 1) != 0;
    }

    /// <summary>The gate over at most three planes that gives the output described.</summary>
    private static Gate Over(List<int> planes, Func<Func<int, bool>, bool> output)
    {
        var function = 0;
        for (var row = 0; row < 8; row++)
        {
            var at = row;
            if (output(plane => ((Ones[planes.IndexOf(plane)] >> at) & 1) != 0))
            {
                function |= 1 << row;
            }
        }
        int Plane(int i) => i < planes.Count ? planes[i] : 0;
        return new Gate((byte)function, Plane(0), Plane(1), Plane(2));
    }
}
