using System.Numerics;
using System.Text.Json;
using Reckoner.Invariants;
using Reckoner.Numbers;

namespace Reckoner.Reporting;

/// <summary>What became of something that is said to hold in every round, as JSON.</summary>
internal static class GuessJson
{
    public static string Of(Guessed guessed) =>
        Json.Document(json =>
        {
            json.Machine(guessed.Machine);
            json.List("invariant", guessed.Formulas, f => json.WriteStringValue(f));
            json.WriteString("judged", ProofJson.Word(GuessDocument.Key(guessed.Kind)));
            json.WriteString("obstacle", guessed.End is { } e ? ProofJson.Word(ProofDocument.Key(e.Obstacle)) : null);
            json.List("idle", guessed.Idle, f => json.WriteStringValue(f));
            json.WriteNumber("seconds", Math.Round(guessed.Time.TotalSeconds, 3));
            json.Object("state", guessed.State, state => Write(json, state));
        });

    private static void Write(Utf8JsonWriter json, GuessState state)
    {
        json.WriteNumber("width", state.Width);
        json.WriteNumber("rounds", state.Round);
        json.Operands(state.Datapath, state.Operands);
        Registers("registers", state.Registers);
        Registers("after", state.After);
        json.WriteString("broken", state.Broken?.Formula);
        json.WriteString("numbers", state.Broken?.Numbers);
        json.WriteString("law", state.Fails?.Law.Text);
        if (state.Fails is var (_, results))
        {
            json.Results("results", state.Datapath, results);
        }
        else
        {
            json.WriteNull("results");
        }

        void Registers(string name, IReadOnlyList<BigInteger>? registers) =>
            json.Object(
                name,
                registers,
                all =>
                {
                    foreach (var (register, bits) in state.Datapath.Registers.Zip(all))
                    {
                        json.WriteString(register.Name, Bits.Text(bits, register.Width));
                    }
                }
            );
    }
}
