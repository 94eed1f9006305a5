using System.Globalization;
using System.Text.Json;
using Reckoner.Proving;

namespace Reckoner.Reporting;

/// <summary>Proofs for every width, and what the verifier said, as JSON.</summary>
internal static class ProofJson
{
    public static string Of(ProofReport report) =>
        Json.Document(json =>
        {
            json.Machine(report.Machine);
            json.WriteString("widths", "every");
            json.WriteNumber("least", report.Least);
            json.WriteBoolean("proved", report.IsWhole);
            json.WriteBoolean("complete", report.IsComplete);
            json.WriteBoolean("verified", report.Certificate is not null && report.Refusal is null);
            json.WriteNumber("seconds", Math.Round(report.Time.TotalSeconds, 3));
            json.Object("at", report.At, at => At(json, at));
            json.Object("cycles", report.Cycles, cycles => Cycles(json, cycles));
            json.Objects(
                "sections",
                report.Sections,
                section =>
                {
                    json.WriteString("name", section == report.Outside ? "outside" : "laws");
                    json.WriteString("obstacle", section.Obstacle is { } o ? Word(ProofDocument.Key(o)) : null);
                    json.Objects(
                        "claims",
                        section.Claims,
                        claim =>
                        {
                            json.WriteString("text", claim.Claim.Text);
                            json.WriteBoolean("proved", claim.IsProved);
                            Fails(json, claim.Fails);
                        }
                    );
                    json.Objects(
                        "parts",
                        section.Claims.Any(c => c.IsProved) ? section.Proofs : [],
                        proof =>
                        {
                            json.Objects(
                                "when",
                                proof.Part.When,
                                when =>
                                {
                                    json.WriteNumber("law", when.Law);
                                    json.WriteBoolean("so", when.IsSo);
                                }
                            );
                            json.Objects("loops", proof.Loops, loop => Loop(json, loop, proof.Variables));
                        }
                    );
                }
            );
        });

    private static void At(Utf8JsonWriter json, AtWidth at)
    {
        json.Width(at.Datapath);
        json.WriteBoolean("asked", at.IsAsked);
        if (at.Holds is { } holds)
        {
            json.WriteBoolean("holds", holds);
        }
        else
        {
            json.WriteNull("holds");
        }
        json.WriteString("tried", at.Tried?.ToString(CultureInfo.InvariantCulture));
    }

    private static void Cycles(Utf8JsonWriter json, CycleCount cycles)
    {
        json.WriteString("most", cycles.Most);
        json.WriteBoolean("same", cycles.IsSame);
        json.Objects(
            "seen",
            cycles.Seen,
            seen =>
            {
                json.Width(seen.Datapath);
                json.WriteNumber("least", seen.Least);
                json.WriteNumber("most", seen.Most);
            }
        );
    }

    private static void Fails(Utf8JsonWriter json, Failing? fails)
    {
        if (fails is null)
        {
            json.WriteNull("fails");
            return;
        }
        json.Object(
            "fails",
            () =>
            {
                json.WriteNumber("width", fails.Width);
                json.Operands(fails.Datapath, fails.Operands);
                json.Results("results", fails.Datapath, fails.Results);
            }
        );
    }

    private static void Loop(Utf8JsonWriter json, LoopInvariant loop, Variables variables)
    {
        json.WriteNumber("line", loop.Segment.Line);
        json.List("head", loop.NeededHead, f => json.WriteStringValue(InvariantText.Of(f, variables)));
        json.List("exit", loop.NeededExit, f => json.WriteStringValue(InvariantText.Of(f, variables)));
        json.Object(
            "pieces",
            () =>
            {
                foreach (var piece in loop.HeadPieces.Concat(loop.ExitPieces).DistinctBy(p => p.Name))
                {
                    json.WriteString(piece.Name, InvariantText.Places(piece));
                }
            }
        );
    }

    public static string Of(Verified verified) =>
        Json.Document(json =>
        {
            json.Machine(verified.Machine);
            json.WriteBoolean("accepted", verified.Verdict.IsAccepted);
            json.WriteString("refusal", verified.Verdict.Refusal is { } r ? Word(ProofDocument.Key(r)) : null);
            json.WriteNumber("least", verified.Verdict.Least);
            json.List("laws", verified.Laws, c => json.WriteStringValue(c.Text));
            json.List("outside", verified.Outside, c => json.WriteStringValue(c.Text));
        });

    /// <summary>The same word in every language.</summary>
    public static string Word(string key) => key[(key.IndexOf('.', StringComparison.Ordinal) + 1)..];
}
