using System.Text.Json;
using Reckoner.Choosing;
using Reckoner.Numbers;
using Reckoner.Words;

namespace Reckoner.Reporting;

/// <summary>Chosen operands as JSON.</summary>
internal static partial class OperandsJson
{
    /// <param name="slips">What slips that were asked for give for them; null where none was.</param>
    public static string Best(
        OperandsSubject subject,
        IReadOnlyList<ChosenOperands> best,
        SlipsShown? slips,
        Vocabulary words
    ) =>
        Json.Document(json =>
        {
            Subject(json, subject);
            json.Objects("chosen", best, b => Chosen(json, subject, b));
            if (slips is not null)
            {
                Slips(json, subject, slips, words);
            }
        });

    private static void Subject(Utf8JsonWriter json, OperandsSubject subject)
    {
        json.Subject(subject.Datapath);
        json.WriteString("cases", Bits.Text(subject.Candidates.Cases));
        json.WriteBoolean("exhaustive", subject.Candidates.IsExhaustive);
        if (subject.Condition is { } condition)
        {
            json.WriteString("showing", condition);
            json.WriteString("satisfying", Bits.Text(subject.Candidates.Count));
        }
    }

    private static void Chosen(Utf8JsonWriter json, OperandsSubject subject, ChosenOperands chosen)
    {
        json.Operands(subject.Datapath, chosen.Operands);
        json.Results("results", subject.Datapath, chosen.Results);
        json.WriteNumber("cycles", chosen.Cycles);
        json.Objects(
            "decisions",
            chosen.Decisions,
            decision =>
            {
                json.WriteString("text", decision.Text);
                json.List("outcomes", decision.Outcomes, outcome => Outcome(json, decision, outcome));
            }
        );
    }

    private static void Outcome(Utf8JsonWriter json, MetDecision decision, string? outcome)
    {
        if (outcome is null)
        {
            json.WriteNullValue();
        }
        else if (decision.IsChoice)
        {
            json.WriteStringValue(outcome);
        }
        else
        {
            json.WriteBooleanValue(outcome == "1");
        }
    }
}
