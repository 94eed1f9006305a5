using System.Globalization;
using System.Numerics;
using Reckoner.Datapaths;
using Reckoner.Notation;
using Reckoner.Running;

namespace Reckoner.Classroom;

/// <summary>One way in which a decision may fall.</summary>
/// <param name="Phrase">What the description says of it; null where it says nothing.</param>
/// <param name="Label">The label of an arm or the number of a table, as written; null for the yes and no of a condition.</param>
/// <param name="Acts">What is done then, where statements say so.</param>
internal sealed record ForkWay(Phrase? Phrase, string? Label, IReadOnlyList<Act> Acts);

/// <summary>A decision that stands in a step.</summary>
/// <param name="IsInside">Whether it stands within another, so that not every cycle of the step comes by.</param>
internal sealed record StandingFork(Fork Fork, bool IsInside);

/// <summary>A decision of a cycle, as it is put to somebody who has to take it.</summary>
/// <param name="Line">Where it is asked, in <paramref name="Source"/>.</param>
/// <param name="Question">What is looked at.</param>
/// <param name="Ways">Of a condition yes, then no; of a choice its arms; of a table its numbers.</param>
/// <param name="Falls">The way that is right for the registers it was asked of, from 0; -1 where it was asked of none yet.</param>
internal sealed record Fork(Source Source, int Line, Value Question, IReadOnlyList<ForkWay> Ways, int Falls)
{
    /// <summary>Tables of more numbers are looked up, not decided.</summary>
    private const int MostNumbers = 9;

    /// <summary>Whether it is a condition, which is so or not.</summary>
    public bool IsCondition => Ways[0].Label is null;

    /// <summary>The decisions of a cycle in their order, each question once; whether it is the last round is no decision.</summary>
    internal static IReadOnlyList<Fork> Of(Row row)
    {
        var acts = row.Step!.Moments.SelectMany(m => m).SelectMany(a => a.All).ToList();
        return
        [
            .. row
                .Moments.SelectMany(m => m.Happenings)
                .Select(h => Of(h, acts))
                .OfType<Fork>()
                .DistinctBy(f => Asked(f.Question)),
        ];
    }

    /// <summary>
    /// The decisions that stand in a step, whichever of them a walk comes by, in the order of the text and each question once. None
    /// has fallen yet.
    /// </summary>
    internal static IReadOnlyList<StandingFork> Standing(Step step)
    {
        var acts = step.Moments.SelectMany(m => m).SelectMany(a => a.All).ToList();
        var outer = step.Moments.SelectMany(m => m).ToHashSet(ReferenceEqualityComparer.Instance);
        return
        [
            .. acts.SelectMany(a => In(a, acts).Select(f => new StandingFork(f, !outer.Contains(a))))
                .DistinctBy(f => Asked(f.Fork.Question)),
        ];
    }

    /// <summary>Whether both put the same question.</summary>
    internal bool IsSame(Fork other) => Asked(Question).Equals(Asked(other.Question));

    private const int NotYet = -1;

    private static IEnumerable<Fork> In(Act act, IReadOnlyList<Act> acts) =>
        act.Match(
            let: a => In(a, a.Wire.Value, a.Wire, acts),
            transfer: a => In(a, a.Value, null, acts),
            branch: a =>
                AsksForLast(a.Condition)
                    ? []
                    : [new Fork(a.Source, a.Line, a.Condition, YesOrNo(a.Condition, acts), NotYet)],
            arms: a =>
                Arms(a.Subject, acts) is { } arms ? [new Fork(a.Source, a.Line, a.Subject, arms, NotYet)] : (Fork[])[],
            hold: _ => [],
            remark: _ => []
        );

    /// <param name="name">The wire that the whole value is named by, which may say its number itself.</param>
    private static IEnumerable<Fork> In(Act act, Value value, Wire? name, IReadOnlyList<Act> acts)
    {
        var question = value.Operation is Operation.Choose or Operation.Select ? value.Inputs[0] : value;
        var own = value.Operation switch
        {
            Operation.Choose when !AsksForLast(question) => new Fork(
                act.Source,
                act.Line,
                question,
                YesOrNo(question, acts),
                NotYet
            ),
            Operation.Select when Arms(question, acts) is { } arms => new Fork(
                act.Source,
                act.Line,
                question,
                arms,
                NotYet
            ),
            Operation.Lookup when name?.Says is null => Number(act.Source, act.Line, value, null),
            _ => null,
        };
        return value.Inputs.SelectMany(i => In(act, i, null, acts)).Concat(own is null ? [] : [own]);
    }

