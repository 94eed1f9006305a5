using System.Text.Json;
using Reckoner.Datapaths;
using Reckoner.Numbers;
using Reckoner.Running;
using Reckoner.Styles;
using Reckoner.Words;

namespace Reckoner.Reporting;

/// <summary>A walk as JSON: a row per cycle, its moments with named values and events. The handbook lists the fields.</summary>
internal static class WalkJson
{
    public static string Of(Walk walk, Vocabulary words) => Json.Document(json => Write(json, walk, words));

    /// <summary>The same, row by row.</summary>
    public static void Write(Stream stream, Walk walk, Vocabulary words) =>
        Json.Document(stream, json => Write(json, walk, words));

    private static void Write(Utf8JsonWriter json, Walk walk, Vocabulary words)
    {
        var datapath = walk.Datapath;
        json.Subject(datapath);
        json.Operands(datapath, walk.Operands);
        json.WriteBoolean("given", walk.IsGiven);
        json.WriteNumber("cycles", walk.Cycles);
        json.Results("results", datapath, walk.Results);
        json.WriteBoolean("holds", walk.Holds);
        Claims(json, "laws", walk.IsGiven ? walk.Claims : [], datapath, words);
        Claims(json, "outside", walk.IsGiven ? [] : walk.Claims, datapath, words);
        if (walk.Holding is { } holding)
        {
            json.List("invariant", holding.Formulas, f => json.WriteStringValue(f));
            json.List("ends", holding.Ends, f => json.WriteStringValue(f));
        }
        var speech = Speech.Of(datapath, words, HouseStyle.None with { Reasons = ReasonForm.Full });
        json.Objects("rows", walk.Rows, row => Write(json, walk, row, speech));
    }

    private static void Claims(
        Utf8JsonWriter json,
        string name,
        IReadOnlyList<JudgedClaim> claims,
        Datapath datapath,
        Vocabulary words
    ) =>
        json.Objects(
            name,
            claims,
            claim =>
            {
                json.WriteString("text", claim.Claim.Text);
                json.WriteBoolean("holds", claim.Holds);
                json.WriteBoolean("applies", claim.Applies);
                if (claim.Undefined is { } undefined)
                {
                    json.WriteString("no_value", ClaimText.Of(undefined, datapath, words));
                }
            }
        );

    private static void Write(Utf8JsonWriter json, Walk walk, Row row, Speech speech)
    {
        var datapath = walk.Datapath;
        json.WriteNumber("cycle", row.Cycle);
        json.WriteString("kind", row.Cycle == 0 ? "load" : "cycle");
        json.WriteNumber("repeat", row.Repeat);
        json.WriteNumber("round", row.Round);
        json.WriteString("step", row.Step?.Name);
        if (row.Last is { } last)
        {
            json.WriteBoolean("last", last);
        }
        json.Registers(datapath, row.Registers, row.Step);
        if (walk.Holding?.Rows.GetValueOrDefault(row.Cycle) is { } held)
        {
            json.List("invariant", held, f => json.WriteStringValue(f));
        }
        json.Objects(
            "moments",
            row.Moments.Where(m => row.Cycle > 0 || m.Happenings.Count > 0),
            moment =>
            {
                json.WriteNumber("moment", moment.Moment);
                json.WriteBoolean("stored", moment.Stored);
                json.Registers(datapath, moment.Registers, row.Step);
                json.Object(
                    "values",
                    () =>
                    {
                        // Branches may use a name twice in one step; the later value is the one that stands.
                        foreach (var value in moment.Values.Reverse().DistinctBy(v => v.Wire.Name).Reverse())
                        {
                            json.Object(
                                value.Wire.Name,
                                () =>
                                {
                                    json.WriteString("bits", Bits.Text(value.Bits, value.Wire.Value.Width));
                                    json.WriteBoolean("signed", value.Wire.Value.Reading == Reading.Signed);
                                }
                            );
                        }
                    }
                );
                json.WriteString("text", $"{Sentences.Told(moment.Happenings, speech)}");
                json.Objects(
                    "events",
                    moment.Happenings.Where(h => h is not Tested { IsTold: true, Phrase: null }),
                    h => Write(json, h, speech)
                );
            }
        );
    }

