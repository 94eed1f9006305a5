using System.Text;
using System.Text.Json;
using Reckoner.Choosing;
using Reckoner.Diagnostics;
using Reckoner.Slips;
using Reckoner.Words;

namespace Reckoner.Reporting;

public sealed partial class OperandsReport
{
    /// <summary>The fewest operands that expose every slip, or that tell the slips apart.</summary>
    public string Fewest(SlipsShown shown, bool apart, Vocabulary words, int columns)
    {
        var text = new StringBuilder();
        Head(text, words, columns);
        var task = apart
            ? Scoped("operands.apart", "operands.apart-sampled")
            : Scoped("operands.exposing", "operands.exposing-sampled");
        Fact[] facts =
        [
            .. Facts(),
            ("chosen", shown.Chosen.Count),
            ("slips", shown.Slips.Count),
            ("least", shown.AtLeast ?? 0),
            ("hidden", shown.Hidden.Count),
        ];
        if (shown.Chosen.Count == 0)
        {
            Filled(
                text,
                words.Say(Scoped("operands.nothing-exposed", "operands.nothing-exposed-sampled"), facts),
                columns
            );
        }
        else
        {
            Filled(text, words.Say(task, facts), columns);
            Filled(text, words.Say(shown.IsFewest ? "operands.fewest" : "operands.fewest-open", facts), columns);
            text.Append('\n');
            OperandsTable.Write(text, datapath, shown.Chosen, words, columns, SlipTable.Marks(shown.Chosen.Count));
            SlipTable.Write(text, datapath, shown, words, columns);
        }
        Listed(text, Scoped("operands.alike", "operands.alike-sampled"), shown.Alike, words, columns);
        Listed(
            text,
            Scoped("operands.hidden", "operands.hidden-sampled"),
            shown.Hidden.Select(s => new[] { s }),
            words,
            columns
        );
        return text.ToString();
    }

    private static void Listed(
        StringBuilder text,
        string key,
        IEnumerable<IReadOnlyList<Slip>> groups,
        Vocabulary words,
        int columns
    )
    {
        const string Indent = "   ";
        var lines = groups.Select(g => string.Join(", ", g.Select(s => s.Name))).ToList();
        if (lines.Count == 0)
        {
            return;
        }
        text.Append('\n');
        Filled(text, words.Say(key), columns);
        text.Append('\n');
        foreach (var line in lines)
        {
            var lead = Indent;
            foreach (var part in Wrapping.Lines(line, columns - 2 * Indent.Length))
            {
                text.Append(lead).Append(part).Append('\n');
                lead = Indent + Indent;
            }
        }
    }

    public string FewestJson(SlipsShown shown, Vocabulary words) =>
        Json.Document(json =>
        {
            Subject(json);
            json.WriteNumber("at_least", shown.AtLeast ?? 0);
            json.Objects("chosen", shown.Chosen, c => Chosen(json, c));
            Slips(json, shown, words);
            json.List("hidden", shown.Hidden, s => json.WriteStringValue(s.Name));
            json.List("alike", shown.Alike, group => Names(json, group));
        });

    private void Slips(Utf8JsonWriter json, SlipsShown shown, Vocabulary words) =>
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
                        json.Results("results", datapath, pair.First ?? pair.Second.Results);
                    }
                );
            }
        );

    private static void Names(Utf8JsonWriter json, IReadOnlyList<Slip> slips)
    {
        json.WriteStartArray();
        foreach (var slip in slips)
        {
            json.WriteStringValue(slip.Name);
        }
        json.WriteEndArray();
    }
}
