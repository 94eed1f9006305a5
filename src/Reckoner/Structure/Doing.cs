using Reckoner.Datapaths;

namespace Reckoner.Structure;

/// <summary>An act of a state, its moment from 1, and what must be so for it to be done; a branch comes before what stands in it.</summary>
public sealed record Doing(int Moment, IReadOnlyList<Guard> When, Act Act)
{
    /// <summary>The acts of a moment, those in branches too, in the order of the text.</summary>
    /// <param name="word">The wires that a value stands on.</param>
    internal static IEnumerable<Doing> Of(
        int moment,
        IEnumerable<Act> acts,
        IReadOnlyList<Guard> when,
        Func<Value, Bundle> word
    ) => acts.SelectMany(act => Inside(moment, act, when, word).Prepend(new Doing(moment, when, act)));

    private static IEnumerable<Doing> Inside(
        int moment,
        Act act,
        IReadOnlyList<Guard> when,
        Func<Value, Bundle> word
    ) =>
        act.Match(
            let: _ => [],
            transfer: _ => [],
            branch: a =>
                Of(moment, a.Then, [.. when, Guard.If(a.Condition, word)], word)
                    .Concat(Of(moment, a.Otherwise, [.. when, Guard.If(a.Condition, word, isTurned: true)], word)),
            arms: a => a.Arms.SelectMany((arm, i) => Of(moment, arm.Acts, [.. when, Arm(a, i, word)], word)),
            hold: _ => [],
            remark: _ => Enumerable.Empty<Doing>()
        );

    private static Guard Arm(CaseAct act, int arm, Func<Value, Bundle> word) =>
        new(act.Subject, word(act.Subject), IsTurned: false)
        {
            Arms = [.. act.Arms.Select(a => a.Patterns)],
            Arm = arm,
        };

    /// <summary>The values it computes: what it names or transfers, what it looks at.</summary>
    public IEnumerable<Value> Values =>
        Act.Match<IEnumerable<Value>>(
            let: a => a.Second is null ? [a.Wire.Value] : [a.Wire.Value, a.Second.Value],
            transfer: a => [a.Value],
            branch: a => [a.Condition],
            arms: a => [a.Subject],
            hold: _ => [],
            remark: _ => []
        );

    /// <summary>What it decides by: the condition of a branch, what a case looks at, what choices in its value look at.</summary>
    public IEnumerable<Value> Looks =>
        Act.Match(
            let: a => LooksOf(a.Wire.Value),
            transfer: a => LooksOf(a.Value),
            branch: a => [a.Condition],
            arms: a => [a.Subject],
            hold: _ => [],
            remark: _ => Enumerable.Empty<Value>()
        );

    private static IEnumerable<Value> LooksOf(Value value)
    {
        IEnumerable<Value> own = Operations.Row(value.Operation).Cost == Cost.Choice ? [value.Inputs[0]] : [];
        return own.Concat(value.Inputs.SelectMany(LooksOf));
    }
}
