using System.Globalization;
using System.Text.Json;
using Reckoner.Choosing;
using Reckoner.Words;

namespace Reckoner.Reporting;

public sealed partial class OperandsReport
{
    public string BestJson(IReadOnlyList<ChosenOperands> best, SlipsShown? slips, Vocabulary words) =>
        Json.Document(json =>
        {
            Subject(json);
            json.Objects("chosen", best, b => Chosen(json, b));
            if (slips is not null)
            {
                Slips(json, slips, words);
            }
        });

    private void Subject(Utf8JsonWriter json)
    {
        json.Subject(datapath);
        json.WriteString("cases", candidates.Cases.ToString(CultureInfo.InvariantCulture));
        json.WriteBoolean("exhaustive", candidates.IsExhaustive);
        if (condition is not null)
        {
            json.WriteString("showing", condition);
            json.WriteString("satisfying", candidates.Count.ToString(CultureInfo.InvariantCulture));
        }
    }

    private void Chosen(Utf8JsonWriter json, ChosenOperands chosen)
    {
        json.Operands(datapath, chosen.Operands);
        json.Results("results", datapath, chosen.Results);
        json.WriteNumber("cycles", chosen.Cycles);
        json.Objects(
            "decisions",
            chosen.Decisions,
            decision =>
            {
                json.WriteString("text", decision.Text);
                json.List(
                    "outcomes",
                    decision.Outcomes,
                    outcome =>
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
                );
            }
        );
    }
}
