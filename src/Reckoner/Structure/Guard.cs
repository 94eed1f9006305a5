using System.Numerics;
using Reckoner.Datapaths;

namespace Reckoner.Structure;

/// <summary>What must be so for something to be done or to follow: a bit that was looked at, or a word that chose an arm.</summary>
/// <param name="Value">What is looked at, as it was bound; "not x" is x turned.</param>
/// <param name="Word">The wires that it stands on.</param>
/// <param name="IsTurned">The bit must be 0.</param>
public sealed record Guard(Value Value, Bundle Word, bool IsTurned)
{
    /// <summary>All arms of the case; empty where one bit is looked at.</summary>
    public IReadOnlyList<ArmPatterns> Arms { get; init; } = [];

    /// <summary>Which of the arms must act, counted from 0.</summary>
    public int Arm { get; init; }

    /// <summary>Whether it is so when these bits stand on its wires.</summary>
    public bool IsSo(BigInteger bits) =>
        Arms.Count > 0 ? ArmPatterns.Acting(Arms, bits) == Arm : bits.IsOne != IsTurned;

    public static Guard If(Value value, Func<Value, Bundle> word, bool isTurned = false) =>
        value.Operation == Operation.Not
            ? If(value.Inputs[0], word, !isTurned)
            : new Guard(value, word(value), isTurned);
}