    private static bool AsksForLast(Value question) => Inner(question).Operation == Operation.Last;

    private static Fork? Of(Happening happening, IReadOnlyList<Act> acts) =>
        happening switch
        {
            Tested { IsLast: null, IsCondition: true } t => new Fork(
                t.Source,
                t.Line,
                t.Value,
                YesOrNo(t.Value, acts),
                t.Way
            ),
            Tested { IsCondition: false } t when Arms(t.Value, acts) is { } arms => new Fork(
                t.Source,
                t.Line,
                t.Value,
                arms,
                t.Way
            ),
            LookedUp l => Number(l.Source, l.Line, l.Value, l.Bits),
            _ => null,
        };

    /// <param name="bits">What was found there; null where nothing was looked up yet.</param>
    private static Fork? Number(Source source, int line, Value value, BigInteger? bits)
    {
        var numbers = value.Table!.Cells.Select(value.Number).Distinct().Order().ToList();
        return numbers.Count is < 2 or > MostNumbers
            ? null
            : new Fork(
                source,
                line,
                value,
                [.. numbers.Select(n => new ForkWay(null, n.ToString(CultureInfo.InvariantCulture), []))],
                bits is { } found ? numbers.IndexOf(value.Number(found)) : NotYet
            );
    }

    private static Value Inner(Value question)
    {
        while (question.Operation == Operation.Not)
        {
            question = question.Inputs[0];
        }
        return question;
    }

    /// <summary>The question itself where it is turned over, and the wire where it has a name: asked twice, it is one.</summary>
    private static object Asked(Value question)
    {
        var inner = Inner(question);
        return inner.Operation == Operation.Wire ? inner.Wire! : inner;
    }

    private static List<ForkWay> YesOrNo(Value question, IReadOnlyList<Act> acts)
    {
        var (inner, isTurned) = (question, false);
        while (inner.Operation == Operation.Not)
        {
            (inner, isTurned) = (inner.Inputs[0], !isTurned);
        }
        var branch = acts.OfType<BranchAct>().FirstOrDefault(a => a.Condition == question);
        var own = branch?.Says ?? SaidOfChoice(question, acts);
        var named = inner is { Operation: Operation.Wire, Width: 1 } ? inner.Wire!.Says : null;
        return
        [
            .. Enumerable
                .Range(0, 2)
                .Select(w => w == 0)
                .Select(isSo => new ForkWay(
                    own?.When(isSo) ?? named?.When(isSo != isTurned),
                    null,
                    (isSo ? branch?.Then : branch?.Otherwise) ?? []
                )),
        ];
    }

    /// <summary>What a name says of how the choice falls that it stands for.</summary>
    private static Says? SaidOfChoice(Value question, IReadOnlyList<Act> acts) =>
        acts.OfType<LetAct>()
            .FirstOrDefault(a => a.Wire.SaysHowItFalls && a.Wire.Value.Inputs[0] == question)
            ?.Wire.Says;

    private static IReadOnlyList<ForkWay>? Arms(Value subject, IReadOnlyList<Act> acts)
    {
        if (acts.OfType<CaseAct>().FirstOrDefault(a => a.Subject == subject) is { } choice)
        {
            return [.. choice.Arms.Select(a => new ForkWay(a.Patterns.Says, a.Patterns.Written, a.Acts))];
        }
        var value = acts.SelectMany(Values).SelectMany(v => v.Choices).FirstOrDefault(v => v.Inputs[0] == subject);
        return value is null ? null : [.. value.Arms.Select(a => new ForkWay(a.Says, a.Written, []))];
    }

    private static IEnumerable<Value> Values(Act act) =>
        act.Match<IEnumerable<Value>>(
            let: a => [a.Wire.Value],
            transfer: a => [a.Value],
            branch: a => [a.Condition],
            arms: a => [a.Subject],
            hold: _ => [],
            remark: _ => []
        );
}
