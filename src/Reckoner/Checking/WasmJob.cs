using System.Text;
using System.Text.Json;

namespace Reckoner.Checking;

/// <summary>
/// A check as a worker takes it: one JSON text with the module, the layout of the operands over lanes and steps, and the planes
/// that answer. <see cref="Worker"/> is the script that runs it, whole and without imports.
/// </summary>
internal static class WasmJob
{
    /// <summary>The script counts in floating-point numbers, which are exact up to so many bits.</summary>
    public const int MostBits = 52;

    private static readonly Lazy<string> Script = new(() =>
    {
        using var stream = typeof(WasmJob).Assembly.GetManifestResourceStream("checking/check-worker.js")!;
        return new StreamReader(stream).ReadToEnd();
    });

    public static string Worker => Script.Value;

    public static string Of(CheckProgram check)
    {
        if (check.Space.Bits > MostBits)
        {
            throw new ArgumentException($"no worker counts cases of {check.Space.Bits} bits", nameof(check));
        }
        using var stream = new MemoryStream();
        using (var json = new Utf8JsonWriter(stream))
        {
            json.WriteStartObject();
            json.WriteBase64String("module", WasmModule.Of(check));
            json.WriteNumber("stride", WasmModule.Stride);
            json.WriteNumber("bytes", PlaneMemory.Words * sizeof(ulong));
            json.WriteNumber("lanes", check.Space.Lanes);
            json.WriteNumber("steps", check.Space.Steps);
            json.WriteNumber("restart", check.Space.StepsInARow);
            Operands(json, check.Space);
            json.WriteStartArray("sections");
            for (var s = 0; s < check.Sections.Count; s++)
            {
                json.WriteStartObject();
                json.WriteString("name", check.Sections[s].Section.Name());
                Output(json, "cases", check.Program.Outputs[2 * s]);
                Output(json, "fails", check.Program.Outputs[2 * s + 1]);
                json.WriteEndObject();
            }
            json.WriteEndArray();
            json.WriteEndObject();
        }
        return Encoding.UTF8.GetString(stream.ToArray());
    }

    private static void Operands(Utf8JsonWriter json, CaseSpace space)
    {
        var places = new Queue<CasePlace>(space.Inputs);
        var input = 0;
        json.WriteStartArray("operands");
        foreach (var operand in space.Operands)
        {
            json.WriteStartObject();
            json.WriteString("name", operand.Name);
            json.WriteBoolean("signed", operand.IsSigned);
            json.WriteStartArray("bits");
            for (var bit = 0; bit < operand.Width; bit++)
            {
                var (axis, index) = places.Dequeue();
                json.WriteStartObject();
                json.WriteNumber("slot", PlaneProgram.InputSlot(input++));
                json.WriteNumber(Name(axis), index);
                json.WriteEndObject();
            }
            json.WriteEndArray();
            json.WriteEndObject();
        }
        json.WriteEndArray();
    }

    private static string Name(CaseAxis axis) =>
        axis switch
        {
            CaseAxis.Lane => "lane",
            CaseAxis.Step => "step",
            CaseAxis.Fixed => throw new NotSupportedException("a worker visits every operand"),
        };

    private static void Output(Utf8JsonWriter json, string name, PlaneProgram.Output output)
    {
        json.WriteStartObject(name);
        json.WriteNumber("slot", output.Slot);
        json.WriteBoolean("turned", output.Turned);
        json.WriteEndObject();
    }
}
