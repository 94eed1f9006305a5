using System.Text.Json;
using Reckoner.Choosing;
using Reckoner.Numbers;

namespace Reckoner.Reporting;

internal static partial class OperandsJson
{
    /// <summary>Operands of equal difficulty, or what else there is where there are too few.</summary>
    /// <param name="draw">Null where there are no operands at all.</param>
    /// <param name="ways">Asked for where there are too few.</param>
    /// <param name="count">How many were asked for.</param>
    public static string Equal(OperandsSubject subject, EqualDraw? draw, Func<EqualWays> ways, int count) =>
        Json.Document(json =>
        {
            Subject(json, subject);
            json.WriteNumber("asked", count);
            json.WriteNumber("seed", subject.Seed);
            json.Objects("chosen", draw?.Drawn ?? [], c => Chosen(json, subject, c));
            if (draw is null)
            {
                json.WriteNull("class");
                return;
            }
            json.Object("class", () => Class(json, subject, draw.Class));
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
                        json.WriteString("size", Bits.Text(wider.Size));
                    }
                );
            }
            if (on.Neighbour is { } neighbour)
            {
                json.Object("neighbour", () => Class(json, subject, neighbour));
            }
        });

    private static void Class(Utf8JsonWriter json, OperandsSubject subject, EqualClass one)
    {
        json.WriteString("size", Bits.Text(one.Size));
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
        json.WriteString("condition", one.Condition(subject.Datapath.MayStopEarly));
    }
}
