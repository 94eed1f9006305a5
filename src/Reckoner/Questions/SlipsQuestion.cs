using Reckoner.Checking;
using Reckoner.Datapaths;
using Reckoner.Proving;
using Reckoner.Slips;

namespace Reckoner.Questions;

/// <summary>What would each single slip in a machine break, and which operands show it?</summary>
public sealed record SlipsQuestion(AskedMachine Machine)
{
    /// <summary>The sample where operands cannot be exhausted and none is asked for.</summary>
    private const int UsualSample = 20_000;
    private const int UsualSeed = 1;

    /// <summary>More are not drawn: what every slip gives for each of them is kept, to be compared.</summary>
    internal const int MostSampled = 1_000_000;

    /// <summary>Null to try all operands, or a sample of usual size where there are too many.</summary>
    public DrawnSample? Sample
    {
        get;
        init
        {
            ArgumentOutOfRangeException.ThrowIfLessThan(value?.Count ?? 1, 1, nameof(value));
            ArgumentOutOfRangeException.ThrowIfGreaterThan(value?.Count ?? 1, MostSampled, nameof(value));
            field = value;
        }
    }

    /// <summary>Whether it is asked too for which operands exactly a slip is exposed; only where all operands are tried.</summary>
    public bool AsksConditions { get; init; } = true;

    /// <summary>Whether of those that nothing exposes it is asked too whether the laws hold with them at every width.</summary>
    public bool Proves { get; init; }

    /// <summary>How long a proof about one slip may take.</summary>
    private static readonly TimeSpan MostEach = TimeSpan.FromSeconds(30);

    /// <exception cref="OperationCanceledException">It was stopped.</exception>
    public Answer<SlipStudy> Ask(Means means) =>
        Bounded.Ask(found =>
            Machine.Bound(0, found) is { } datapath
            && !GatesOfGiven.Lack(datapath, found)
            && !SlipsWork.IsTooMuch(datapath, means, found)
                ? Proved(Study(datapath, means), means)
                : null
        );

    private SlipStudy Proved(SlipStudy study, Means means) =>
        Proves
            ? study with
            {
                Slips =
                [
                    .. study.Slips.Select(s =>
                        s.Smallest is null ? s with { Everywhere = Everywhere(study.Datapath, s.Slip, means) } : s
                    ),
                ],
            }
            : study;

    private static SlipEverywhere Everywhere(Datapath right, Slip slip, Means means)
    {
        means.Stop.ThrowIfCancellationRequested();
        var begin = means.Clock();
        var report = ProofReport.Of(
            slip.Machine,
            SlipStudy.Built(right, slip)!,
            () => means.Clock() - begin > MostEach || means.Stop.IsCancellationRequested
        );
        var fails = report.Laws.Claims.Select(c => c.Fails).OfType<Failing>().MinBy(f => f.Width);
        return new SlipEverywhere(
            report.Laws.Claims.Count > 0 && report.Laws.Claims.All(c => c.IsProved),
            fails?.Datapath,
            fails?.Operands ?? [],
            fails?.Results ?? []
        );
    }

    private SlipStudy Study(Datapath datapath, Means means)
    {
        var isWide = datapath.Operands.Sum(o => o.Width) > SlipStudy.MostBits;
        var (seed, count) = Sample ?? new DrawnSample(UsualSeed, UsualSample);
        var sample = isWide || Sample is not null ? SlipSample.Of(datapath, count, seed) : null;
        return means.Watched(
            1,
            0,
            Slip.Most(datapath.Machine),
            tell =>
                SlipStudy.Of(
                    datapath,
                    means.Engine,
                    sample,
                    sample is null && AsksConditions,
                    new Pace(tell, means.Stop)
                )
        );
    }
}
