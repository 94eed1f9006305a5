using System.Numerics;
using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;
using Reckoner.Datapaths;
using Reckoner.Execution;
using Reckoner.Numbers;

namespace Reckoner.Reporting;

/// <summary>JSON documents as every output writes them: a format number, numbers as strings, indented.</summary>
internal static class Json
{
    /// <summary>Raised when a field changes its meaning or goes; new fields do not raise it.</summary>
    public const int Format = 1;

    private static readonly JsonWriterOptions Options = new()
    {
        Indented = true,
        Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
        NewLine = "\n",
    };

    public static string Document(Action<Utf8JsonWriter> write)
    {
        using var stream = new MemoryStream();
        using (var json = new Utf8JsonWriter(stream, Options))
        {
            json.WriteStartObject();
            json.WriteNumber("format", Format);
            write(json);
            json.WriteEndObject();
        }
        return Encoding.UTF8.GetString(stream.ToArray()) + "\n";
    }

    /// <summary>The fields by which a document says what it is about.</summary>
    public static void Subject(this Utf8JsonWriter json, Datapath datapath)
    {
        json.Machine(datapath.Machine);
        json.Width(datapath);
    }

    public static void Machine(this Utf8JsonWriter json, IMachine machine)
    {
        json.Machine(machine.Name, machine.Hash, machine.Slip);
    }

    public static void Machine(this Utf8JsonWriter json, string name, string hash, string? slip)
    {
        json.WriteString("machine", name);
        json.WriteString("description", hash);
        if (slip is not null)
        {
            json.WriteString("slip", slip);
        }
    }

    public static void Width(this Utf8JsonWriter json, Datapath datapath) => json.Widths("width", datapath.Widths);

    public static void Widths(
        this Utf8JsonWriter json,
        string field,
        IEnumerable<(string Name, BigInteger Value)> widths
    ) =>
        json.Object(
            field,
            () =>
            {
                foreach (var (name, value) in widths)
                {
                    json.WriteNumber(name, (long)value);
                }
            }
        );

    public static void Object(this Utf8JsonWriter json, string name, Action write)
    {
        json.WriteStartObject(name);
        write();
        json.WriteEndObject();
    }

    /// <summary>An object about something, or null where there is nothing.</summary>
    public static void Object<T>(this Utf8JsonWriter json, string name, T? about, Action<T> write)
        where T : class
    {
        if (about is null)
        {
            json.WriteNull(name);
        }
        else
        {
            json.Object(name, () => write(about));
        }
    }

    public static void List<T>(this Utf8JsonWriter json, string name, IEnumerable<T> items, Action<T> write)
    {
        json.WriteStartArray(name);
        foreach (var item in items)
        {
            write(item);
        }
        json.WriteEndArray();
    }

    /// <summary>A list of objects.</summary>
    public static void Objects<T>(this Utf8JsonWriter json, string name, IEnumerable<T> items, Action<T> write) =>
        json.List(
            name,
            items,
            item =>
            {
                json.WriteStartObject();
                write(item);
                json.WriteEndObject();
            }
        );

    /// <summary>The same in every language, like the names of fields.</summary>
    public static string Text(UnitKind kind) =>
        kind switch
        {
            UnitKind.Adder => "adder",
            UnitKind.Multiplier => "multiplier",
            UnitKind.Comparator => "comparator",
            UnitKind.CarrySaveAdder => "carry-save adder",
        };

    public static void Unit(this Utf8JsonWriter json, Unit unit)
    {
        json.WriteString("name", unit.Name);
        json.WriteString("kind", Text(unit.Kind));
        json.WriteNumber("width", unit.Size.Count);
        json.WriteNumber("by", unit.By.Count);
    }

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
                    json.WriteString(operand.Name, Bits.Text(Evaluator.Number(operand, word)));
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
