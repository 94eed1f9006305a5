using System.Numerics;
using Reckoner.Claims;
using Reckoner.Conditions;
using Reckoner.Numbers;
using Reckoner.Timelines;

namespace Reckoner.Tests.Conditions;

/// <summary>
/// Whether operands show a condition, from the numbers of their own run: the slow, obvious twin of <see cref="ConditionGates"/>.
/// </summary>
/// <param name="isPossible">Whether any operands bring an outcome about; asked for "every outcome" alone.</param>
internal sealed class ConditionOnNumbers(
    DecidedMachine machine,
    IReadOnlyList<BigInteger> operands,
    Func<Occasion, bool> isPossible
) : IConditionVisitor<bool>
{
    private readonly TimelineRun run = new(machine.Timeline, operands);

    public bool Shows(Condition condition) => condition.Accept(this);

    private IReadOnlyList<Edge> Edges => machine.Timeline.Edges;

    /// <summary>The places of the clock edges that take place.</summary>
    private List<int> Taken => [.. Enumerable.Range(0, Edges.Count).Where(i => run[Edges[i].Active].IsOne)];

    /// <summary>The cycles in which it is decided, counted as the walk counts them, with what came of it.</summary>
    private List<(int Cycle, bool So)> Times(Occasion what)
    {
        var times = new List<(int, bool)>();
        var places = machine.Decisions.Find(what)?.Places ?? [];
        foreach (var (edge, before) in Taken.Select((edge, i) => (edge, i)))
        {
            var met = places.Where(p => p.Edge == edge && run[p.Path].IsOne).ToList();
            if (met.Count > 0)
            {
                times.Add((before + 1, met.Exists(IsSo) != what.IsTurned));
            }
        }
        return times;
    }

    private bool IsSo(DecisionPlace place)
    {
        var bits = run[place.Word];
        if (place.Compared is not var (relation, number))
        {
            return bits.IsOne != place.IsTurned;
        }
        var value = place.IsSigned ? Bits.AsSigned(bits, machine.Timeline.Graph.Width(place.Word)) : bits;
        return relation.Holds(value.CompareTo(number));
    }

    private bool Comes(Occasion what) => Times(what).Exists(t => t.So);

    private Rational? Value(Variable variable) =>
        variable.Number(
            variable.Kind switch
            {
                VariableKind.Operand => operands[variable.Index],
                VariableKind.Result => run[machine.Timeline.Results[variable.Index]],
                VariableKind.Index or VariableKind.Parameter => throw new InvalidOperationException(
                    "a condition is about no table"
                ),
            }
        );

    private Exact Exactly => new(Value);

    bool IConditionVisitor<bool>.Of(Always condition) => true;

    bool IConditionVisitor<bool>.Of(Combined condition) =>
        condition.Joint switch
        {
            Joint.And => condition.Parts.All(Shows),
            Joint.Or => condition.Parts.Any(Shows),
        };

    bool IConditionVisitor<bool>.Of(NotSo condition) => !Shows(condition.Inner);

    bool IConditionVisitor<bool>.Of(IsTrue condition) => Exactly.Truth(condition.Formula) == true;

    bool IConditionVisitor<bool>.Of(HasParity condition) =>
        Exactly.Number(condition.Number) is { IsWhole: true } number
        && number.Numerator.IsEven == (condition.Parity == Parity.Even);

    bool IConditionVisitor<bool>.Of(HasDigits condition) =>
        ConditionFormulas
            .Counted(machine.Datapath, condition)
            .All(number => condition.Digits.Holds(Digits(Value(number)!.Value)));

    private static int Digits(Rational number) => Bits.Text(BigInteger.Abs(number.Numerator)).Length;

    bool IConditionVisitor<bool>.Of(Happens condition) => Comes(condition.What);

    bool IConditionVisitor<bool>.Of(HappensTimes condition) =>
        condition.Times.Holds(Times(condition.What).Count(t => t.So));

    bool IConditionVisitor<bool>.Of(HappensAlways condition) =>
        Times(condition.What) is { Count: > 0 } times && times.TrueForAll(t => t.So);

    bool IConditionVisitor<bool>.Of(HappensAtEnd condition) =>
        Times(condition.What) is { Count: > 0 } times
        && condition.End switch
        {
            End.First => times[0].So,
            End.Last => times[^1].So,
        };

    bool IConditionVisitor<bool>.Of(HappensInCycle condition) =>
        Times(condition.What).Contains((condition.Cycle.Number, true));

    bool IConditionVisitor<bool>.Of(HappensInLastCycle condition) =>
        Times(condition.What).Contains((Taken.Count, true));

    bool IConditionVisitor<bool>.Of(HappensAfter condition)
    {
        var now = Times(condition.What);
        return Times(condition.Before)
            .Where(b => b.So)
            .Select(b => now.FirstOrDefault(n => n.Cycle > b.Cycle))
            .Any(next => next.So);
    }

    bool IConditionVisitor<bool>.Of(GoesBothWays condition) => Comes(condition.What) && Comes(condition.What.Opposite);

    bool IConditionVisitor<bool>.Of(EveryOutcome condition) => machine.Outcomes.Where(isPossible).All(Comes);

    bool IConditionVisitor<bool>.Of(TakesCycles condition) => condition.Cycles.Holds(Taken.Count);

    bool IConditionVisitor<bool>.Of(NoTwoAlike condition)
    {
        var rows = Taken.Select(i => Edges[i].Registers).Prepend(machine.Timeline.Load).ToList();
        return rows.Select(r => string.Join(' ', run.At(r))).Distinct().Count() == rows.Count;
    }

    bool IConditionVisitor<bool>.Of(SlipShows condition)
    {
        if (machine.Slips.Built(condition.Slip) is not { } slipped)
        {
            return false;
        }
        var timeline = Timeline.Of(slipped);
        return !new TimelineRun(timeline, operands)
            .At(timeline.Results)
            .SequenceEqual(run.At(machine.Timeline.Results));
    }
}
