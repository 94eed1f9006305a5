using Reckoner.Claims;
using Reckoner.Datapaths;

namespace Reckoner.Checking;

/// <summary>One question asked of every case: which cases it is about, and which of them fail.</summary>
public sealed record SectionProgram(CheckSection Section, int Cases, int Fails);

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
    public static Datapath? Followed(Datapath datapath) => datapath.Machine.Followed?.Beside(datapath).Datapath;

    /// <summary>Outputs of the program: for every section its cases and its failures. The oracle's state is the program's.</summary>
    public static CheckProgram Of(Datapath datapath, Datapath? followed, OracleUse use) =>
        Of(datapath, followed, use, fault: null);

    /// <summary>The same, or null where a claim cannot become gates.</summary>
    public static CheckProgram? IfGates(Datapath datapath, Datapath? followed, OracleUse use) =>
        IfGates(datapath, followed, use, AskedCases.Of(datapath));

    internal static CheckProgram? IfGates(Datapath datapath, Datapath? followed, OracleUse use, AskedCases asked) =>
        IfGates(() => Of(datapath, followed, use, fault: null, asked));

    /// <summary>
    /// The expectation stepped along, unless multiplying the laws out takes fewer gates: a machine that adds the same rows as the
    /// law shares them with it. Null where a claim cannot become gates.
    /// </summary>
    public static CheckProgram? OfFewestGates(Datapath datapath, Datapath? followed) =>
        OfFewestGates(datapath, followed, AskedCases.Of(datapath));

    internal static CheckProgram? OfFewestGates(Datapath datapath, Datapath? followed, AskedCases asked)
    {
        var stepped = IfGates(datapath, followed, OracleUse.Stepped, asked);
        var written = stepped?.Oracle is null ? null : IfGates(datapath, followed, OracleUse.Written, asked);
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
    /// <param name="cases">Those that are asked about; null for all.</param>
    internal static CheckProgram Of(
        Datapath datapath,
        Datapath? followed,
        OracleUse use,
        GateFault? fault,
        AskedCases? cases = null
    )
    {
        var (space, only) = cases ?? AskedCases.Of(datapath);
        var oracle = use == OracleUse.Stepped ? Oracle.For(datapath) : null;
        var gates = MachineGates.OfCheck(datapath, oracle?.StateBits ?? 0, space.Known);
        var graph = gates.Graph;
        var computed = fault?.In(graph, gates.Results) ?? gates.Results;
        var formulas = gates.Formulas(computed);
        var given = gates.Given;
        var next = (IReadOnlyList<int>)[];
        var holds = GateGraph.One;
        if (oracle is not null)
        {
            var state = Enumerable.Range(space.Bits, oracle.StateBits).Select(GateGraph.Input).ToArray();
            var results = datapath.Results.Zip(computed).ToDictionary(r => r.First, r => r.Second);
            (holds, next) = oracle.Build(graph, state, gates.Operands, r => results[r]);
        }
        var others = datapath.Laws.SelectMany(l =>
            oracle?.LeftOf(l) is { } left ? left.Select(formulas.Holds) : [formulas.Holds(l)]
        );
        holds = gates.All(others.Prepend(holds));
        var asked = only is null ? GateGraph.One : gates.Formulas([]).Holds(only);
        var inside = graph.And(given, asked);
        var sections = new List<SectionProgram>
        {
            new(CheckSection.Laws, inside, graph.And(inside, GateGraph.Not(holds))),
        };
        if (datapath.Outside.Count > 0)
        {
            var outside = graph.And(GateGraph.Not(given), asked);
            var stated = gates.Hold(datapath.Outside, computed);
            sections.Add(new(CheckSection.Outside, outside, graph.And(outside, GateGraph.Not(stated))));
        }
        if (followed is not null)
        {
            var earlier = gates.Beside(followed);
            var both = graph.And(inside, earlier.Given);
            sections.Add(new(CheckSection.Follows, both, graph.And(both, gates.Differs(earlier, computed))));
        }
        var outputs = sections.SelectMany(s => new[] { s.Cases, s.Fails }).ToList();
        return new CheckProgram(datapath, space, oracle, PlaneProgram.Of(graph, outputs, next), sections, graph)
        {
            Start = oracle is null ? null : OracleStart.Of(oracle, space),
        };
    }

    /// <summary>What of the claims cannot become gates, and whether for their number; null where a check goes by gates.</summary>
    internal static (Formula Formula, bool IsTooLarge)? ClaimBeyondGates(Datapath datapath)
    {
        try
        {
            _ = Of(datapath, Followed(datapath), OracleUse.Stepped);
            return null;
        }
        catch (LawBeyondPlanesException e)
        {
            return (e.Formula, e.IsTooLarge);
        }
    }

    /// <summary>What of "given" cannot become gates; null where every operand can be asked whether it lies inside.</summary>
    public static Formula? GivenBeyondGates(Datapath datapath)
    {
        try
        {
            _ = MachineGates.GivenOf(datapath);
            return null;
        }
        catch (LawBeyondPlanesException e)
        {
            return e.Formula;
        }
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
        var gates = MachineGates.Of(datapath, free.Sum(o => o.Width));
        var (graph, given) = (gates.Graph, gates.Given);
        var claimed = MachineGates.OperandLiterals(space.Operands)[datapath.Operands.Count..];
        var laws = gates.Hold(datapath.Laws, claimed);
        var machine = gates.Hold(datapath.Laws);
        var differs = gates.DiffersFrom(claimed);
        var section = new SectionProgram(
            CheckSection.Laws,
            given,
            graph.And(given, graph.And(machine, graph.And(laws, differs)))
        );
        var unasked = new SectionProgram(CheckSection.Laws, given, graph.And(given, GateGraph.Not(machine)));
        return new CheckProgram(
            datapath,
            space,
            null,
            PlaneProgram.Of(graph, [section.Cases, section.Fails, unasked.Cases, unasked.Fails]),
            [section, unasked],
            graph
        );
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
