using System.Numerics;
using Reckoner.Checking;
using Reckoner.Claims;
using Reckoner.Datapaths;
using Reckoner.Timelines;

namespace Reckoner.Engines.Tests;

/// <summary>
/// The slow twin for machines with a fault: their gates one case and one bit at a time, and what is claimed judged on the
/// numbers that come out. No planes, no gates for laws, no expectation. Needs operands and results of a few bits.
/// </summary>
internal sealed class CaseByCase
{
    private readonly Datapath datapath;
    private readonly GateGraph graph;
    private readonly IReadOnlyList<int[]> results;
    private readonly (BigInteger[] Operands, Rank Rank, bool IsGiven)[] cases;
    private readonly bool?[] verdicts;
    private readonly int resultBits;

    public CaseByCase(Datapath datapath)
    {
        this.datapath = datapath;
        var space = new CaseSpace(datapath.Operands);
        graph = new GateGraph(space.Bits);
        var timeline = Timeline.Of(datapath);
        var planes = new Planes(graph, timeline.Graph, MachineGates.OperandLiterals(datapath.Operands));
        results = [.. timeline.Results.Select(r => planes[r])];
        resultBits = results.Sum(r => r.Length);
        cases =
        [
            .. Enumerable
                .Range(0, space.Lanes)
                .Select(lane => space.At(0, lane))
                .Select(operands => (operands, Rank.Of(datapath.Operands, operands), datapath.IsGiven(operands)))
                .OrderBy(c => c.Item2)
                .ThenBy(c => c.operands[^1])
                .ThenBy(c => c.operands[0]),
        ];
        verdicts = new bool?[cases.Length << resultBits];
    }

    public IReadOnlyList<Gate> Gates => graph.Gates;

    public string Line(GateFault? fault = null)
    {
        var inside = new SectionCount(CheckSection.Laws, 0, 0, null);
        var outside = new SectionCount(CheckSection.Outside, 0, 0, null);
        var planes = new bool[graph.PlaneOf(Gates.Count)];
        for (var c = 0; c < cases.Length; c++)
        {
            Run(planes, cases[c].Operands, fault);
            var fails = Holds(c, planes) ? 0 : 1;
            var failing = fails == 0 ? null : new FailingCase(cases[c].Operands, cases[c].Rank);
            if (cases[c].IsGiven)
            {
                inside += new SectionCount(CheckSection.Laws, 1, fails, inside.Smallest is null ? failing : null);
            }
            else
            {
                outside += new SectionCount(CheckSection.Outside, 1, fails, outside.Smallest is null ? failing : null);
            }
        }
        return Machines.Line(datapath.Outside.Count > 0 ? [inside, outside] : [inside]);
    }

    private void Run(bool[] planes, BigInteger[] operands, GateFault? fault)
    {
        var input = 1;
        foreach (var operand in datapath.Operands)
        {
            for (var bit = 0; bit < operand.Width; bit++)
            {
                planes[input++] = !(operands[operand.Index] >> bit).IsEven;
            }
        }
        for (var i = 0; i < Gates.Count; i++)
        {
            var gate = Gates[i];
            var row = (planes[gate.A] ? 4 : 0) + (planes[gate.B] ? 2 : 0) + (planes[gate.C] ? 1 : 0);
            var function = fault?.Gate == i ? fault.Function : gate.Function;
            planes[graph.PlaneOf(i)] = ((function >> row) & 1) != 0;
        }
    }

    private bool Holds(int index, bool[] planes)
    {
        var bits = 0;
        foreach (var literal in results.SelectMany(r => r.Reverse()))
        {
            bits = 2 * bits + (planes[literal >> 1] != ((literal & 1) != 0) ? 1 : 0);
        }
        return verdicts[(index << resultBits) + bits] ??= Judged(cases[index].Operands, cases[index].IsGiven, bits);
    }

    private bool Judged(BigInteger[] operands, bool isGiven, int bits)
    {
        var numbers = new BigInteger[results.Count];
        for (var r = results.Count - 1; r >= 0; r--)
        {
            numbers[r] = bits & ((1 << results[r].Length) - 1);
            bits >>= results[r].Length;
        }
        return (isGiven ? datapath.Laws : datapath.Outside).All(claim => ClaimJudge.Holds(claim, operands, numbers));
    }
}
