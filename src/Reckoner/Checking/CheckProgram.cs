using Reckoner.Claims;
using Reckoner.Datapaths;
using Reckoner.Timelines;

namespace Reckoner.Checking;

/// <summary>One question asked of every case: which cases it is about, and which of them fail.</summary>
/// <param name="Name">laws, outside or follows.</param>
public sealed record SectionProgram(string Name, int Cases, int Fails);

/// <summary>
/// The gates that decide every claim of a machine at its widths: laws inside "given", what is stated outside, equal results with
/// the machine it follows. Inputs are the operands' bits, then the oracle's state if there is one.
/// </summary>
public sealed class CheckProgram
{
    private CheckProgram(
        Datapath datapath,
        CaseSpace space,
        Oracle? oracle,
        PlaneProgram program,
        IReadOnlyList<SectionProgram> sections,
        GateGraph graph
    )
    {
        Datapath = datapath;
        Space = space;
        Oracle = oracle;
        Program = program;
        Sections = sections;
        Graph = graph;
    }

    public Datapath Datapath { get; }
    public CaseSpace Space { get; }
    public Oracle? Oracle { get; }
    public PlaneProgram Program { get; }

    /// <summary>Gives the oracle its state where a stretch of steps begins; null without an oracle.</summary>
    public PlaneProgram? Start { get; private init; }
    public IReadOnlyList<SectionProgram> Sections { get; }
    public GateGraph Graph { get; }

    /// <summary>The machine that a machine follows, at the same widths; null where there is none or it cannot be so wide.</summary>
    public static Datapath? Followed(Datapath datapath)
    {
        if (datapath.Machine.Followed is not { } followed)
        {
            return null;
        }
        var shared = followed
            .Widths.Select(w => w.Name.Text)
            .Where(datapath.Numbers.ContainsKey)
            .ToDictionary(n => n, n => datapath.Numbers[n].Numerator);
        return followed.At(shared).Datapath;
    }

    /// <summary>Outputs of the program: for every section its cases and its failures. The oracle's state is the program's.</summary>
    public static CheckProgram Of(Datapath datapath, Datapath? followed, OracleUse use) =>
        Of(datapath, followed, use, fault: null);

    /// <summary>The same, or null where a claim cannot become gates.</summary>
    public static CheckProgram? IfGates(Datapath datapath, Datapath? followed, OracleUse use) =>
        IfGates(() => Of(datapath, followed, use));

    /// <summary>
    /// The expectation stepped along, unless multiplying the laws out takes fewer gates: a machine that adds the same rows as the
    /// law shares them with it. Null where a claim cannot become gates.
    /// </summary>
    public static CheckProgram? OfFewestGates(Datapath datapath, Datapath? followed)
    {
        var stepped = IfGates(datapath, followed, OracleUse.Stepped);
        var written = stepped?.Oracle is null ? null : IfGates(datapath, followed, OracleUse.Written);
        return written is not null && written.Program.Instructions.Count < stepped!.Program.Instructions.Count
            ? written
            : stepped;
    }

    private static CheckProgram? IfGates(Func<CheckProgram> build)
    {
        try
        {
            return build();
        }
        catch (LawBeyondPlanesException)
        {
            return null;
        }
    }

    /// <summary>The same questions put to another program, one with a fault in it.</summary>
    internal CheckProgram With(PlaneProgram program) =>
        new(Datapath, Space, Oracle, program, Sections, Graph) { Start = Start };

    /// <summary>The same of a machine with a fault in it.</summary>
    internal static CheckProgram Of(Datapath datapath, Datapath? followed, OracleUse use, GateFault? fault)
    {
        var space = new CaseSpace(datapath.Operands);
        var oracle = use == OracleUse.Stepped ? Oracle.For(datapath) : null;
        var graph = new GateGraph(space.Bits + (oracle?.StateBits ?? 0));
        var operands = OperandLiterals(datapath.Operands);
        var timeline = Timeline.Of(datapath);
        var planes = new Planes(graph, timeline.Graph, operands);
        var state = Enumerable.Range(space.Bits, oracle?.StateBits ?? 0).Select(GateGraph.Input).ToArray();

        IReadOnlyList<int[]> computed = [.. timeline.Results.Select(r => planes[r])];
        computed = fault?.In(graph, computed) ?? computed;
        var results = datapath.Results.Zip(computed).ToDictionary(r => r.First, r => r.Second);
        var words = Words(datapath, operands, results);
        var formulas = new FormulaPlanes(graph, words);
        var given = All(graph, datapath.Given.Select(formulas.Holds));
        var next = (IReadOnlyList<int>)[];
        var holds = GateGraph.One;
        if (oracle is not null)
        {
            (holds, next) = oracle.Build(graph, state, operands, r => results[r]);
        }
        var others = datapath.Laws.SelectMany(l =>
            oracle?.LeftOf(l) is { } left ? left.Select(formulas.Holds) : [formulas.Holds(l)]
        );
        holds = All(graph, others.Prepend(holds));
        var sections = new List<SectionProgram> { new("laws", given, graph.And(given, GateGraph.Not(holds))) };
        if (datapath.Outside.Count > 0)
        {
            var outside = GateGraph.Not(given);
            var stated = All(graph, datapath.Outside.Select(o => formulas.Holds(o)));
            sections.Add(new("outside", outside, graph.And(outside, GateGraph.Not(stated))));
        }
        if (followed is not null)
        {
            sections.Add(Follows(graph, datapath, followed, operands, results, given));
        }
        var outputs = sections.SelectMany(s => new[] { s.Cases, s.Fails }).ToList();
        return new CheckProgram(datapath, space, oracle, PlaneProgram.Of(graph, outputs, next), sections, graph)
        {
            Start = oracle is null ? null : OracleStart.Of(oracle, space),
        };
    }

