using Reckoner.Diagnostics;
using Reckoner.Proving;
using Reckoner.Running;

namespace Reckoner.Questions;

/// <summary>What is proved to hold in every round of a machine, with its numbers in one walk.</summary>
internal static class AskedHolding
{
    /// <summary>The walk with it; without it, which is remarked, where nothing is proved of such operands.</summary>
    public static Walk Beside(Walk walk, Means means, Findings found)
    {
        var machine = walk.Datapath.Machine;
        var begin = means.Clock();
        var report = ProofReport.Of(
            machine,
            walk.Datapath,
            () => means.Clock() - begin > ProveQuestion.Usual || means.Stop.IsCancellationRequested
        );
        if (WalkHolding.Of(walk, report) is { } holding)
        {
            return walk.With(holding);
        }
        found.Add(Id.InvariantUnknown, AskedPart.Invariant, 0, ("machine", machine.Name), ("prove", AskedWord.Prove));
        return walk;
    }
}
