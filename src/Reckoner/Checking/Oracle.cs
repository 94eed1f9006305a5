using Reckoner.Claims;
using Reckoner.Datapaths;

namespace Reckoner.Checking;

/// <summary>
/// The expected results of laws of a known shape, kept in planes and stepped along with the first operand: when it grows by one,
/// so does the remainder (or the quotient, when the remainder would reach the divisor), and a product grows by the other factor.
/// About 8 gates a bit and step instead of the 3n^2 of multiplying out.
/// </summary>
/// <param name="all">All that the laws assert.</param>
/// <param name="stepped">What of it this stands for.</param>
public abstract class Oracle(IReadOnlyList<Assertion> all, params IReadOnlyList<Assertion> stepped)
{
    /// <summary>Bits of state; their inputs follow those of the operands.</summary>
    public abstract int StateBits { get; }

    /// <summary>What of the laws it stands for; everything else is checked as it is written.</summary>
    public IReadOnlyList<Assertion> Stepped => stepped;

    /// <summary>What is left of a law, to be checked as it is written; null where that is all of it.</summary>
    public IReadOnlyList<Truth>? LeftOf(Claim law) =>
        stepped.Any(a => a.Law == law)
            ? [.. all.Where(a => a.Law == law && !stepped.Contains(a)).Select(a => a.Truth)]
            : null;

    /// <summary>The state, lowest bit first, that belongs to operands.</summary>
    internal abstract IReadOnlyList<int> Start(GateGraph graph, IReadOnlyList<int[]> operands);

    /// <summary>Whether the laws hold in the present state, and the state for a first operand larger by one.</summary>
    internal abstract (int Holds, IReadOnlyList<int> Next) Build(
        GateGraph graph,
        int[] state,
        IReadOnlyList<int[]> operands,
        Func<Result, int[]> result
    );

    /// <summary>An oracle for the laws of a machine, or null when they have none of the known shapes.</summary>
    public static Oracle? For(Datapath datapath)
    {
        var all = Assertion.Of(datapath.Laws);
        return ClaimShape
            .Of(all)
            .OrderBy(s => s.Kind)
            .Select(s => For(s, datapath, all))
            .FirstOrDefault(o => o is not null);
    }

    private static Oracle? For(ClaimShape shape, Datapath datapath, IReadOnlyList<Assertion> all) =>
        shape.Kind switch
        {
            ShapeKind.Division => QuotientOracle.Of(shape, datapath, all),
            ShapeKind.ScaledDivision => ScaledQuotientOracle.Of(shape, datapath, all),
            ShapeKind.Product => ProductOracle.Of(shape, datapath, all),
            ShapeKind.Root => null,
        };
}