    private static void Write(Utf8JsonWriter json, Happening happening, Speech speech)
    {
        json.WriteString("kind", Kind(happening));
        json.WriteNumber("line", happening.Line);
        json.Object("facts", () => Facts(json, happening));
        json.WriteString("text", $"{Sentences.Told(happening, speech)}");
    }

    private static string Kind(Happening happening) =>
        happening.Match(
            summed: h => h.Subtracts ? "subtract" : "add",
            multiplied: _ => "multiply",
            carrySaved: _ => "carry-save",
            lookedUp: _ => "lookup",
            said: _ => "said",
            tested: _ => "tested",
            shifted: _ => "shifted",
            became: _ => "became",
            stayed: _ => "unchanged",
            remarked: _ => "note"
        );

    private static void Facts(Utf8JsonWriter json, Happening happening) =>
        happening.Switch(
            summed: h =>
            {
                json.WriteString("unit", h.Value.Unit?.Name);
                json.WriteString("left", Bits.Text(h.Left, h.Width));
                json.WriteString("right", Bits.Text(h.Right, h.Width));
                json.WriteString("result", Bits.Text(h.Bits, h.Width));
                json.WriteBoolean("signed", h.Value.Reading == Reading.Signed);
                json.WriteString("number", Bits.Text(h.Exact));
                json.WriteBoolean(h.Subtracts ? "borrow" : "carry", h.GivesCarry);
                if (h.Subtracts)
                {
                    // The same subtraction as an addition: left + complement + 1; its carry is the borrow turned over.
                    json.WriteString("complement", Bits.Text(h.Complement, h.Width));
                    json.WriteBoolean("carry", !h.GivesCarry);
                }
            },
            multiplied: h =>
            {
                json.WriteString("unit", h.Value.Unit?.Name);
                json.WriteString("left", Bits.Text(h.Left, h.Value.Inputs[0].Width));
                json.WriteString("right", Bits.Text(h.Right, h.Value.Inputs[1].Width));
                json.WriteString("result", Bits.Text(h.Bits, h.Value.Width));
            },
            carrySaved: h =>
            {
                json.List("words", h.Words, word => json.WriteStringValue(Bits.Text(word, h.Value.Width)));
                json.WriteString("sum", Bits.Text(h.Sum, h.Value.Width));
                json.WriteString("carry", Bits.Text(h.Carry, h.Value.Width));
            },
            lookedUp: h =>
            {
                json.WriteString("table", h.Value.Table!.Name);
                json.List("indices", h.Indices, index => json.WriteStringValue(Bits.Text(index)));
                json.WriteString("result", Bits.Text(h.Bits, h.Value.Width));
            },
            said: h =>
            {
                json.WriteString("value", h.Wire.Name);
                json.WriteString("bits", Bits.Text(h.Bits, h.Wire.Value.Width));
            },
            tested: h =>
            {
                json.WriteString("value", Notation.Printer.Text(h.Value.Written!));
                json.WriteString("bits", Bits.Text(h.Bits, h.Value.Width));
            },
            shifted: h =>
            {
                Places(json, h.Places);
                json.WriteString("direction", h.Left ? "left" : "right");
                json.WriteString("entering", Bits.Text(h.Entering, h.EnteringWidth));
            },
            became: h =>
            {
                Places(json, h.Places);
                json.WriteString("bits", Bits.Text(h.Bits, h.Width));
            },
            stayed: h => Places(json, [h.Place]),
            remarked: _ => { }
        );

    private static void Places(Utf8JsonWriter json, IReadOnlyList<Place> places) =>
        json.Objects(
            "places",
            places,
            place =>
            {
                json.WriteString("register", place.Register.Name);
                json.WriteNumber("high", place.High);
                json.WriteNumber("low", place.Low);
            }
        );
}
