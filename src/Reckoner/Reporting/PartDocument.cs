using System.Text.Json;
using Reckoner.Checking;
using Reckoner.Tables;
using Reckoner.Words;

namespace Reckoner.Reporting;

/// <summary>What parts of a check found together.</summary>
internal static class PartDocument
{
    public static Document Of(PartResult sum, Vocabulary words)
    {
        using var width = JsonDocument.Parse(sum.Width);
        var widths = string.Join(", ", width.RootElement.EnumerateObject().Select(w => $"{w.Name} = {w.Value}"));
        return new Document(
            sum.About.Machine,
            words.Language,
            Names.Of(sum.About.Machine, widths, sum.About.Slip, words),
            Subtitle: null,
            [new Pairs([.. sum.Sections.Select(s => Said(s, words))])]
        )
        {
            Leads =
            [
                sum.About.Only is { } only
                    ? words.Spell("check.exhaustive-only", ("formula", only))
                    : words.Spell("check.exhaustive"),
            ],
        };
    }

    private static Pair Said(PartSection section, Vocabulary words) =>
        new(
            words.Spell($"check.section.{section.Section.Name()}"),
            [
                words.Spell(
                    $"check.{section.Section.Name()}{(section.Failures.IsZero ? "" : ".fail")}",
                    ("cases", section.Cases),
                    ("failures", section.Failures),
                    ("machine", words.Say("check.followed"))
                ),
                .. section.Smallest is { } smallest ? Smallest(smallest, words) : [],
            ]
        );

    private static IEnumerable<Content> Smallest(string smallest, Vocabulary words)
    {
        using var json = JsonDocument.Parse(smallest);
        yield return words.Spell(
            "check.smallest",
            ("operands", Fields(json, "operands") ?? "?"),
            ("results", Fields(json, "results") ?? "?")
        );
        if (Fields(json, "expected") is { } expected)
        {
            yield return words.Spell("check.expected", ("results", expected));
        }
    }

    private static string? Fields(JsonDocument json, string name) =>
        json.RootElement.TryGetProperty(name, out var fields) && fields.ValueKind == JsonValueKind.Object
            ? string.Join(", ", fields.EnumerateObject().Select(f => Wrapping.Equation(f.Name, f.Value)))
            : null;
}
