using Reckoner.Diagnostics;
using Reckoner.Invariants;

namespace Reckoner.Questions;

/// <summary>Is this what holds in every round of a machine, and is it enough for its laws?</summary>
/// <param name="Invariant">As proofs print it: relations between registers, operands and powers of 2, joined by "and".</param>
internal sealed record GuessQuestion(AskedMachine Machine, string Invariant)
{
    /// <summary>How long a proof from it may take.</summary>
    public TimeSpan Most { get; init; } = ProveQuestion.Usual;

    public Answer<Guessed> Ask(Means means)
    {
        var found = new Findings();
        if (Machine.Bound(0, found) is not { } datapath)
        {
            return found.Refused<Guessed>();
        }
        var (begin, report) = (means.Clock(), new Report(null));
        var guessed = GuessJudge.Of(
            datapath.Machine,
            datapath,
            Invariant.ReplaceLineEndings(" "),
            report,
            () => means.Clock() - begin > Most || means.Stop.IsCancellationRequested
        );
        found.AddRange(report.InOrder().Select(d => new Finding(d, AskedPart.Invariant)));
        return guessed is null ? found.Refused<Guessed>() : found.Given(guessed with { Time = means.Clock() - begin });
    }
}
