using Reckoner.Datapaths;

namespace Reckoner.Refining;

/// <summary>A step from one version to the next.</summary>
internal sealed record RefiningStep(MoveKind Move, IReadOnlyList<Reason> Reasons);

/// <summary>A version that was found, tried with all operands of its trial. The machine to be improved is the first.</summary>
/// <param name="Steps">The steps from the first version; none for that.</param>
/// <param name="Machine">Its text without a title and notes of its own.</param>
/// <param name="MeanCycles">The cycles on average where it may stop early, and those of the version before it; else null.</param>
internal sealed record Version(
    Version? Before,
    IReadOnlyList<RefiningStep> Steps,
    Draft Draft,
    IMachine Machine,
    Measure Measure,
    (double Now, double Before)? MeanCycles
)
{
    public int Depth => Steps.Count;
}
