using Reckoner.Datapaths;
using Reckoner.Structure;

namespace Reckoner.Costing;

/// <summary>Bits of a register before which the same choices stand.</summary>
/// <param name="Holds">
/// Whether some step leaves them alone, so that one more choice, between the old and the new, stands there. Where they stay by a bit
/// that is looked at, the choice is one of the text.
/// </param>
internal sealed record CostedField(Field Field, bool Holds)
{
    /// <summary>The choices that stand before each bit.</summary>
    public int Choices => Math.Max(0, Field.Sources.Count - 1) + (Holds ? 1 : 0);
}

/// <summary>A register with its fields, which take long to find.</summary>
internal sealed record CostedRegister(RegisterStructure Structure, IReadOnlyList<CostedField> Fields)
{
    public static CostedRegister Of(RegisterStructure register) =>
        new(
            register,
            [
                .. register.Fields.Select(f => new CostedField(
                    f,
                    register.Stored.Skip(1).Any(word => !f.Sources.Contains(word.Part(f.Low, f.Width)))
                )),
            ]
        );
}

/// <summary>A unit with its gates, and for each input the words that may enter it.</summary>
internal sealed record CostedUnit(
    UnitStructure Structure,
    UnitGates Gates,
    IReadOnlyList<IReadOnlyList<Bundle>> Inputs
);

/// <summary>What a structure consists of, as far as it costs something.</summary>
internal sealed class CostedParts
{
    public CostedParts(MachineStructure structure, CostModel model, AdderKind adder)
    {
        Structure = structure;
        Model = model;
        Registers = [.. structure.Registers.Select(CostedRegister.Of)];
        Units = structure
            .Units.Where(u => u.Settings.Count > 0)
            .ToDictionary(u => u.Unit, u => new CostedUnit(u, UnitGates.Of(u, adder), u.Inputs));
        Tables = structure
            .Nets.Select(n => n.Table)
            .OfType<Table>()
            .Distinct()
            .ToDictionary(t => t, t => new TableGates(t));
    }

    public MachineStructure Structure { get; }
    public CostModel Model { get; }
    public IReadOnlyList<CostedRegister> Registers { get; }
    public IReadOnlyDictionary<Unit, CostedUnit> Units { get; }
    public IReadOnlyDictionary<Table, TableGates> Tables { get; }
}
