using Reckoner.Proving;

namespace Reckoner.Questions;

/// <summary>Is what a machine claims so for every operand at every width?</summary>
internal sealed record ProveQuestion(AskedMachine Machine)
{
    internal static readonly TimeSpan Usual = TimeSpan.FromMinutes(2);

    /// <summary>How long it may take; what is not proved by then is not proved.</summary>
    public TimeSpan Most { get; init; } = Usual;

    public Answer<ProofReport> Ask(Means means)
    {
        var found = new Findings();
        if (Machine.Bound(0, found) is not { } datapath)
        {
            return found.Refused<ProofReport>();
        }
        var begin = means.Clock();
        var report = ProofReport.Of(
            datapath.Machine,
            datapath,
            () => means.Clock() - begin > Most || means.Stop.IsCancellationRequested
        );
        return found.Given(report with { Time = means.Clock() - begin });
    }
}
