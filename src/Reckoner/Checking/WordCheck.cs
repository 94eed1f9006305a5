using System.Numerics;
using Reckoner.Claims;
using Reckoner.Datapaths;
using Reckoner.Timelines;

namespace Reckoner.Checking;

/// <summary>
/// The questions of <see cref="CheckProgram"/> answered case by case with whole numbers: the twin of the gates, for claims that
/// cannot become gates. Some thousands of times slower. Not to be shared between threads.
/// </summary>
internal sealed class WordCheck
{
    public const string Method = "word by word";

    private readonly Side own;
    private readonly Side? followed;
    private readonly Truth? only;

    /// <summary>For every result that both machines have, its index here and there.</summary>
    private readonly IReadOnlyList<(int Here, int There)> common = [];

    /// <summary>A machine with what runs it.</summary>
    private sealed record Side(Datapath Datapath, Timeline Timeline)
    {
        public static Side Of(Datapath datapath) => new(datapath, Timeline.Of(datapath));

        public BigInteger[] Results(BigInteger[] operands) => new TimelineRun(Timeline, operands).At(Timeline.Results);
    }

    /// <param name="cases">Those that are asked about; null for all.</param>
    public WordCheck(Datapath datapath, Datapath? followed, AskedCases? cases = null)
    {
        own = Side.Of(datapath);
        (Space, only) = cases ?? AskedCases.Of(datapath);
        Nothing = [new(CheckSection.Laws, 0, 0, null)];
        if (datapath.Outside.Count > 0)
        {
            Nothing = [.. Nothing, new(CheckSection.Outside, 0, 0, null)];
        }
        if (followed is not null)
        {
            Nothing = [.. Nothing, new(CheckSection.Follows, 0, 0, null)];
            this.followed = Side.Of(followed);
            var there = followed.Results.Select(r => r.Name).ToList();
            common = [.. datapath.Results.Select((r, i) => (i, there.IndexOf(r.Name))).Where(pair => pair.Item2 >= 0)];
        }
    }

    public Datapath Datapath => own.Datapath;

    public CaseSpace Space { get; }

    /// <summary>The sections before any case.</summary>
    public IReadOnlyList<SectionCount> Nothing { get; }

    /// <summary>Runs steps from..to (to not included); stops early when asked and tells how far it came.</summary>
    public (long To, IReadOnlyList<SectionCount> Counts) Run(
        long from,
        long to,
        Action<long>? covered = null,
        CancellationToken stop = default
    )
    {
        var counts = Nothing;
        for (var step = from; step < to; step++)
        {
            if (stop.IsCancellationRequested)
            {
                return (step, counts);
            }
            counts = Run(Enumerable.Range(0, Space.Lanes).Select(lane => Space.At(step, lane)), counts);
            covered?.Invoke(step + 1 - from);
        }
        return (to, counts);
    }

    /// <summary>Runs cases of one's own choice, on top of what was counted before.</summary>
    public IReadOnlyList<SectionCount> Run(IEnumerable<BigInteger[]> cases, IReadOnlyList<SectionCount> before)
    {
        var counts = before.ToArray();
        foreach (var operands in cases.Where(c => only is null || ClaimJudge.IsSo(only, c)))
        {
            var results = own.Results(operands);
            var isGiven = Datapath.IsGiven(operands);
            for (var s = 0; s < counts.Length; s++)
            {
                if (Holds(counts[s].Section, operands, results, isGiven) is { } holds)
                {
                    counts[s] += Case(counts[s].Section, operands, holds);
                }
            }
        }
        return counts;
    }

    /// <summary>Null where a section is not about a case.</summary>
    private bool? Holds(CheckSection section, BigInteger[] operands, BigInteger[] results, bool isGiven) =>
        section switch
        {
            CheckSection.Laws => isGiven ? Datapath.Laws.All(l => ClaimJudge.Holds(l, operands, results)) : null,
            CheckSection.Outside => isGiven ? null : Datapath.Outside.All(l => ClaimJudge.Holds(l, operands, results)),
            CheckSection.Follows => isGiven ? Follows(operands, results) : null,
        };

    private bool? Follows(BigInteger[] operands, BigInteger[] results)
    {
        BigInteger[] same =
        [
            .. followed!.Datapath.Operands.Select(o =>
                operands[Datapath.Operands.First(here => here.Name == o.Name).Index]
            ),
        ];
        if (!followed.Datapath.IsGiven(same))
        {
            return null;
        }
        var others = followed.Results(same);
        return common.All(pair => results[pair.Here] == others[pair.There]);
    }

    private SectionCount Case(CheckSection section, BigInteger[] operands, bool holds) =>
        holds
            ? new SectionCount(section, 1, 0, null)
            : new SectionCount(section, 1, 1, new FailingCase(operands, Rank.Of(Datapath.Operands, operands)));
}
