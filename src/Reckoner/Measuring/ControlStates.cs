using Reckoner.Datapaths;
using Reckoner.Notation;

namespace Reckoner.Measuring;

/// <summary>What must be so for something to be done: a value that was looked at, turned or not; or a case with its label.</summary>
/// <param name="Text">As the description writes it; of a case "SUBJECT = LABEL".</param>
public sealed record Condition(string Text, bool IsTurned);

/// <summary>Something that a state does: names a value or writes registers.</summary>
/// <param name="When">All of these must be so; none means always.</param>
public sealed record StateAction(Step Step, int Moment, IReadOnlyList<Condition> When, string Text);

/// <summary>Where the control unit goes next. Null stands for the load before and the end behind all steps.</summary>
/// <param name="Below">Where a loop may stop early: only while it has gone round less often than this.</param>
public sealed record Transition(Step? From, IReadOnlyList<Condition> When, int? Below, Step? To)
{
    /// <summary>Where a loop may stop early: also, whatever the first condition is, once it has gone round so often.</summary>
    public int? Reached { get; init; }
}

/// <summary>The control unit as a state machine: a state for each step, what it does, and which state follows when.</summary>
public sealed class ControlStates
{
    private readonly Datapath datapath;

    private ControlStates(Datapath datapath) => this.datapath = datapath;

    public static (IReadOnlyList<StateAction> Actions, IReadOnlyList<Transition> Transitions) Of(Datapath datapath)
    {
        var states = new ControlStates(datapath);
        return ([.. states.Actions()], [.. states.Transitions()]);
    }

    // ---- what each state does

    private IEnumerable<StateAction> Actions() =>
        from step in datapath.Steps
        from moment in step.Moments.Select((acts, i) => (Acts: acts, Number: i + 1))
        from act in moment.Acts
        from done in Done(act, [])
        select new StateAction(step, moment.Number, done.When, done.Text);

    private static IEnumerable<(IReadOnlyList<Condition> When, string Text)> Done(
        Act act,
        IReadOnlyList<Condition> when
    ) =>
        act.Match<IEnumerable<(IReadOnlyList<Condition> When, string Text)>>(
            let: a => [(when, $"{Names(a)} = {Printer.Text(a.Wire.Value.Written!)}")],
            transfer: a =>
                [
                    (
                        when,
                        $"{string.Join(":", a.Places.Select(p => Printer.Text(p.Written)))} <- {Printer.Text(a.Value.Written!)}"
                    ),
                ],
            branch: a =>
                a.Then.SelectMany(x => Done(x, [.. when, If(a.Condition, isTurned: false)]))
                    .Concat(a.Otherwise.SelectMany(x => Done(x, [.. when, If(a.Condition, isTurned: true)]))),
            arms: a => a.Arms.SelectMany(arm => arm.Acts.SelectMany(x => Done(x, [.. when, Case(a, arm)]))),
            hold: _ => [],
            remark: _ => []
        );

    private static string Names(LetAct act) =>
        act.Second is null ? act.Wire.Name : $"{act.Wire.Name}, {act.Second.Name}";

    /// <summary>"not x" is x turned over.</summary>
    private static Condition If(Value value, bool isTurned) =>
        value.Operation == Operation.Not
            ? If(value.Inputs[0], !isTurned)
            : new Condition(Printer.Text(value.Written!), isTurned);

    private static Condition Case(CaseAct act, ActArm arm) =>
        new($"{Printer.Text(act.Subject.Written!)} = {arm.Patterns.Written}", IsTurned: false);

    // ---- which state follows

    private IEnumerable<Transition> Transitions()
    {
        var segments = datapath.Schedule;
        foreach (var way in Enter(0))
        {
            yield return way;
        }
        for (var i = 0; i < segments.Count; i++)
        {
            var segment = segments[i];
            for (var s = 0; s < segment.Steps.Count - 1; s++)
            {
                yield return new Transition(segment.Steps[s], [], null, segment.Steps[s + 1]);
            }
            if (segment.Count > 0)
            {
                foreach (var way in Leave(i))
                {
                    yield return way with
                    {
                        From = segment.Steps[^1],
                    };
                }
            }
        }
    }

    /// <summary>What the last step of a round leads to.</summary>
    private IEnumerable<Transition> Leave(int index)
    {
        var segment = datapath.Schedule[index];
        if (segment.While is { } condition)
        {
            yield return new Transition(null, [If(condition, isTurned: false)], segment.Count, segment.Steps[0]);
            foreach (var way in Enter(index + 1))
            {
                yield return way with
                {
                    When = [If(condition, isTurned: true), .. way.When],
                    Reached = segment.Count,
                };
            }
            yield break;
        }
        var last = new Condition("last", IsTurned: false);
        if (segment.Count > 1)
        {
            yield return new Transition(null, [last with { IsTurned = true }], null, segment.Steps[0]);
        }
        foreach (var way in Enter(index + 1))
        {
            yield return segment.Count > 1 ? way with { When = [last, .. way.When] } : way;
        }
    }

    /// <summary>The ways into the schedule from one of its segments on.</summary>
    private IEnumerable<Transition> Enter(int index)
    {
        if (index == datapath.Schedule.Count)
        {
            yield return new Transition(null, [], null, null);
            yield break;
        }
        var segment = datapath.Schedule[index];
        if (segment.Count > 0)
        {
            yield return new Transition(
                null,
                segment.While is null ? [] : [If(segment.While, isTurned: false)],
                null,
                segment.Steps[0]
            );
        }
        if (segment.Count == 0 || segment.While is not null)
        {
            foreach (var way in Enter(index + 1))
            {
                yield return segment.Count == 0
                    ? way
                    : way with
                    {
                        When = [If(segment.While!, isTurned: true), .. way.When],
                    };
            }
        }
    }
}
