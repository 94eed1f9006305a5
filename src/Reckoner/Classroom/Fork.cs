using System.Globalization;
using Reckoner.Datapaths;
using Reckoner.Notation;
using Reckoner.Running;

namespace Reckoner.Classroom;

/// <summary>One way in which a decision may fall.</summary>
/// <param name="Phrase">What the description says of it; null where it says nothing.</param>
/// <param name="Label">The label of an arm or the number of a table, as written; null for the yes and no of a condition.</param>
/// <param name="Acts">What is done then, where statements say so.</param>
internal sealed record ForkWay(Phrase? Phrase, string? Label, IReadOnlyList<Act> Acts);

/// <summary>A decision of a cycle, as it is put to somebody who has to take it.</summary>
/// <param name="Line">Where it is asked, in <paramref name="Source"/>.</param>
/// <param name="Question">What is looked at.</param>
/// <param name="Ways">Of a condition yes, then no; of a choice its arms; of a table its numbers.</param>
/// <param name="Falls">The way that is right for the registers it was asked of, from 0.</param>
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

    private static Fork? Of(Happening happening, IReadOnlyList<Act> acts) =>
        happening switch
        {
            Tested { IsLast: null, IsCondition: true } t => new Fork(
                t.Source,
                t.Line,
                t.Value,
                YesOrNo(t, acts),
                t.Way
            ),
            Tested { IsCondition: false } t when Arms(t.Value, acts) is { } arms => new Fork(
                t.Source,
                t.Line,
                t.Value,
                arms,
                t.Way
            ),
            LookedUp l => Number(l),
            _ => null,
        };

    private static Fork? Number(LookedUp looked)
    {
        var numbers = looked.Value.Table!.Cells.Select(looked.Value.Number).Distinct().Order().ToList();
        return numbers.Count is < 2 or > MostNumbers
            ? null
            : new Fork(
                looked.Source,
                looked.Line,
                looked.Value,
                [.. numbers.Select(n => new ForkWay(null, n.ToString(CultureInfo.InvariantCulture), []))],
                numbers.IndexOf(looked.Value.Number(looked.Bits))
            );
    }

    /// <summary>The question itself where it is turned over, and the wire where it has a name: asked twice, it is one.</summary>
    private static object Asked(Value question)
    {
        while (question.Operation == Operation.Not)
        {
            question = question.Inputs[0];
        }
        return question.Operation == Operation.Wire ? question.Wire! : question;
    }

    private static List<ForkWay> YesOrNo(Tested tested, IReadOnlyList<Act> acts)
    {
        var (inner, isTurned) = (tested.Value, false);
        while (inner.Operation == Operation.Not)
        {
            (inner, isTurned) = (inner.Inputs[0], !isTurned);
        }
        var branch = acts.OfType<BranchAct>().FirstOrDefault(a => a.Condition == tested.Value);
        var own = branch?.Says ?? SaidOfChoice(tested.Value, acts);
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
