using System.Text.Json;
using Reckoner.Costing;
using Reckoner.Measuring;
using Reckoner.Notation;
using Reckoner.Refining;
using Reckoner.Words;

namespace Reckoner.Reporting;

/// <summary>What could be saved in a machine as JSON, the best version first, each with its description.</summary>
internal static class RefineJson
{
    public static string Of(Refined refined, Vocabulary words) =>
        Json.Document(json =>
        {
            json.Subject(refined.Datapath);
            json.WriteBoolean("complete", refined.IsComplete);
            json.WriteNumber("made", refined.Made);
            json.WriteNumber("tried", refined.Tried);
            Costs(json, refined.Hardware, refined.Cost);
            json.Objects("proposals", refined.Proposals, p => Write(json, p, refined, words));
        });

    private static void Costs(Utf8JsonWriter json, Hardware hardware, MachineCost cost)
    {
        json.WriteNumber("register_bits", hardware.RegisterBits.Count);
        json.WriteNumber("adder_bits", hardware.AdderBits);
        json.WriteNumber("choice_bits", hardware.ChoiceBits);
        json.WriteNumber("least_cycles", cost.Cycles.Least);
        json.WriteNumber("most_cycles", cost.Cycles.Most);
        json.WriteNumber("area", cost.Area);
        json.WriteNumber("clock", cost.Clock);
        json.WriteNumber("least_time", cost.Time.Least);
        json.WriteNumber("most_time", cost.Time.Most);
    }

    private static void Write(Utf8JsonWriter json, Proposal proposal, Refined refined, Vocabulary words)
    {
        json.WriteNumber("number", proposal.Number);
        json.Machine(proposal.Datapath.Machine);
        Costs(json, proposal.Hardware, proposal.Cost);
        if (proposal.IsProved is { } isProved)
        {
            json.WriteBoolean("proved", isProved);
        }
        if (proposal.Mean is var (now, before))
        {
            json.WriteNumber("mean_cycles", Math.Round(now, 4));
            json.WriteNumber("mean_cycles_before", Math.Round(before, 4));
        }
        json.Objects(
            "steps",
            proposal.Steps,
            step =>
            {
                json.WriteString("move", ReasonWords.Name(step.Move));
                json.Objects("reasons", step.Reasons, r => Write(json, r, refined.Datapath.Machine.Description, words));
            }
        );
        json.Objects("tried_at", proposal.Widths, w => json.Widths("width", w));
        json.WriteString("text", Printer.Text(proposal.Datapath.Machine.Description));
    }

    internal static void Write(Utf8JsonWriter json, Reason reason, Description first, Vocabulary words)
    {
        json.WriteString("kind", JsonNamingPolicy.KebabCaseLower.ConvertName(reason.Kind.ToString()));
        var registers = reason.Facts.Select(f => f.Value).OfType<RegisterNames>().SelectMany(r => r.Names);
        json.List("registers", registers, json.WriteStringValue);
        json.WriteString("text", ReasonWords.Of(reason, first, words).ToString());
    }
}
