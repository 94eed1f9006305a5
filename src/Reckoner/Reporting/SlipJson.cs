using System.Globalization;
using Reckoner.Slips;
using Reckoner.Words;

namespace Reckoner.Reporting;

/// <summary>The slips of a machine as a JSON document.</summary>
internal static class SlipJson
{
    public static string Of(SlipStudy study, Vocabulary words) =>
        Json.Document(json =>
        {
            var datapath = study.Datapath;
            json.Subject(datapath);
            json.WriteString("cases", study.Cases.ToString(CultureInfo.InvariantCulture));
            json.WriteBoolean("exhaustive", study.IsExhaustive);
            if (!study.IsExhaustive)
            {
                json.WriteBoolean("estimates", true);
                json.WriteString("sample", study.Drawn.ToString(CultureInfo.InvariantCulture));
            }
            if (study.Next is { } next)
            {
                json.Widths("next_width", next);
            }
            json.Objects(
                "slips",
                study.Slips,
                slip =>
                {
                    json.WriteString("name", slip.Slip.Name);
                    json.WriteString("kind", slip.Slip.Kind);
                    json.WriteNumber("line", slip.Slip.Line);
                    json.WriteString("text", SlipText.Sentence(slip.Slip, words));
                    json.WriteString("exposed", slip.Exposed.ToString(CultureInfo.InvariantCulture));
                    json.WriteBoolean("same_gates", slip.SameGates);
                    if (slip.When is { } when)
                    {
                        json.WriteString("exactly_when", SlipText.Said(when, words));
                        if (slip.HoldsNext is { } holds)
                        {
                            json.WriteBoolean("exactly_when_at_next_width", holds);
                        }
                    }
                    if (slip.Everywhere is { } everywhere)
                    {
                        json.WriteBoolean("proved", everywhere.IsProved);
                        json.Object(
                            "fails",
                            everywhere.WrongAt,
                            at =>
                            {
                                json.WriteNumber("width", (int)at.Widths[0].Value);
                                json.Operands(at, everywhere.WrongFor);
                                json.Results("results", at, everywhere.Results);
                            }
                        );
                    }
                    if (slip.Smallest is null)
                    {
                        json.WriteNull("smallest");
                        return;
                    }
                    json.Object(
                        "smallest",
                        () =>
                        {
                            json.Operands(datapath, slip.Smallest);
                            json.Results("results", datapath, slip.Results);
                            json.Results("right", datapath, slip.Right);
                            if (slip.PartsAt is { } cycle)
                            {
                                json.WriteNumber("parts_at", cycle);
                            }
                        }
                    );
                }
            );
        });
}
