using Reckoner.Datapaths;
using Reckoner.Diagnostics;
using Reckoner.Running;

namespace Reckoner.Questions;

/// <summary>What happens to one set of operands in a machine, cycle by cycle?</summary>
internal sealed record WalkQuestion(AskedMachine Machine)
{
    /// <summary>By name, or in the order of the text.</summary>
    public IReadOnlyList<AskedOperand> Operands { get; init; } = [];

    /// <summary>Whether operands are walked that the machine is not for; else they are refused.</summary>
    public bool Anyway { get; init; }

    /// <summary>
    /// Whether it is noted on the way where the bits come from, as figures show; of another walk that is found in a second run,
    /// when it is first asked for.
    /// </summary>
    public bool IsTraced { get; init; }

    /// <summary>What holds in every round stands beside the rows, with its numbers; where none is proved, that is remarked.</summary>
    public Answer<Walk> AskWithInvariant(Means means)
    {
        var found = new Findings();
        return Machine.Bound(0, found) is { } datapath && Walked(datapath, found) is { } walk
            ? found.Given(AskedHolding.Beside(walk, means, found))
            : found.Refused<Walk>();
    }

    public Answer<Walk> Ask()
    {
        var found = new Findings();
        return Machine.Bound(0, found) is { } datapath && Walked(datapath, found) is { } walk
            ? found.Given(walk)
            : found.Refused<Walk>();
    }

    /// <summary>Null with the reason in the findings.</summary>
    internal Walk? Walked(Datapath datapath, Findings found)
    {
        var operands = Anyway
            ? OperandBits.Of(datapath, Operands, found)
            : OperandBits.Given(datapath, Operands, found, AskedWord.Anyway);
        return operands is null ? null
            : IsTraced ? Walk.Traced(datapath, operands)
            : Walk.Of(datapath, operands);
    }
}
