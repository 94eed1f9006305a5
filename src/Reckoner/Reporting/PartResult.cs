using System.Globalization;
using System.Numerics;
using System.Text;
using System.Text.Json;
using Reckoner.Checking;
using Reckoner.Words;

namespace Reckoner.Reporting;

/// <summary>A check's result at one width as read back from JSON: a stretch of all steps, and the counts of its sections.</summary>
public sealed class PartResult
{
    private PartResult(Subject about, string width, IReadOnlyList<Section> sections)
    {
        About = about;
        Width = width;
        Sections = sections;
    }

    /// <param name="Description">Its hash.</param>
    private sealed record Subject(string Machine, string Description, string? Slip);

    private sealed record Section(string Name, BigInteger Cases, BigInteger Failures, string? Smallest, Rank Rank);

    private static readonly string[] SectionNames = ["laws", "outside", "follows"];

    private Subject About { get; }
    private string Width { get; }
    private IReadOnlyList<Section> Sections { get; }

    public required BigInteger From { get; init; }
    public required BigInteger To { get; init; }
    public required BigInteger Of { get; init; }

    public bool Holds => Sections.All(s => s.Failures.IsZero);

    /// <summary>The format that is read.</summary>
    public const int Format = Reporting.Json.Format;

    /// <summary>The format of a document of ours when it is another than the one read here, as written; else null.</summary>
    public static string? OtherFormat(JsonElement json) =>
        json.ValueKind == JsonValueKind.Object
        && json.TryGetProperty("format", out var format)
        && format.ValueKind == JsonValueKind.Number
        && !(format.TryGetInt32(out var number) && number == Format)
            ? format.GetRawText()
            : null;

