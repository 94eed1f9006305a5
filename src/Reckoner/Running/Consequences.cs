using Reckoner.Datapaths;

namespace Reckoner.Running;

/// <summary>What follows from what was told in a cycle so far: whose value, through names, holds something that was looked at or worked out.</summary>
/// <param name="now">All that happened in the moment.</param>
/// <param name="earlier">In those of the cycle before it. Registers may have held something else then: what asked the same of them did not
/// ask the same.</param>
/// <param name="said">Names that said something about themselves.</param>
internal sealed class Consequences(
    IReadOnlyList<Happening> now,
    IReadOnlyList<Happening> earlier,
    IReadOnlySet<Wire> said
)
{
    private readonly HashSet<Value> worked = new(
        earlier.Concat(now).Select(Worked).OfType<Value>(),
        ReferenceEqualityComparer.Instance
    );

    private readonly List<Value> looked = [.. now.OfType<Tested>().Select(t => Asked(t.Value))];

    private readonly HashSet<Wire> named =
    [
        .. earlier.OfType<Tested>().Select(t => Turned(t.Value).Wire).OfType<Wire>(),
    ];

    /// <summary>A name may be mentioned often, and by names that are mentioned often.</summary>
    private readonly Dictionary<Value, bool> known = new(ReferenceEqualityComparer.Instance);

    private static Value? Worked(Happening happening) =>
        happening.Match(
            summed: h => h.Value,
            multiplied: h => h.Value,
            carrySaved: h => h.Value,
            lookedUp: h => h.Value,
            said: _ => null,
            tested: _ => null,
            shifted: _ => null,
            became: _ => null,
            stayed: _ => (Value?)null,
            remarked: _ => null
        );

    /// <summary>A sum that is stored as it is was not told before: it is told with what it changed.</summary>
    public bool Have(Value stored) => !worked.Contains(stored) ? Holds(stored) : stored.Inputs.Any(Holds);

    private bool Holds(Value value)
    {
        if (!known.TryGetValue(value, out var holds))
        {
            holds =
                worked.Contains(value)
                || looked.Exists(l => IsSame(l, Asked(value)))
                || (value.Wire is { } wire && (said.Contains(wire) || named.Contains(wire) || Holds(wire.Value)))
                || value.Inputs.Any(Holds);
            known.Add(value, holds);
        }
        return holds;
    }

    /// <summary>Whether it asks the same, wherever it is written.</summary>
    private static bool IsSame(Value a, Value b) =>
        a == b
        || (
            (a.Operation, a.Width, a.Low, a.Bits, a.Register, a.Operand, a.Wire, a.Table)
                == (b.Operation, b.Width, b.Low, b.Bits, b.Register, b.Operand, b.Wire, b.Table)
            && a.Inputs.Count == b.Inputs.Count
            && a.Inputs.Zip(b.Inputs).All(pair => IsSame(Unnamed(pair.First), Unnamed(pair.Second)))
        );

    private static Value Unnamed(Value value)
    {
        while (value.Wire is { } wire)
        {
            value = wire.Value;
        }
        return value;
    }

    /// <summary>What is asked, be it under a name or where its opposite is.</summary>
    private static Value Asked(Value value)
    {
        while (Unnamed(Turned(value)) is var inner && inner != value)
        {
            value = inner;
        }
        return value;
    }

    /// <summary>What is asked where its opposite is.</summary>
    public static Value Turned(Value value)
    {
        while (value.Operation == Operation.Not)
        {
            value = value.Inputs[0];
        }
        return value;
    }
}
