using System.Numerics;
using Reckoner.Datapaths;

namespace Reckoner.Refining;

/// <summary>A step from one version to the next.</summary>
internal sealed record RefiningStep(MoveKind Move, IReadOnlyList<Reason> Reasons);

/// <summary>A version that was found, tried with all operands of its trial. The machine to be improved is the first.</summary>
/// <param name="Steps">The steps from the first version; none for that.</param>
/// <param name="Machine">Its text without a title and notes of its own.</param>
/// <param name="Mean">What stopping early saves; null where it does not stop early.</param>
internal sealed record Version(
    Version? Before,
    IReadOnlyList<RefiningStep> Steps,
    Draft Draft,
    IMachine Machine,
    Measure Measure,
    MeanCycles? Mean
)
{
    public int Depth => Steps.Count;
}

/// <summary>Cycles on average over all operands at one choice of widths.</summary>
/// <param name="Before">Those of the version before it.</param>
/// <param name="First">Those of the first version.</param>
/// <param name="Most">The most there can be there.</param>
internal readonly record struct MeanCycles(
    double Now,
    double Before,
    double First,
    int Most,
    IReadOnlyList<(string Name, BigInteger Value)> Widths
)
{
    /// <summary>A saving that is less than this part of the cycles is none worth a comparator.</summary>
    private const double Least = 0.1;

    public bool IsWorthwhile => Now <= Before * (1 - Least);

    public double Share => Now / Most;
}
