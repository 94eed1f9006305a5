using Reckoner.Datapaths;

namespace Reckoner.Structure;

/// <summary>
/// What the hardware of a datapath consists of and how it is wired: nets, registers and units with the choices before them, what
/// the control unit looks at, its states with their control words, and which state follows. Bits are ranges. Everything knows the
/// lines it comes from. It is complete: a machine can be run from it alone.
/// </summary>
internal sealed record MachineStructure
{
    public required Datapath Datapath { get; init; }

    /// <summary>Every word that something gives and anything takes; what goes into one comes before it, except into a unit.</summary>
    public required IReadOnlyList<Net> Nets { get; init; }

    /// <summary>By the registers' index.</summary>
    public required IReadOnlyList<RegisterStructure> Registers { get; init; }

    /// <summary>The units of the datapath, in its order.</summary>
    public required IReadOnlyList<UnitStructure> Units { get; init; }

    /// <summary>The choices between words, each once, in the order in which the text asks for them.</summary>
    public required IReadOnlyList<Choice> Choices { get; init; }

    /// <summary>What the control unit looks at, in the order of the schedule.</summary>
    public required IReadOnlyList<Decision> Decisions { get; init; }

    /// <summary>By number: the load, then every step.</summary>
    public required IReadOnlyList<State> States { get; init; }

    public required IReadOnlyList<EarlyStop> EarlyStops { get; init; }

    /// <summary>The wires of the datapath's results, over the registers behind the last cycle.</summary>
    public required IReadOnlyList<Bundle> Results { get; init; }

    /// <summary>Whether a round must know that it is the last.</summary>
    public bool UsesLast => Nets.Any(n => n.Kind == NetKind.Last);

    /// <summary>
    /// Units that wait for each other where states are not told apart: one state lets the one take what the other gives, another
    /// state does the reverse. No cycle runs round such a circle, but tools that read hardware find it in the wires.
    /// </summary>
    public IReadOnlyList<Unit> UnitsInCircles => UnitCircles.Of(this);

    /// <summary>The nets that look something up in a table: each is a copy of it.</summary>
    public IEnumerable<Net> Lookups(Table table) => Nets.Where(n => n.Table == table);

    public static MachineStructure Of(Datapath datapath) => new Structuring(datapath).Structure();
}
