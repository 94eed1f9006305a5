using Reckoner.Checking;
using Reckoner.Datapaths;
using Reckoner.Timelines;

namespace Reckoner.Choosing;

/// <summary>A machine at its widths as gates over the operands' bits, with what it decides.</summary>
internal sealed class MachineGates
{
    public MachineGates(Datapath datapath)
    {
        Datapath = datapath;
        (Graph, _, Timeline, Planes, Given) = CheckProgram.Walked(datapath);
        Operands = CheckProgram.OperandLiterals(datapath.Operands);
        Results = [.. Timeline.Results.Select(r => Planes[r])];
        Decisions = new Decisions(Graph, Timeline, Planes);
    }

    public Datapath Datapath { get; }
    public GateGraph Graph { get; }
    public Timeline Timeline { get; }
    public Planes Planes { get; }
    public Decisions Decisions { get; }

    /// <summary>Where the operands lie inside "given".</summary>
    public int Given { get; }

    public List<int[]> Operands { get; }
    public List<int[]> Results { get; }

    /// <summary>Formulas over operands and results.</summary>
    public FormulaPlanes Formulas()
    {
        var results = Datapath.Results.Zip(Results).ToDictionary(r => r.First, r => r.Second);
        return new FormulaPlanes(Graph, CheckProgram.Words(Datapath, Operands, results));
    }
}
