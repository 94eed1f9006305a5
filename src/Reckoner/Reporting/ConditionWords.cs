using Reckoner.Claims;
using Reckoner.Conditions;
using Reckoner.Words;

namespace Reckoner.Reporting;

/// <summary>
/// A condition in words. What is found for slips has sentences of its own; any other is said as it is written.
/// </summary>
/// <param name="spoken">How names and small words of its formulas are shown.</param>
/// <param name="withValues">Whether a number that is written in widths has its value said behind it: 2^(2n-1) = 128.</param>
internal sealed class ConditionWords(Vocabulary words, FormulaWords spoken, bool withValues) : IConditionVisitor<string>
{
    public string Said(Condition condition) => condition.Accept(this);

    private string Text(string key, object text) => words.Say(key, ("text", $"{text}"));

    private string AsWritten(Condition condition) => Text("slips.formula", condition);

    string IConditionVisitor<string>.Of(Always condition) => words.Say("slips.always");

    string IConditionVisitor<string>.Of(Combined condition) =>
        condition
            .Parts.Select(Said)
            .Aggregate(
                (first, second) =>
                    words.Say(
                        condition.Joint switch
                        {
                            Joint.And => "slips.and",
                            Joint.Or => "slips.or",
                        },
                        ("first", first),
                        ("second", second)
                    )
            );

    string IConditionVisitor<string>.Of(NotSo condition) => AsWritten(condition);

    string IConditionVisitor<string>.Of(IsTrue condition) =>
        withValues
        && condition.Formula is { Kind: TruthKind.Comparison, Terms: [_, { Constant: { } value } compared] }
        && compared.Leaves.Any(l => l.Kind == TermKind.Named)
            ? Text("slips.formula", $"{FormulaText.Of(condition.Formula, spoken)} = {value}")
            : Text("slips.formula", FormulaText.Of(condition.Formula, spoken));

    string IConditionVisitor<string>.Of(HasParity condition) =>
        condition.Parity switch
        {
            Parity.Odd => Text("slips.odd", FormulaText.Of(condition.Number, spoken)),
            Parity.Even => Text("slips.even", FormulaText.Of(condition.Number, spoken)),
        };

    string IConditionVisitor<string>.Of(HasDigits condition) => AsWritten(condition);

    string IConditionVisitor<string>.Of(Happens condition) => Text("slips.once", condition.What);

    string IConditionVisitor<string>.Of(HappensTimes condition) =>
        condition.Times switch
        {
            { Bound: Bound.AtLeast, Count.Number: 1 } => Text("slips.some-time", condition.What),
            { Bound: Bound.AtMost, Count.Number: 0 } => Text("slips.never", condition.What),
            { Bound: Bound.Exactly, Count.Number: 1 } => Text("slips.exactly-once", condition.What),
            _ => AsWritten(condition),
        };

    string IConditionVisitor<string>.Of(HappensAlways condition) => Text("slips.every-time", condition.What);

    string IConditionVisitor<string>.Of(HappensAtEnd condition) =>
        condition.End switch
        {
            End.First => Text("slips.first-time", condition.What),
            End.Last => Text("slips.last-time", condition.What),
        };

    string IConditionVisitor<string>.Of(HappensInCycle condition) => AsWritten(condition);

    string IConditionVisitor<string>.Of(HappensInLastCycle condition) => AsWritten(condition);

    string IConditionVisitor<string>.Of(HappensAfter condition) =>
        condition.What == condition.Before ? Text("slips.in-a-row", condition.What) : AsWritten(condition);

    string IConditionVisitor<string>.Of(GoesBothWays condition) => AsWritten(condition);

    string IConditionVisitor<string>.Of(EveryOutcome condition) => AsWritten(condition);

    string IConditionVisitor<string>.Of(TakesCycles condition) => AsWritten(condition);

    string IConditionVisitor<string>.Of(NoTwoAlike condition) => AsWritten(condition);

    string IConditionVisitor<string>.Of(SlipShows condition) => AsWritten(condition);
}
