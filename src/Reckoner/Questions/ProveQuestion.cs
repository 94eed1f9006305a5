using Reckoner.Checking;
using Reckoner.Claims;
using Reckoner.Datapaths;
using Reckoner.Proving;

namespace Reckoner.Questions;

/// <summary>
/// Is what a machine claims so for every operand at every width? Where a width is chosen: is it so there, proved for every width or
/// tried with every operand?
/// </summary>
internal sealed record ProveQuestion(AskedMachine Machine)
{
    internal static readonly TimeSpan Usual = TimeSpan.FromMinutes(2);

    /// <summary>How long it may take; what is not proved by then is not proved.</summary>
    public TimeSpan Most { get; init; } = Usual;

    /// <summary>Whether every operand is tried at the usual width where it is not proved for every width.</summary>
    public bool TriesUsual { get; init; }

    private bool IsAtWidth => Machine.Widths != AskedWidths.Usual;

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
        return found.Given(
            At(report, datapath, means) with
            {
                Cycles = CycleCount.Of(datapath.Machine, datapath),
                Time = means.Clock() - begin,
            }
        );
    }

    private ProofReport At(ProofReport report, Datapath datapath, Means means)
    {
        if (report.IsWhole)
        {
            return IsAtWidth ? report with { At = new(datapath, IsAsked: true, Tried: null, Holds: true) } : report;
        }
        if (!report.ClaimsAny || (!IsAtWidth && (!TriesUsual || report.IsWrong)))
        {
            return report;
        }
        var (cases, result) = TriedAll.Of(datapath, means);
        if (result is null && means.Stop.IsCancellationRequested)
        {
            return report with { IsStopped = true };
        }
        return report with
        {
            Laws = Failing(report.Laws, CheckSection.Laws),
            Outside = report.Outside is { } outside ? Failing(outside, CheckSection.Outside) : null,
            At = new(datapath, IsAtWidth, result is null ? null : cases, result?.NothingFailed) { Cases = cases },
        };

        // What the smallest operands that fail show to be wrong is wrong.
        ProofSection Failing(ProofSection claimed, CheckSection section)
        {
            var counted = result?.Sections.FirstOrDefault(s => s.Count.Section == section);
            if (counted?.Count.Smallest?.Operands is not { } operands)
            {
                return claimed;
            }
            var results = Trials.Results(datapath, operands);
            var fails = new Failing(datapath, (int)datapath.Widths[0].Value, operands, results);
            return claimed with
            {
                Claims =
                [
                    .. claimed.Claims.Select(c =>
                        c.IsProved ? c
                        : ClaimJudge.Holds(c.Claim, operands, results) ? c with { IsUnseen = c.Fails is null }
                        : c with { Fails = fails }
                    ),
                ],
            };
        }
    }
}
