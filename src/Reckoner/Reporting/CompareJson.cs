using System.Text.Json;
using Reckoner.Costing;
using Reckoner.Measuring;
using Reckoner.Numbers;
using Reckoner.Running;

namespace Reckoner.Reporting;

/// <summary>Machines side by side as JSON: each with its hardware and what it saved, then their registers round by round.</summary>
internal static class CompareJson
{
    /// <param name="walks">One for each machine, or none.</param>
    public static string Of(Comparison comparison, IReadOnlyList<Walk> walks) =>
        Json.Document(json =>
        {
            if (walks.Count > 0)
            {
                json.Operands(walks[0].Datapath, walks[0].Operands);
            }
            json.Objects(
                "machines",
                comparison.Versions.Select((v, i) => (Version: v, Walk: walks.Count > 0 ? walks[i] : null)),
                one =>
                {
                    json.Subject(one.Version.Datapath);
                    Built(json, one.Version);
                    Cost(json, comparison.CostOf(one.Version));
                    json.Object(
                        "saved",
                        comparison.Followed(one.Version),
                        b => Saved(json, comparison, one.Version, b)
                    );
                    if (one.Walk is { } walk)
                    {
                        json.Results("results", walk.Datapath, walk.Results);
                        json.WriteNumber("cycles", walk.Cycles);
                        json.WriteBoolean("holds", walk.Holds);
                    }
                }
            );
            if (walks.Count > 0)
            {
                json.Objects("rounds", AlignedWalks.Of(walks), round => Round(json, round));
            }
        });

    private static void Built(Utf8JsonWriter json, Hardware version)
    {
        json.WriteNumber("cycles_least", version.Cycles.Least);
        json.WriteNumber("cycles_most", version.Cycles.Most);
        json.List(
            "rounds_most",
            version.Datapath.Schedule.Where(s => s.IsLoop),
            loop => json.WriteNumberValue(loop.Count)
        );
        json.WriteNumber("register_bits", version.RegisterBits.Count);
        json.Objects(
            "registers",
            version.Datapath.Registers,
            register =>
            {
                json.WriteString("name", register.Name);
                json.WriteNumber("width", register.Width);
            }
        );
        json.Objects("units", version.Units, json.Unit);
    }

    /// <summary>Under the unit-gate model with ripple adders; null where that was not counted.</summary>
    private static void Cost(Utf8JsonWriter json, MachineCost? cost) =>
        json.Object(
            "cost",
            cost,
            c =>
            {
                json.WriteNumber("area", c.Area);
                json.WriteNumber("clock", c.Clock);
                json.WriteNumber("least_time", c.Time.Least);
                json.WriteNumber("most_time", c.Time.Most);
            }
        );

    /// <summary>What this version has less than the one before; negative where it has more.</summary>
    private static void Saved(Utf8JsonWriter json, Comparison comparison, Hardware version, Hardware before)
    {
        json.WriteString("over", before.Datapath.Machine.Name);
        json.WriteNumber("register_bits", before.RegisterBits.Count - version.RegisterBits.Count);
        json.Objects(
            "units",
            comparison.Kinds,
            kind =>
            {
                json.WriteString("kind", JsonSubject.Text(kind));
                json.WriteNumber(
                    "bits",
                    Comparison.BitsOf(before, kind).Count - Comparison.BitsOf(version, kind).Count
                );
            }
        );
        json.WriteNumber("cycles", before.Cycles.Most - version.Cycles.Most);
    }

    private static void Round(Utf8JsonWriter json, AlignedRound round)
    {
        json.WriteNumber("repeat", round.Loops);
        json.WriteNumber("round", round.Round);
        json.WriteNumber("after", round.After);
        json.List(
            "cycles",
            round.Rows,
            row =>
            {
                if (row is null)
                {
                    json.WriteNullValue();
                }
                else
                {
                    json.WriteNumberValue(row.Cycle);
                }
            }
        );
        json.Objects(
            "registers",
            round.Registers,
            register =>
            {
                json.WriteString("name", register.Name);
                json.List(
                    "bits",
                    register.Held,
                    held => json.WriteStringValue(held is null ? null : Bits.Text(held.Bits, held.Register.Width))
                );
                json.List("differs", register.Held, held => json.WriteBooleanValue(held is { Differs: true }));
            }
        );
    }
}