    /// <summary>
    /// The results of a document, one at one width or several at a range of widths; null when it is no result of a check
    /// that covers a stretch of steps.
    /// </summary>
    public static IReadOnlyList<PartResult>? Read(JsonElement json)
    {
        if (Text(json, "machine") is not { } machine || Text(json, "description") is not { } description)
        {
            return null;
        }
        var about = new Subject(machine, description, Text(json, "slip"));
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

    private static PartResult? Read(JsonElement json, Subject about)
    {
        if (
            json.ValueKind != JsonValueKind.Object
            || !json.TryGetProperty("steps", out var steps)
            || !json.TryGetProperty("sections", out var sections)
            || !json.TryGetProperty("width", out var width)
            || Number(steps, "from") is not { } from
            || Number(steps, "to") is not { } to
            || Number(steps, "of") is not { } of
            || from.Sign < 0
            || from > to
            || to > of
            || width.ValueKind != JsonValueKind.Object
            || sections.ValueKind != JsonValueKind.Array
        )
        {
            return null;
        }
        var read = sections.EnumerateArray().Select(ReadSection).ToList();
        return read.Count == 0 || read.Contains(null)
            ? null
            : new PartResult(about, Compact(width), [.. read.Select(s => s!)])
            {
                From = from,
                To = to,
                Of = of,
            };
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

    private static Section? ReadSection(JsonElement json)
    {
        if (
            Text(json, "name") is not { } name
            || !SectionNames.Contains(name)
            || Number(json, "cases") is not { } cases
            || Number(json, "failures") is not { } failures
            || failures.Sign < 0
            || failures > cases
        )
        {
            return null;
        }
        if (!json.TryGetProperty("smallest", out var smallest) || smallest.ValueKind != JsonValueKind.Object)
        {
            return new Section(name, cases, failures, null, default);
        }
        if (!smallest.TryGetProperty("operands", out var operands) || operands.ValueKind != JsonValueKind.Object)
        {
            return null;
        }
        var numbers = operands.EnumerateObject().Select(o => Parsed(o.Value)).ToList();
        return numbers.Contains(null)
            ? null
            : new Section(name, cases, failures, Compact(smallest), Rank.OfNumbers([.. numbers.Select(n => n!.Value)]));
    }

    private static string? Text(JsonElement json, string name) =>
        json.ValueKind == JsonValueKind.Object
        && json.TryGetProperty(name, out var value)
        && value.ValueKind == JsonValueKind.String
            ? value.GetString()
            : null;

    private static BigInteger? Number(JsonElement json, string name) =>
        json.ValueKind == JsonValueKind.Object && json.TryGetProperty(name, out var value) ? Parsed(value) : null;

    private static BigInteger? Parsed(JsonElement value) =>
        value.ValueKind == JsonValueKind.String
        && BigInteger.TryParse(
            value.GetString(),
            NumberStyles.AllowLeadingSign,
            CultureInfo.InvariantCulture,
            out var number
        )
            ? number
            : null;

    /// <summary>The field in which two results are not about the same check, or null.</summary>
    public string? Differs(PartResult other) =>
        About.Machine != other.About.Machine ? "machine"
        : About.Description != other.About.Description ? "description"
        : Width != other.Width ? "width"
        : Of != other.Of ? "steps"
        : !Sections.Select(s => s.Name).SequenceEqual(other.Sections.Select(s => s.Name)) ? "sections"
        : null;

    /// <summary>Parts that agree and cover everything, added.</summary>
    public static PartResult Sum(IReadOnlyList<PartResult> parts) =>
        new(
            parts[0].About,
            parts[0].Width,
            [
                .. Enumerable
                    .Range(0, parts[0].Sections.Count)
                    .Select(i => parts.Select(p => p.Sections[i]).Aggregate(Plus)),
            ]
        )
        {
            Of = parts[0].Of,
            From = 0,
            To = parts[0].Of,
        };

    private static Section Plus(Section a, Section b)
    {
        var smaller = a.Smallest is null || (b.Smallest is not null && b.Rank < a.Rank) ? b : a;
        return smaller with { Cases = a.Cases + b.Cases, Failures = a.Failures + b.Failures };
    }

    /// <summary>Sums as JSON, laid out as the check that covers everything would lay them out.</summary>
    public static string Json(IReadOnlyList<PartResult> sums, bool isRange) =>
        Reporting.Json.Document(json =>
        {
            var (machine, description, slip) = sums[0].About;
            json.Machine(machine, description, slip);
            if (isRange)
            {
                json.WriteBoolean("complete", true);
                json.Objects("checks", sums, sum => sum.Write(json));
            }
            else
            {
                sums[0].Write(json);
            }
        });

    private void Write(Utf8JsonWriter json)
    {
        Write(json, "width", Width);
        Write(json, Sections[0]);
        json.WriteString("method", "added up");
        json.WriteBoolean("complete", true);
        json.WriteBoolean("exhaustive", true);
        json.Object(
            "steps",
            () =>
            {
                json.WriteString("from", "0");
                json.WriteString("to", Of.ToString(CultureInfo.InvariantCulture));
                json.WriteString("of", Of.ToString(CultureInfo.InvariantCulture));
            }
        );
        json.Objects(
            "sections",
            Sections,
            section =>
            {
                json.WriteString("name", section.Name);
                Write(json, section);
            }
        );
    }

    /// <summary>A value that was read, in the layout of where it now stands.</summary>
    private static void Write(Utf8JsonWriter json, string name, string value)
    {
        json.WritePropertyName(name);
        using var document = JsonDocument.Parse(value);
        document.RootElement.WriteTo(json);
    }

    private static void Write(Utf8JsonWriter json, Section section)
    {
        json.WriteString("cases", section.Cases.ToString(CultureInfo.InvariantCulture));
        json.WriteString("failures", section.Failures.ToString(CultureInfo.InvariantCulture));
        Write(json, "smallest", section.Smallest ?? "null");
    }

    public string Text(Vocabulary words, int columns)
    {
        var text = new StringBuilder();
        using var width = JsonDocument.Parse(Width);
        var widths = string.Join(", ", width.RootElement.EnumerateObject().Select(w => $"{w.Name} = {w.Value}"));
        var name = Names.Of(About.Machine, widths, About.Slip, words);
        text.Append($"{name}\n{words.Say("check.exhaustive")}\n\n");
        var indent = Sections.Max(s => s.Name.Length) + 5;
        foreach (var section in Sections)
        {
            var key = $"check.{section.Name}{(section.Failures.IsZero ? "" : ".fail")}";
            var said = words.Say(
                key,
                ("cases", section.Cases),
                ("failures", section.Failures),
                ("machine", words.Say("check.followed"))
            );
            var lead = "   " + section.Name;
            foreach (
                var line in Smallest(section, words).Prepend(said).SelectMany(s => Wrapping.Lines(s, columns - indent))
            )
            {
                text.Append(Wrapping.Padded(lead, indent)).Append(line).Append('\n');
                lead = "";
            }
        }
        return text.ToString();
    }

    private static IEnumerable<string> Smallest(Section section, Vocabulary words)
    {
        if (section.Smallest is null)
        {
            yield break;
        }
        using var json = JsonDocument.Parse(section.Smallest);
        string? Fields(string name) =>
            json.RootElement.TryGetProperty(name, out var fields) && fields.ValueKind == JsonValueKind.Object
                ? string.Join(", ", fields.EnumerateObject().Select(f => Wrapping.Equation(f.Name, f.Value)))
                : null;
        yield return words.Say(
            "check.smallest",
            ("operands", Fields("operands") ?? "?"),
            ("results", Fields("results") ?? "?")
        );
        if (Fields("expected") is { } expected)
        {
            yield return words.Say("check.expected", ("results", expected));
        }
    }
}
