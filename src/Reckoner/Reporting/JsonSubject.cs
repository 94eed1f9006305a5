using System.Numerics;
using System.Text.Json;
using Reckoner.Costing;
using Reckoner.Datapaths;

namespace Reckoner.Reporting;

/// <summary>Fields that say what a document is about, and of what hardware.</summary>
internal static class JsonSubject
{
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

    /// <summary>The same in every language, like the names of fields.</summary>
    public static string Text(UnitKind kind) =>
        kind switch
        {
            UnitKind.Adder => "adder",
            UnitKind.Multiplier => "multiplier",
            UnitKind.Comparator => "comparator",
            UnitKind.CarrySaveAdder => "carry-save adder",
        };

    public static string Text(CostKind kind) =>
        kind switch
        {
            CostKind.Registers => "registers",
            CostKind.RegisterInputs => "register-inputs",
            CostKind.Unit => "unit",
            CostKind.UnitInputs => "unit-inputs",
            CostKind.Choices => "choices",
            CostKind.Gates => "gates",
            CostKind.Tables => "tables",
            CostKind.Counter => "counter",
        };

    public static void Unit(this Utf8JsonWriter json, Unit unit)
    {
        json.WriteString("name", unit.Name);
        json.WriteString("kind", Text(unit.Kind));
        json.WriteNumber("width", unit.Size.Count);
        json.WriteNumber("by", unit.By.Count);
    }
}
