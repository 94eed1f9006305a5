using Reckoner.Checking;
using Reckoner.Datapaths;
using Reckoner.Questions;
using Reckoner.Slips;

namespace Reckoner.Page.State;

/// <summary>The verdict over all operands: at larger and larger widths while one types, at the width on the screen when one asks.</summary>
public sealed class Judgement(ICheckRunner runner, Func<TimeSpan> clock) : IWatch
{
    /// <summary>More cases take minutes; word by word, more than these are no moment any more.</summary>
    public static readonly Budget Budget = new(CaseBits: 32, WordCaseBits: 8);

    internal Verdict? Verdict { get; private set; }

    /// <summary>What each width took since the text was last changed, gates and worker included; for whoever measures.</summary>
    public IReadOnlyDictionary<string, TimeSpan> Times => times;

    private readonly Dictionary<string, TimeSpan> times = [];
    private Action? changed;

    /// <summary>The share of a long run that is done; null where none is on.</summary>
    public double? Covered { get; private set; }

    /// <summary>Whether the verdict is that of the text as it stands.</summary>
    public bool IsOld { get; private set; }

    public void Age()
    {
        IsOld = Verdict is not null;
        times.Clear();
    }

    /// <param name="model">A machine that is thought to keep the laws of this one, to say in its words when they break.</param>
    /// <param name="changed">Is called after each width.</param>
    public async Task Run(Reading reading, IMachine? model, Action changed, CancellationToken stop)
    {
        var question = new GrowingCheckQuestion(reading.Machine, reading.ChosenWidths);
        await foreach (var report in question.Ask(new Means(runner, clock) { Stop = stop }))
        {
            if (!report.IsComplete || stop.IsCancellationRequested)
            {
                return;
            }
            Take(report, model);
            changed();
        }
    }

    /// <summary>Every operand at the widths of a datapath, however long it takes; what was found against it, if anything.</summary>
    public async Task<IEnumerable<Finding>> RunAll(
        Datapath datapath,
        IMachine? model,
        Action changed,
        CancellationToken stop
    )
    {
        Covered = 0;
        this.changed = changed;
        changed();
        try
        {
            var question = CheckQuestion.OfCounts(datapath) with { Budget = Budget };
            var answer = await question.Ask(new Means(runner, clock) { Watch = this, Stop = stop });
            if (answer.Data is { IsComplete: true } found && !stop.IsCancellationRequested)
            {
                Take(found.Checks[0], model);
            }
            return answer.Refusals;
        }
        finally
        {
            Covered = null;
            changed();
        }
    }

    Action<long> IWatch.Begin(long casesEach, long from, long to) =>
        done =>
        {
            Covered = (double)done / (to - from);
            changed?.Invoke();
        };

    void IWatch.End() { }

    private void Take(CheckReport report, IMachine? model)
    {
        var datapath = report.Result.Datapath;
        times[State.Verdict.Widths(datapath)] = TimeSpan.FromSeconds(report.Seconds);
        var sections = report.Result.Sections.Select(s => s.Count).ToList();
        var wrong = sections.Exists(s => s.Section == CheckSection.Laws && !s.Failures.IsZero);
        var known = IsOld ? null : Verdict?.Condition;
        Verdict = new Verdict(datapath, sections, !wrong ? null : known ?? Condition(datapath, model));
        IsOld = false;
    }

    private FailureCondition? Condition(Datapath wrong, IMachine? model) =>
        new FailureQuestion(wrong) { Model = model }
            .Ask(new Means(runner, clock))
            .Data?.Found;
}
