using Reckoner.Datapaths;

namespace Reckoner.Structure;

/// <summary>The control unit as a table of states: what each does, under which conditions, and which follows when.</summary>
/// <param name="States">By number: the load, then every step.</param>
public sealed record ControlStates(Datapath Datapath, IReadOnlyList<State> States)
{
    internal static ControlStates Of(Datapath datapath) => new(datapath, MachineStructure.Of(datapath).States);

    /// <summary>Every way from a state to the next, in the order of the states.</summary>
    public IEnumerable<Transition> Ways => States.SelectMany(s => s.Next);
}
