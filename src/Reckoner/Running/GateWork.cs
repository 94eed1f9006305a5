using System.Numerics;
using Reckoner.Datapaths;

namespace Reckoner.Running;

/// <summary>What gates did: an operation on bits with what it gave, over what it was given. What is no gate has no inputs.</summary>
public sealed record GateWork(Value Value, BigInteger Bits, IReadOnlyList<GateWork> Inputs)
{
    /// <summary>Whether it joins several bits, and does not only turn one over.</summary>
    private bool Joins => Inputs.Count > 1 || Inputs.Any(i => i.Joins);

    /// <summary>Whether a value is made by gates of its own.</summary>
    public static bool Makes(Value value) =>
        value.Operation is Operation.And or Operation.Or or Operation.Xor or Operation.Not;

    /// <summary>The gates behind a value, through names, down to what is no gate; null where no bits are joined by it.</summary>
    /// <param name="given">What values were given where they were computed, in order.</param>
    internal static GateWork? Of(
        Value value,
        BigInteger bits,
        IReadOnlyDictionary<Value, IReadOnlyList<BigInteger>> given
    )
    {
        while (value.Operation == Operation.Wire)
        {
            value = value.Wire!.Value;
        }
        var work = Inside(value, bits, given);
        return work.Joins ? work : null;
    }

    private static GateWork Inside(
        Value value,
        BigInteger bits,
        IReadOnlyDictionary<Value, IReadOnlyList<BigInteger>> given
    ) =>
        new(
            value,
            bits,
            Makes(value) && given.TryGetValue(value, out var words)
                ? [.. value.Inputs.Select((input, i) => Inside(input, words[i], given))]
                : []
        );
}
