namespace Reckoner.Conditions;

/// <summary>
/// The canonical text of a condition: read by <see cref="ConditionParser"/> at the machine whose names it uses, it gives the same
/// condition again.
/// </summary>
internal sealed class ConditionText : IConditionVisitor<string>
{
    private static readonly ConditionText Instance = new();

    public static string Of(Condition condition) => condition.Accept(Instance);

    string IConditionVisitor<string>.Of(Always condition) => "always";

    string IConditionVisitor<string>.Of(Combined condition) =>
        string.Join(
            condition.Joint switch
            {
                Joint.And => " and ",
                Joint.Or => " or ",
            },
            condition.Parts.Select(part => part is Combined ? $"({Of(part)})" : Of(part))
        );

    string IConditionVisitor<string>.Of(NotSo condition) =>
        condition.Inner is SlipShows slip ? $"slip {slip.Slip} stays hidden" : $"not ({Of(condition.Inner)})";

    string IConditionVisitor<string>.Of(IsTrue condition) => $"{condition.Formula}";

    string IConditionVisitor<string>.Of(HasParity condition) =>
        condition.Parity switch
        {
            Parity.Even => $"{condition.Number} is even",
            Parity.Odd => $"{condition.Number} is odd",
        };

    string IConditionVisitor<string>.Of(HasDigits condition) =>
        condition.Whose switch
        {
            Whose.Named => $"{condition.Name} has",
            Whose.Operands => "operands have",
            Whose.Results => "results have",
        } + $" {Bounded(condition.Digits)} {(condition.Digits.Count == 1 ? "digit" : "digits")}";

    string IConditionVisitor<string>.Of(Happens condition) => $"{Named(condition.What)} happens";

    string IConditionVisitor<string>.Of(HappensTimes condition) =>
        condition.Times == new Amount(Bound.AtMost, 0)
            ? $"{Named(condition.What)} never happens"
            : $"{Named(condition.What)} happens {Times(condition.Times)}";

    string IConditionVisitor<string>.Of(HappensAlways condition) => $"{Named(condition.What)} always happens";

    string IConditionVisitor<string>.Of(HappensAtEnd condition) =>
        condition.End switch
        {
            End.First => $"{Named(condition.What)} happens the first time",
            End.Last => $"{Named(condition.What)} happens the last time",
        };

    string IConditionVisitor<string>.Of(HappensInCycle condition) =>
        $"{Named(condition.What)} happens in cycle {condition.Cycle}";

    string IConditionVisitor<string>.Of(HappensInLastCycle condition) =>
        $"{Named(condition.What)} happens in the last cycle";

    string IConditionVisitor<string>.Of(HappensAfter condition) =>
        $"{Named(condition.What)} happens right after {Named(condition.Before)}";

    string IConditionVisitor<string>.Of(GoesBothWays condition) => $"{Named(condition.What)} goes both ways";

    string IConditionVisitor<string>.Of(EveryOutcome condition) => "every outcome happens";

    string IConditionVisitor<string>.Of(TakesCycles condition) =>
        $"{Bounded(condition.Cycles)} {(condition.Cycles.Count == 1 ? "cycle" : "cycles")}";

    string IConditionVisitor<string>.Of(NoTwoAlike condition) => "no two cycles alike";

    string IConditionVisitor<string>.Of(SlipShows condition) => $"slip {condition.Slip} is exposed";

    /// <summary>A decision of several words stands in brackets.</summary>
    private static string Named(Occasion what)
    {
        var text = what.ToString();
        return text.Contains(' ', StringComparison.Ordinal) && !text.StartsWith("not (", StringComparison.Ordinal)
            ? $"({text})"
            : text;
    }

    private static string Times(Amount times)
    {
        var count = times.Count == 1 ? "once" : $"{times.Count} times";
        return times.Bound == Bound.Exactly ? count : $"{Word(times.Bound)} {count}";
    }

    private static string Bounded(Amount amount) => $"{Word(amount.Bound)} {amount.Count}";

    private static string Word(Bound bound) =>
        bound switch
        {
            Bound.Exactly => "exactly",
            Bound.AtLeast => "at least",
            Bound.AtMost => "at most",
        };
}
