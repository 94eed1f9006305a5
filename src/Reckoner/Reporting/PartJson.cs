using System.Text.Json;
using Reckoner.Checking;
using Reckoner.Numbers;

namespace Reckoner.Reporting;

/// <summary>Sums of parts as JSON, laid out as the check that covers everything would lay them out.</summary>
internal static class PartJson
{
    /// <param name="sums">One for each width, all about the same description.</param>
    public static string Of(IReadOnlyList<PartResult> sums, bool isRange) =>
        Json.Document(json =>
        {
            var (machine, description, slip, only) = sums[0].About;
            json.Machine(machine, description, slip);
            if (only is not null)
            {
                json.WriteString("only", only);
            }
            if (isRange)
            {
                json.WriteBoolean("complete", true);
                json.Objects("checks", sums, sum => Write(json, sum));
            }
            else
            {
                Write(json, sums[0]);
            }
        });

    private static void Write(Utf8JsonWriter json, PartResult sum)
    {
        Write(json, "width", sum.Width);
        Write(json, sum.Sections[0]);
        json.WriteString("method", "added up");
        json.WriteBoolean("complete", true);
        json.WriteBoolean("exhaustive", true);
        json.Object(
            "steps",
            () =>
            {
                json.WriteString("from", Bits.Text(sum.From));
                json.WriteString("to", Bits.Text(sum.To));
                json.WriteString("of", Bits.Text(sum.Of));
            }
        );
        json.Objects(
            "sections",
            sum.Sections,
            section =>
            {
                json.WriteString("name", section.Section.Name());
                Write(json, section);
            }
        );
    }

    private static void Write(Utf8JsonWriter json, PartSection section)
    {
        json.WriteString("cases", Bits.Text(section.Cases));
        json.WriteString("failures", Bits.Text(section.Failures));
        Write(json, "smallest", section.Smallest ?? "null");
    }

    /// <summary>A value that was read, in the layout of where it now stands.</summary>
    private static void Write(Utf8JsonWriter json, string name, string value)
    {
        json.WritePropertyName(name);
        using var document = JsonDocument.Parse(value);
        document.RootElement.WriteTo(json);
    }
}
