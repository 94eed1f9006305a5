namespace Reckoner.Checking;

/// <summary>
/// The program that gives an oracle its state for a step of its own, where the step before is not the one that leads to it:
/// it multiplies or divides in every lane. Runs over the memory of the check, whose inputs it shares.
/// </summary>
internal static class OracleStart
{
    public static PlaneProgram Of(Oracle oracle, CaseSpace space)
    {
        var graph = new GateGraph(space.Bits + oracle.StateBits);
        var state = oracle.Start(graph, space.Known.Literals(space.Operands));
        return PlaneProgram.Of(graph, [], state);
    }
}
