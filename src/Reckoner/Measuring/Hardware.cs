using Reckoner.Datapaths;
using Reckoner.Numbers;
using Reckoner.Structure;

namespace Reckoner.Measuring;

/// <summary>The hardware of a datapath, counted. Multiplexers are counted as two-way choices, control apart.</summary>
public sealed class Hardware
{
    private readonly MachineStructure structure;

    private Hardware(MachineStructure structure) => this.structure = structure;

    public static Hardware Of(Datapath datapath) => new(MachineStructure.Of(datapath));

    public Datapath Datapath => structure.Datapath;

    /// <summary>Choices between two words, made in a step at a line.</summary>
    public IReadOnlyList<Choice> Choices => structure.Choices;

    /// <summary>The words that steps give the registers; where there are several, the step chooses.</summary>
    public IReadOnlyList<RegisterStructure> Inputs => structure.Registers;

    /// <summary>What the control unit looks at.</summary>
    public IReadOnlyList<Decision> Decisions => structure.Decisions;

    /// <summary>Whether a round must know that it is the last.</summary>
    public bool UsesLast => structure.UsesLast;

    public Size RegisterBits => Datapath.Registers.Select(r => r.Size).Aggregate(Size.Of(0), (a, b) => a + b);

    /// <summary>Bits of all adders that anything uses.</summary>
    public int AdderBits => Units.Where(u => u.Kind == UnitKind.Adder).Sum(u => u.Size.Count);

    public int ChoiceBits => Choices.Sum(c => c.Width);

    /// <summary>Units that anything uses.</summary>
    public IEnumerable<Unit> Units => Datapath.Units.Where(u => u.Uses.Count > 0);

    /// <summary>Fewest and most clock edges after the load, by the bounds of the loops.</summary>
    public (int Least, int Most) Cycles => (Datapath.LeastCycles, Datapath.MostCycles);

    /// <summary>Bits of all round counters of the control unit; loops run one after another and share the longest.</summary>
    public int CounterBits => Datapath.RoundBits;
}
