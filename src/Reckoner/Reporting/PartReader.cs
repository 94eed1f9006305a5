using System.Text;
using System.Text.Json;
using Reckoner.Checking;

namespace Reckoner.Reporting;

/// <summary>Reads results of checks back from the JSON that they were written as.</summary>
internal static class PartReader
{
    /// <summary>The format that is read.</summary>
    public const int Format = Json.Format;

    /// <summary>
    /// The results of a document, one at one width or several at a range of widths; null when it is no result of a check
    /// that covers a stretch of steps.
    /// </summary>
    public static IReadOnlyList<PartResult>? Read(JsonElement json)
    {
        if (
            JsonReading.Text(json, "machine") is not { } machine
            || JsonReading.Text(json, "description") is not { } description
        )
        {
            return null;
        }
        var about = new PartSubject(
            machine,
            description,
            JsonReading.Text(json, "slip"),
            JsonReading.Text(json, "only")
        );
        if (!json.TryGetProperty("checks", out var checks))
        {
            return Read(json, about) is { } one ? [one] : null;
        }
        if (checks.ValueKind != JsonValueKind.Array || checks.GetArrayLength() == 0)
        {
            return null;
        }
        var parts = checks.EnumerateArray().Select(c => Read(c, about)).ToList();
        return parts.Contains(null) ? null : [.. parts.Select(p => p!)];
    }

    private static PartResult? Read(JsonElement json, PartSubject about)
    {
        if (
            json.ValueKind != JsonValueKind.Object
            || !json.TryGetProperty("steps", out var steps)
            || !json.TryGetProperty("sections", out var sections)
            || !json.TryGetProperty("width", out var width)
            || JsonReading.Number(steps, "from") is not { } from
            || JsonReading.Number(steps, "to") is not { } to
            || JsonReading.Number(steps, "of") is not { } of
            || from.Sign < 0
            || from > to
            || to > of
            || width.ValueKind != JsonValueKind.Object
            || sections.ValueKind != JsonValueKind.Array
        )
        {
            return null;
        }
        var read = sections.EnumerateArray().Select(Section).ToList();
        return read.Count == 0 || read.Contains(null)
            ? null
            : new PartResult(about, Compact(width), [.. read.Select(s => s!)], from, to, of);
    }

    private static PartSection? Section(JsonElement json)
    {
        if (
            JsonReading.Text(json, "name") is not { } name
            || CheckSections.Named(name) is not { } section
            || JsonReading.Number(json, "cases") is not { } cases
            || JsonReading.Number(json, "failures") is not { } failures
            || failures.Sign < 0
            || failures > cases
        )
        {
            return null;
        }
        if (!json.TryGetProperty("smallest", out var smallest) || smallest.ValueKind != JsonValueKind.Object)
        {
            return new PartSection(section, cases, failures, null, default);
        }
        if (!smallest.TryGetProperty("operands", out var operands) || operands.ValueKind != JsonValueKind.Object)
        {
            return null;
        }
        var numbers = operands.EnumerateObject().Select(o => JsonReading.Number(o.Value)).ToList();
        return numbers.Contains(null)
            ? null
            : new PartSection(
                section,
                cases,
                failures,
                Compact(smallest),
                Rank.OfNumbers([.. numbers.Select(n => n!.Value)])
            );
    }

    /// <summary>Without the blanks of its layout, which depend on how deep it stood.</summary>
    private static string Compact(JsonElement json)
    {
        using var stream = new MemoryStream();
        using (var writer = new Utf8JsonWriter(stream))
        {
            json.WriteTo(writer);
        }
        return Encoding.UTF8.GetString(stream.ToArray());
    }
}
