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
    private readonly Dictionary<(Unit, AdderKind), CostedUnit> made;

    public CostedParts(MachineStructure structure, CostModel model, AdderChoice adders)
    {
        made = [];
        Structure = structure;
        Model = model;
        Registers = [.. structure.Registers.Select(CostedRegister.Of)];
        Tables = model.TableBit is null
            ? structure
                .Nets.Select(n => n.Table)
                .OfType<Table>()
                .Distinct()
                .ToDictionary(t => t, t => new TableGates(t))
            : [];
        Adders = adders;
        Units = Made();
    }

    private CostedParts(CostedParts of, AdderChoice adders)
    {
        made = of.made;
        Structure = of.Structure;
        Model = of.Model;
        Registers = of.Registers;
        Tables = of.Tables;
        Adders = adders;
        Units = Made();
    }

    public MachineStructure Structure { get; }
    public CostModel Model { get; }
    public AdderChoice Adders { get; }
    public IReadOnlyList<CostedRegister> Registers { get; }
    public IReadOnlyDictionary<Unit, CostedUnit> Units { get; }

    /// <summary>Empty where the model counts tables by their bits.</summary>
    public IReadOnlyDictionary<Table, TableGates> Tables { get; }

    /// <summary>The same with other adders.</summary>
    public CostedParts With(AdderChoice adders) => new(this, adders);

    private Dictionary<Unit, CostedUnit> Made() =>
        Structure.Units.Where(u => u.Settings.Count > 0).ToDictionary(u => u.Unit, u => Made(u, Adders.Of(u.Unit)));

    private CostedUnit Made(UnitStructure unit, AdderKind kind)
    {
        if (!made.TryGetValue((unit.Unit, kind), out var one))
        {
            one = new CostedUnit(unit, UnitGates.Of(unit, kind, Model.FullAdder is not null), unit.Inputs);
            made.Add((unit.Unit, kind), one);
        }
        return one;
    }
}
