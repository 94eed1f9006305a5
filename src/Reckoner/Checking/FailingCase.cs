using System.Numerics;

namespace Reckoner.Checking;

/// <summary>A case that fails, by the bits of its operands, with its rank.</summary>
public sealed record FailingCase(IReadOnlyList<BigInteger> Operands, Rank Rank)
{
    internal static FailingCase Of(CaseSpace space, IReadOnlyList<BigInteger> operands) =>
        new(operands, Rank.Of(space.Operands, operands));

    /// <summary>Which of two is shown: the smaller, wherever each was found.</summary>
    public static FailingCase? Smaller(FailingCase? a, FailingCase? b) =>
        a is null ? b
        : b is null ? a
        : a.Rank <= b.Rank ? a
        : b;
}
