using System.Numerics;
using System.Text.Json;
using Reckoner.Datapaths;
using Reckoner.Execution;
using Reckoner.Numbers;

namespace Reckoner.Reporting;

/// <summary>Operands, results and registers by their names.</summary>
internal static class JsonNumbers
{
    public static void Registers(
        this Utf8JsonWriter json,
        Datapath datapath,
        IReadOnlyList<BigInteger> bits,
        Step? step
    )
    {
        json.Object(
            "registers",
            () =>
            {
                foreach (var register in datapath.Registers)
                {
                    json.WriteString(register.Name, Bits.Text(bits[register.Index], register.Width));
                }
            }
        );
        if (datapath.Meanings.Count > 0)
        {
            json.Object("meanings", () => Meanings(json, datapath, bits, step));
        }
    }

    private static void Meanings(Utf8JsonWriter json, Datapath datapath, IReadOnlyList<BigInteger> bits, Step? step)
    {
        var registers = NumberWords.Over(bits);
        foreach (var meaning in datapath.Meanings.Where(m => m.IsSoAfter(step)))
        {
            json.Object(
                meaning.Name,
                () =>
                {
                    json.WriteString("number", meaning.Number(registers).ToString());
                    json.WriteString("text", meaning.Say(registers));
                }
            );
        }
    }

    /// <summary>Operands by their names, as numbers.</summary>
    public static void Operands(this Utf8JsonWriter json, Datapath datapath, IReadOnlyList<BigInteger> bits) =>
        json.Object(
            "operands",
            () =>
            {
                foreach (var (operand, word) in datapath.Operands.Zip(bits))
                {
                    json.WriteString(operand.Name, Bits.Text(operand.Number(word)));
                }
            }
        );

    /// <summary>Results by their names, as numbers; null where there are none.</summary>
    public static void Results(
        this Utf8JsonWriter json,
        string field,
        Datapath datapath,
        IReadOnlyList<BigInteger>? bits
    )
    {
        if (bits is null)
        {
            json.WriteNull(field);
            return;
        }
        json.Object(
            field,
            () =>
            {
                foreach (var (result, word) in datapath.Results.Zip(bits))
                {
                    json.WriteString(result.Name, Bits.Text(result.Number(word)));
                }
            }
        );
    }
}
