namespace Reckoner.Checking;

/// <summary>
/// A gate of a machine that gives another function: what engines and expectations are tried on. It is put in before the
/// expectation joins the machine; equal gates stand once, and a fault in a gate that both use would spoil the expectation too.
/// </summary>
/// <param name="Gate">Its number among the machine's own gates.</param>
internal sealed record GateFault(int Gate, byte Function)
{
    /// <summary>What words of a machine become. The graph holds nothing but the machine yet.</summary>
    public IReadOnlyList<int[]> In(GateGraph graph, IEnumerable<int[]> words)
    {
        var literals = new Dictionary<int, int>();
        var gates = graph.Gates.ToList();
        for (var i = Gate; i < gates.Count; i++)
        {
            var gate = i == Gate ? gates[i] with { Function = Function } : gates[i];
            literals[graph.PlaneOf(i)] = graph.Make(
                gate.Function,
                Now(2 * gate.A, literals),
                Now(2 * gate.B, literals),
                Now(2 * gate.C, literals)
            );
        }
        return [.. words.Select(word => word.Select(bit => Now(bit, literals)).ToArray())];
    }

    private static int Now(int literal, Dictionary<int, int> literals) =>
        literals.TryGetValue(literal >> 1, out var now) ? now ^ (literal & 1) : literal;
}
