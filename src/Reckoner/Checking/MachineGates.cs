using Reckoner.Claims;
using Reckoner.Datapaths;
using Reckoner.Timelines;

namespace Reckoner.Checking;

/// <summary>
/// A machine at its widths as gates over operands' bits: every question that is asked of planes puts its gates together here. In
/// one graph several machines may stand beside each other on the same operands.
/// </summary>
internal sealed class MachineGates
{
    private readonly Lazy<int> given;

    private MachineGates(Datapath datapath, GateGraph graph, IReadOnlyList<int[]> operands)
    {
        Datapath = datapath;
        Graph = graph;
        Operands = operands;
        Timeline = Timeline.Of(datapath);
        Planes = new Planes(graph, Timeline.Graph, operands);
        Results = [.. Timeline.Results.Select(r => Planes[r])];
        Active = [.. Timeline.Edges.Select(e => Planes[e.Active][0])];
        given = new(() => All(datapath.Given.Select(Formulas([]).Holds)));
    }

    /// <param name="more">Inputs of the graph besides the operands' bits; they come after these.</param>
    /// <exception cref="GatesBeyondRoomException">It takes too many gates.</exception>
    public static MachineGates Of(Datapath datapath, int more = 0) =>
        new(datapath, new GateGraph(datapath.Operands.Sum(o => o.Width) + more), OperandLiterals(datapath.Operands));

    /// <summary>The same for a check, which runs the gates so often that fewer of them are too many.</summary>
    /// <exception cref="GatesBeyondRoomException">Likewise.</exception>
    /// <param name="known">Bits of operands that are constants.</param>
    public static MachineGates OfCheck(Datapath datapath, int more, FixedBits known) =>
        new(
            datapath,
            new GateGraph(datapath.Operands.Sum(o => o.Width) + more) { Most = MostInCheck },
            known.Literals(datapath.Operands)
        );

    private const int MostInCheck = 1 << 22;

    /// <summary>The literals of operands whose bits are the first inputs of a graph.</summary>
    public static List<int[]> OperandLiterals(IReadOnlyList<Operand> operands)
    {
        var next = 0;
        return [.. operands.Select(o => Enumerable.Range(0, o.Width).Select(_ => GateGraph.Input(next++)).ToArray())];
    }

    /// <summary>Where the operands of a machine lie inside "given", without the machine itself.</summary>
    /// <exception cref="LawBeyondPlanesException">A formula of it takes too many gates.</exception>
    public static int GivenOf(Datapath datapath)
    {
        var operands = OperandLiterals(datapath.Operands);
        var graph = new GateGraph(operands.Sum(o => o.Length));
        var formulas = new FormulaPlanes(graph, Words(datapath.Operands, operands));
        return datapath.Given.Select(formulas.Holds).Aggregate(GateGraph.One, graph.And);
    }

    /// <summary>Operands as formulas take them: signed words by name.</summary>
    public static Dictionary<string, int[]> Words(IReadOnlyList<Operand> operands, IReadOnlyList<int[]> literals) =>
        operands.ToDictionary(o => o.Name, o => Signed(literals[o.Index], o.IsSigned));

    /// <summary>Another machine that has the same operands by name, in the same graph.</summary>
    public MachineGates Beside(Datapath other) =>
        new(
            other,
            Graph,
            [.. other.Operands.Select(o => Operands[Datapath.Operands.First(own => own.Name == o.Name).Index])]
        );

    public Datapath Datapath { get; }
    public GateGraph Graph { get; }
    public Timeline Timeline { get; }
    public Planes Planes { get; }

    /// <summary>Every operand's literals, the lowest bit first; of the results likewise.</summary>
    public IReadOnlyList<int[]> Operands { get; }
    public IReadOnlyList<int[]> Results { get; }

    /// <summary>For every clock edge whether it takes place.</summary>
    public IReadOnlyList<int> Active { get; }

    /// <summary>Where the operands lie inside "given".</summary>
    /// <exception cref="LawBeyondPlanesException">A formula of it takes too many gates.</exception>
    public int Given => given.Value;

    /// <summary>The bits of an operand or a result; null for no such name.</summary>
    public int[]? Number(string name) =>
        Datapath.Operands.FirstOrDefault(o => o.Name == name) is { } operand ? Operands[operand.Index]
        : Datapath.Results.Index().FirstOrDefault(r => r.Item.Name == name) is (var index, { }) ? Results[index]
        : null;

    /// <summary>Formulas over the operands and results.</summary>
    public FormulaPlanes Formulas() => Formulas(Results);

    /// <param name="results">The bits that count as the results; none where formulas are of operands alone.</param>
    public FormulaPlanes Formulas(IReadOnlyList<int[]> results)
    {
        var words = Words(Datapath.Operands, Operands);
        foreach (var (result, bits) in Datapath.Results.Zip(results))
        {
            words[result.Name] = Signed(bits, result.Value.Reading == Reading.Signed);
        }
        return new FormulaPlanes(Graph, words);
    }

    /// <summary>As a signed word: one bit wider where it is unsigned.</summary>
    private static int[] Signed(int[] bits, bool isSigned) => isSigned ? bits : [.. bits, GateGraph.Zero];

    /// <summary>Where claims all hold, of these results or of others.</summary>
    public int Hold(IEnumerable<Claim> claims, IReadOnlyList<int[]>? results = null)
    {
        var formulas = Formulas(results ?? Results);
        return All(claims.Select(c => formulas.Holds(c)));
    }

    public int All(IEnumerable<int> literals) => literals.Aggregate(GateGraph.One, Graph.And);

    /// <summary>Where these results are not the machine's own.</summary>
    public int DiffersFrom(IReadOnlyList<int[]> others) => Any(Results.Zip(others, (own, other) => (own, other)));

    /// <summary>Where results that another machine has too are not the same there.</summary>
    /// <param name="results">What counts as this machine's results.</param>
    public int Differs(MachineGates other, IReadOnlyList<int[]>? results = null)
    {
        var there = other.Datapath.Results.Zip(other.Results).ToDictionary(r => r.First.Name, r => r.Second);
        return Any(
            Datapath
                .Results.Zip(results ?? Results)
                .Where(r => there.ContainsKey(r.First.Name))
                .Select(r => (r.Second, there[r.First.Name]))
        );
    }

    private int Any(IEnumerable<(int[] Own, int[] Other)> pairs) =>
        pairs.Aggregate(GateGraph.Zero, (any, p) => Graph.Or(any, Planes.Differ(Graph, p.Own, p.Other)));
}
