using System.Globalization;
using System.Text;
using System.Text.Json;
using Reckoner.Choosing;
using Reckoner.Diagnostics;
using Reckoner.Words;

namespace Reckoner.Reporting;

public sealed partial class OperandsReport
{
    /// <summary>Operands of equal difficulty, or why there are too few and what can be done.</summary>
    /// <param name="draw">Null where there are no operands at all.</param>
    /// <param name="ways">Asked for where there are too few.</param>
    public string Equal(EqualDraw? draw, Func<EqualWays> ways, int count, Vocabulary words, int columns)
    {
        var text = new StringBuilder();
        Head(text, words, columns);
        if (draw is null)
        {
            Filled(text, words.Say(Scoped("operands.none", "operands.none-sampled"), Facts()), columns);
            return text.ToString();
        }
        Fact[] facts = [.. Facts(), ("asked", count), ("size", draw.Class.Size), ("class", Said(draw.Class, words))];
        if (draw.Drawn.Count == 0)
        {
            Filled(text, words.Say(Scoped("operands.too-few", "operands.too-few-sampled"), facts), columns);
            Ways(text, ways(), draw.Class, count, words, columns);
            return text.ToString();
        }
        Filled(text, words.Say(Scoped("operands.equal", "operands.equal-sampled"), facts), columns);
        if (draw.Class.Size < count)
        {
            Filled(text, words.Say("operands.equal-again", facts), columns);
        }
        else if (draw.NoneTrivial)
        {
            Filled(text, words.Say("operands.equal-telling"), columns);
        }
        text.Append('\n');
        OperandsTable.Write(text, datapath, draw.Drawn, words, columns);
        return text.ToString();
    }

    private void Ways(StringBuilder text, EqualWays ways, EqualClass largest, int count, Vocabulary words, int columns)
    {
        text.Append('\n');
        Filled(text, words.Say("operands.ways"), columns);
        text.Append('\n');
        if (ways.Wider is { } wider)
        {
            var widths = wider.Widths.Select(w => (w.Name, Value: $"{w.Value}")).ToList();
            Way(
                "operands.way-wider",
                ("widths", string.Join(", ", widths.Select(w => $"{w.Name} = {w.Value}"))),
                ("option", string.Join(",", widths.Select(w => $"{w.Name}={w.Value}"))),
                ("size", wider.Size)
            );
        }
        if (ways.Neighbour is { } neighbour)
        {
            var missing = Math.Min(count - largest.Size, neighbour.Size);
            var shown = neighbour.Condition(datapath.MayStopEarly);
            Way(
                "operands.way-neighbour",
                ("class", Said(neighbour, words)),
                ("size", neighbour.Size),
                ("count", missing),
                ("condition", condition is null ? shown : $"({condition}) and {shown}")
            );
        }
        Way("operands.way-repeats");

        void Way(string key, params Fact[] facts)
        {
            var lead = "   ";
            foreach (var line in Wrapping.Lines(words.Say(key, facts), columns - 2 * lead.Length))
            {
                text.Append(lead).Append(line).Append('\n');
                lead = "      ";
            }
        }
    }

    /// <summary>A class in words: its cycles, then how often each outcome comes about.</summary>
    private static string Said(EqualClass one, Vocabulary words) =>
        string.Join(
            ", ",
            one.Outcomes.Select(o =>
                    words.Say(
                        o.Times == 0 ? "operands.class-never" : "operands.class-outcome",
                        ("text", o.Text),
                        ("times", o.Times)
                    )
                )
                .Prepend(words.Say("operands.class-cycles", ("cycles", one.Cycles)))
        );

    public string EqualJson(EqualDraw? draw, Func<EqualWays> ways, int count) =>
        Json.Document(json =>
        {
            Subject(json);
            json.WriteNumber("asked", count);
            json.WriteNumber("seed", seed);
            json.Objects("chosen", draw?.Drawn ?? [], c => Chosen(json, c));
            if (draw is null)
            {
                json.WriteNull("class");
                return;
            }
            json.Object("class", () => Class(json, draw.Class));
            if (draw.Drawn.Count > 0)
            {
                json.WriteBoolean("trivial_left_out", draw.NoneTrivial);
                json.WriteBoolean("repeats", draw.Class.Size < count);
                return;
            }
            var on = ways();
            if (on.Wider is { } wider)
            {
                json.Object(
                    "wider",
                    () =>
                    {
                        json.Widths("width", wider.Widths);
                        json.WriteString("size", wider.Size.ToString(CultureInfo.InvariantCulture));
                    }
                );
            }
            if (on.Neighbour is { } neighbour)
            {
                json.Object("neighbour", () => Class(json, neighbour));
            }
        });

    private void Class(Utf8JsonWriter json, EqualClass one)
    {
        json.WriteString("size", one.Size.ToString(CultureInfo.InvariantCulture));
        json.WriteNumber("cycles", one.Cycles);
        json.Objects(
            "outcomes",
            one.Outcomes,
            o =>
            {
                json.WriteString("text", o.Text);
                json.WriteNumber("times", o.Times);
            }
        );
        json.WriteString("condition", one.Condition(datapath.MayStopEarly));
    }
}
