using System.Text.Json;
using Reckoner.Choosing;
using Reckoner.Numbers;

namespace Reckoner.Reporting;

internal static partial class OperandsJson
{
    /// <summary>Operands of equal difficulty, or what else there is where there are too few.</summary>
    /// <param name="draw">Null where there are no operands at all.</param>
    /// <param name="ways">Asked for where there are too few.</param>
    public static string Equal(OperandsSubject subject, EqualAsked asked, EqualDraw? draw, Func<EqualWays> ways) =>
        Json.Document(json =>
        {
            Subject(json, subject);
            json.WriteNumber("asked", asked.Count);
            json.WriteNumber("seed", subject.Seed);
            json.WriteBoolean("again", asked.Again);
            json.List("allowed", asked.Allowed.Shortcuts, s => json.WriteStringValue(Shortcuts.Name(s)));
            json.Objects("chosen", draw?.Drawn ?? [], c => Chosen(json, subject, c));
            if (draw?.Class is not { } one)
            {
                json.WriteNull("class");
            }
            else
            {
                json.Object("class", () => Class(json, subject, one));
                json.WriteString("left", Bits.Text(draw.Left));
            }
            if (draw is null)
            {
                return;
            }
            if (draw.Drawn.Count == 0)
            {
                Ways(json, subject, ways());
                return;
            }
            json.Objects(
                "neighbours",
                draw.Neighbours,
                n =>
                {
                    json.WriteNumber("taken", n.Taken);
                    Class(json, subject, n.Class);
                }
            );
            json.WriteBoolean("repeats", draw.Drawn.Count > draw.Left + draw.Neighbours.Sum(n => n.Taken));
            json.Object(
                "unused",
                () =>
                {
                    Between(json, "ones", draw.Unused!.Ones);
                    Between(json, "changes", draw.Unused.Changes);
                }
            );
        });

    private static void Ways(Utf8JsonWriter json, OperandsSubject subject, EqualWays on)
    {
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
        if (on.WithShortcuts is { } size)
        {
            json.WriteString("with_shortcuts", Bits.Text(size));
        }
    }

    private static void Between(Utf8JsonWriter json, string name, Extent extent) =>
        json.Object(
            name,
            () =>
            {
                json.WriteNumber("least", extent.Least);
                json.WriteNumber("most", extent.Most);
            }
        );

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
        if (one.Work.LongestCarry is { } longest)
        {
            Between(json, "longest_carry", longest);
            Between(json, "carries", one.Work.Carries);
        }
        Between(json, "digits", one.Work.Digits);
        if (one.Work.Exposed is { } exposed)
        {
            Between(json, "exposed", exposed);
        }
        json.WriteString("condition", one.Condition(subject.Datapath.MayStopEarly));
    }
}