    /// <summary>What of "given" cannot become gates; null where every operand can be asked whether it lies inside.</summary>
    public static Formula? GivenBeyondGates(Datapath datapath)
    {
        try
        {
            Walked(datapath);
            return null;
        }
        catch (LawBeyondPlanesException e)
        {
            return e.Formula;
        }
    }

    /// <summary>The gates of every edge of a machine and of its "given", for questions other than its claims.</summary>
    internal static (GateGraph Graph, CaseSpace Space, Timeline Timeline, Planes Planes, int Given) Walked(
        Datapath datapath
    )
    {
        var space = new CaseSpace(datapath.Operands);
        var graph = new GateGraph(space.Bits);
        var operands = OperandLiterals(datapath.Operands);
        var timeline = Timeline.Of(datapath);
        var planes = new Planes(graph, timeline.Graph, operands);
        var formulas = new FormulaPlanes(graph, Words(datapath, operands, []));
        return (graph, space, timeline, planes, All(graph, datapath.Given.Select(formulas.Holds)));
    }

    /// <summary>
    /// The question whether laws fix the results: operands and results all run over everything; a failure satisfies "given" and
    /// the laws beside other results, those of the machine. The second section is of the machine's own results failing them:
    /// nothing is asked there.
    /// </summary>
    internal static CheckProgram? Strength(Datapath datapath) => IfGates(() => StrengthOf(datapath));

    private static CheckProgram StrengthOf(Datapath datapath)
    {
        var free = datapath.Results.Select(
            (r, i) =>
                new Operand(r.Name, null, r.Value.Size, r.Value.Reading == Reading.Signed, datapath.Operands.Count + i)
        );
        var space = new CaseSpace([.. datapath.Operands, .. free]);
        var graph = new GateGraph(space.Bits);
        var literals = OperandLiterals(space.Operands);
        var timeline = Timeline.Of(datapath);
        var planes = new Planes(graph, timeline.Graph, literals);
        var claimed = datapath
            .Results.Select((r, i) => (r, literals[datapath.Operands.Count + i]))
            .ToDictionary(r => r.r, r => r.Item2);
        var formulas = new FormulaPlanes(graph, Words(datapath, literals, claimed));
        var given = All(graph, datapath.Given.Select(formulas.Holds));
        var laws = All(graph, datapath.Laws.Select(l => formulas.Holds(l)));
        var own = datapath.Results.Zip(timeline.Results).ToDictionary(r => r.First, r => planes[r.Second]);
        var ownFormulas = new FormulaPlanes(graph, Words(datapath, literals, own));
        var machine = All(graph, datapath.Laws.Select(l => ownFormulas.Holds(l)));
        var differs = GateGraph.Zero;
        foreach (var (result, place) in datapath.Results.Zip(timeline.Results))
        {
            differs = graph.Or(differs, Planes.Differ(graph, planes[place], claimed[result]));
        }
        var section = new SectionProgram("laws", given, graph.And(given, graph.And(machine, graph.And(laws, differs))));
        var unasked = new SectionProgram("unasked", given, graph.And(given, GateGraph.Not(machine)));
        return new CheckProgram(
            datapath,
            space,
            null,
            PlaneProgram.Of(graph, [section.Cases, section.Fails, unasked.Cases, unasked.Fails]),
            [section, unasked],
            graph
        );
    }

    private static int All(GateGraph graph, IEnumerable<int> literals) => literals.Aggregate(GateGraph.One, graph.And);

    internal static List<int[]> OperandLiterals(IReadOnlyList<Operand> operands)
    {
        var next = 0;
        return [.. operands.Select(o => Enumerable.Range(0, o.Width).Select(_ => GateGraph.Input(next++)).ToArray())];
    }

    /// <summary>Operands and results as signed words, one bit wider where they are unsigned.</summary>
    internal static Dictionary<string, int[]> Words(
        Datapath datapath,
        List<int[]> operands,
        Dictionary<Result, int[]> results
    )
    {
        var words = datapath.Operands.ToDictionary(o => o.Name, o => Signed(operands[o.Index], o.IsSigned));
        foreach (var (result, bits) in results)
        {
            words[result.Name] = Signed(bits, result.Value.Reading == Reading.Signed);
        }
        return words;
    }

    private static int[] Signed(int[] bits, bool isSigned) => isSigned ? bits : [.. bits, GateGraph.Zero];

    private static SectionProgram Follows(
        GateGraph graph,
        Datapath datapath,
        Datapath followed,
        List<int[]> operands,
        Dictionary<Result, int[]> results,
        int given
    )
    {
        List<int[]> same =
        [
            .. followed.Operands.Select(o => operands[datapath.Operands.First(own => own.Name == o.Name).Index]),
        ];
        var timeline = Timeline.Of(followed);
        var planes = new Planes(graph, timeline.Graph, same);
        var formulas = new FormulaPlanes(graph, Words(followed, same, []));
        var both = graph.And(given, All(graph, followed.Given.Select(formulas.Holds)));
        var differ = GateGraph.Zero;
        foreach (var (result, bits) in results)
        {
            var index = followed.Results.ToList().FindIndex(r => r.Name == result.Name);
            if (index >= 0)
            {
                differ = graph.Or(differ, Planes.Differ(graph, bits, planes[timeline.Results[index]]));
            }
        }
        return new SectionProgram("follows", both, graph.And(both, differ));
    }
}

/// <summary>How the expectation of laws of a known shape is formed.</summary>
public enum OracleUse
{
    /// <summary>Every law is multiplied out as it is written.</summary>
    Written,

    /// <summary>Laws of a known shape are stepped along the first operand.</summary>
    Stepped,
}
