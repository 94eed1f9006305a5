using Reckoner.Checking;
using Reckoner.Datapaths;
using Reckoner.Timelines;

namespace Reckoner.Slips;

/// <summary>The gates of a right machine at its widths, to which those of its slips are added.</summary>
internal sealed class RightGates
{
    private readonly Datapath datapath;
    private readonly Timeline timeline;
    private readonly Planes planes;
    private readonly List<int[]> operands;
    private readonly List<int[]> results;

    public RightGates(Datapath datapath)
    {
        this.datapath = datapath;
        (Graph, Space, timeline, planes, Given) = CheckProgram.Walked(datapath);
        operands = CheckProgram.OperandLiterals(datapath.Operands);
        results = [.. timeline.Results.Select(r => planes[r])];
    }

    public GateGraph Graph { get; }
    public CaseSpace Space { get; }
    public int Given { get; }

    /// <summary>One where operands inside "given" get other results from a slip.</summary>
    public int Exposing(Datapath slipped) => Graph.And(Given, SlipStudy.Differs(Graph, slipped, operands, results));

    /// <summary>The conditions that are tried alone and in pairs, simplest first, each with its literal.</summary>
    /// <param name="withResults">Whether they may speak of the results, which mean nothing where they are wrong.</param>
    public IEnumerable<(Condition Condition, int Literal)> Candidates(bool withResults = true) =>
        Condition
            .OnNumbers(datapath, Graph, operands, withResults ? results : [])
            .Concat(DecisionConditions.Of(Graph, timeline, planes));
}
