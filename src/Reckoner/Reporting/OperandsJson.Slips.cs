using System.Text.Json;
using Reckoner.Choosing;
using Reckoner.Slips;
using Reckoner.Words;

namespace Reckoner.Reporting;

internal static partial class OperandsJson
{
    /// <summary>The fewest operands that expose every slip, or that tell the slips apart.</summary>
    public static string Fewest(OperandsSubject subject, SlipsShown shown, Vocabulary words) =>
        Json.Document(json =>
        {
            Subject(json, subject);
            json.WriteNumber("at_least", shown.AtLeast ?? 0);
            json.Objects("chosen", shown.Chosen, c => Chosen(json, subject, c));
            Slips(json, subject, shown, words);
            json.List("hidden", shown.Hidden, s => json.WriteStringValue(s.Name));
            json.List("alike", shown.Alike, group => Named(json, group));
        });

    private static void Slips(Utf8JsonWriter json, OperandsSubject subject, SlipsShown shown, Vocabulary words) =>
        json.Objects(
            "slips",
            shown.Slips,
            slip =>
            {
                json.WriteString("name", slip.Slip.Name);
                json.WriteString("text", SlipText.Sentence(slip.Slip, words));
                json.Objects(
                    "gives",
                    slip.Results.Zip(shown.Chosen),
                    pair =>
                    {
                        json.WriteBoolean("wrong", pair.First is not null);
                        json.Results("results", subject.Datapath, pair.First ?? pair.Second.Results);
                    }
                );
            }
        );

    private static void Named(Utf8JsonWriter json, IReadOnlyList<Slip> slips)
    {
        json.WriteStartArray();
        foreach (var slip in slips)
        {
            json.WriteStringValue(slip.Name);
        }
        json.WriteEndArray();
    }
}
