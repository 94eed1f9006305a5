using System.Numerics;
using System.Text.Json;
using Reckoner.Notation;
using Reckoner.Refining;
using Reckoner.Words;

namespace Reckoner.Reporting;

/// <summary>How one machine becomes another as JSON.</summary>
internal static class LedJson
{
    public static string Of(Led led, Vocabulary words) =>
        Json.Document(json =>
        {
            json.Subject(led.From);
            json.Object("towards", () => json.Subject(led.To));
            json.WriteBoolean("complete", led.IsComplete);
            json.WriteBoolean("leads", led.IsFound);
            json.Object("parts", led.Parts, p => Write(json, p));
            json.Objects(
                "way",
                led.Steps,
                s =>
                {
                    json.WriteString("move", ReasonWords.Name(s.Moves[^1]));
                    json.Objects(
                        "reasons",
                        s.Steps[^1].Reasons,
                        r => RefineJson.Write(json, r, led.From.Machine.Description, words)
                    );
                    json.Objects("tried_at", s.Widths, w => json.Widths("width", w));
                    json.WriteString("text", Printer.Text(s.Datapath.Machine.Description));
                }
            );
            json.Objects(
                "registers",
                led.Registers,
                r =>
                {
                    json.WriteString("there", r.There);
                    json.WriteString("here", r.Here);
                }
            );
        });

    private static void Write(Utf8JsonWriter json, Parting parts)
    {
        json.Width(parts.From);
        json.Object(
            "operands",
            () =>
            {
                foreach (var operand in parts.From.Operands)
                {
                    json.WriteString(operand.Name, $"{operand.Number(parts.Operands[operand.Index])}");
                }
            }
        );
        json.Object("results", () => Results(json, parts.From.Results.Select(r => r.Name), parts.Given));
        json.Object("results_there", () => Results(json, parts.To.Results.Select(r => r.Name), parts.GivenThere));
    }

    private static void Results(Utf8JsonWriter json, IEnumerable<string> names, IEnumerable<BigInteger> numbers)
    {
        foreach (var (name, number) in names.Zip(numbers))
        {
            json.WriteString(name, $"{number}");
        }
    }
}
