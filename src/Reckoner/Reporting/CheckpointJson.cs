using System.Globalization;
using System.Numerics;
using System.Security.Cryptography;
using System.Text;
using System.Text.Json;
using Reckoner.Checking;
using Reckoner.Numbers;

namespace Reckoner.Reporting;

/// <summary>
/// Checkpoints as JSON and back. The last field is a hash of all that stands before it, so that a file that was cut off or changed
/// is not gone on from.
/// </summary>
internal static class CheckpointJson
{
    private const string Seal = ",\n  \"sha256\": \"";
    private const string End = "\n}\n";

    public static string Of(Checkpoint checkpoint) =>
        Sealed(
            Json.Document(json =>
            {
                json.Machine(checkpoint.Machine, checkpoint.Description, checkpoint.Slip);
                if (checkpoint.Only is { } only)
                {
                    json.WriteString("only", only);
                }
                json.Object(
                    "part",
                    () =>
                    {
                        json.WriteNumber("number", checkpoint.Part.K);
                        json.WriteNumber("of", checkpoint.Part.Of);
                    }
                );
                json.Objects("covered", checkpoint.Covered, width => Write(json, width));
            })[..^End.Length]
        );

    /// <summary>The checkpoint that a text is, whole; else null, or the format where it is ours and of another one.</summary>
    public static (Checkpoint? Checkpoint, string? OtherFormat) Read(string text)
    {
        try
        {
            using var document = JsonDocument.Parse(text);
            if (JsonReading.OtherFormat(document.RootElement) is { } format)
            {
                return (null, format);
            }
            var body = text.LastIndexOf(Seal, StringComparison.Ordinal);
            return (body >= 0 && text == Sealed(text[..body]) ? Read(document.RootElement) : null, null);
        }
        catch (JsonException)
        {
            return (null, null);
        }
    }

    private static string Sealed(string body) =>
        $"{body}{Seal}{Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(body)))}\"{End}";

    private static void Write(Utf8JsonWriter json, CoveredWidth width)
    {
        json.Widths("width", width.Widths);
        json.WriteString("method", width.Method);
        json.WriteNumber("seconds", Math.Round(width.Seconds, 3));
        json.Object(
            "steps",
            () =>
            {
                json.WriteString("from", Bits.Text(width.From));
                json.WriteString("to", Bits.Text(width.To));
                json.WriteString("of", Bits.Text(width.Of));
            }
        );
        json.Objects("sections", width.Sections, section => Write(json, section));
    }

    private static void Write(Utf8JsonWriter json, CoveredSection section)
    {
        json.WriteString("name", section.Section.Name());
        json.WriteString("cases", Bits.Text(section.Cases));
        json.WriteString("failures", Bits.Text(section.Failures));
        json.Object(
            "smallest",
            section.Smallest,
            operands =>
            {
                foreach (var (name, number) in operands)
                {
                    json.WriteString(name, Bits.Text(number));
                }
            }
        );
    }

    private static Checkpoint? Read(JsonElement json) =>
        JsonReading.Text(json, "machine") is { } machine
        && JsonReading.Text(json, "description") is { } description
        && JsonReading.Object(json, "part") is { } part
        && Count(part, "number") is { } number
        && Count(part, "of") is { } of
        && JsonReading.List(json, "covered", Width) is { } covered
            ? new Checkpoint(
                machine,
                description,
                JsonReading.Text(json, "slip"),
                JsonReading.Text(json, "only"),
                (number, of),
                covered
            )
            : null;

    private static CoveredWidth? Width(JsonElement json) =>
        JsonReading.Object(json, "width") is { } widths
        && JsonReading.Text(json, "method") is { } method
        && JsonReading.Object(json, "steps") is { } steps
        && Step(steps, "from") is { } from
        && Step(steps, "to") is { } to
        && JsonReading.Number(steps, "of") is { } of
        && json.TryGetProperty("seconds", out var seconds)
        && seconds.ValueKind == JsonValueKind.Number
        && JsonReading.List(json, "sections", Section) is { } sections
            ? new CoveredWidth(
                [.. widths.EnumerateObject().Select(w => (w.Name, Whole(w.Value)))],
                from,
                to,
                of,
                method,
                seconds.GetDouble(),
                sections
            )
            : null;

    private static CoveredSection? Section(JsonElement json) =>
        JsonReading.Text(json, "name") is { } name
        && CheckSections.Named(name) is { } section
        && JsonReading.Number(json, "cases") is { } cases
        && JsonReading.Number(json, "failures") is { } failures
            ? new CoveredSection(section, cases, failures, JsonReading.Numbers(json, "smallest"))
            : null;

    private static long? Step(JsonElement steps, string name) =>
        JsonReading.Number(steps, name) is { } step && step.Sign >= 0 && step <= long.MaxValue ? (long)step : null;

    private static int? Count(JsonElement json, string name) =>
        json.TryGetProperty(name, out var count)
        && count.ValueKind == JsonValueKind.Number
        && count.TryGetInt32(out var number)
            ? number
            : null;

    /// <summary>What is no whole number is no width that anybody asked for.</summary>
    private static BigInteger Whole(JsonElement value) =>
        BigInteger.TryParse(value.GetRawText(), NumberStyles.None, CultureInfo.InvariantCulture, out var number)
            ? number
            : BigInteger.MinusOne;
}
