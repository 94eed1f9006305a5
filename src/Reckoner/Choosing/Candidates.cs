using System.Numerics;
using Reckoner.Checking;
using Reckoner.Conditions;
using Reckoner.Datapaths;
using Reckoner.Diagnostics;
using Reckoner.Numbers;
using Reckoner.Slips;

namespace Reckoner.Choosing;

/// <summary>
/// The operands that may be chosen: all inside "given" or those of a sample, smallest first, and of them those that show what is
/// wanted. A table holds a bit for each case.
/// </summary>
public sealed class Candidates
{
    /// <summary>Operands of so many bits together are all tried.</summary>
    public const int MostBits = SlipStudy.MostBits;

    private readonly MachineGates gates;
    private readonly IPlaneEngine engine;
    private readonly Lazy<CaseTable> table;
    private readonly Lazy<ulong[]> given;
    private readonly Lazy<ulong[]> wanted;
    private Pace? pace;

    /// <param name="literal">What is wanted; it is asked of the operands when it is needed first.</param>
    private Candidates(MachineGates gates, IPlaneEngine engine, Lazy<CaseTable> table, int literal)
    {
        this.gates = gates;
        this.engine = engine;
        this.table = table;
        given = new Lazy<ulong[]>(() => Ask([gates.Given])[0]);
        wanted = new Lazy<ulong[]>(() => Ask([gates.Graph.And(gates.Given, literal)])[0]);
    }

    /// <param name="sample">The operands to choose from where not all are tried; null for all.</param>
    /// <param name="pace">Whatever is asked of them ends by it.</param>
    internal static Candidates Of(
        Datapath datapath,
        IPlaneEngine engine,
        IReadOnlyList<BigInteger[]>? sample,
        Pace? pace = null
    )
    {
        var table = new Lazy<CaseTable>(() =>
            sample is null
                ? CaseTable.All(datapath)
                : CaseTable.Of(datapath, [.. sample.DistinctBy(s => string.Join(',', s))])
        );
        return new Candidates(MachineGates.Of(datapath), engine, table, GateGraph.One) { pace = pace };
    }

    /// <summary>
    /// The same with a condition on them, or null with what is wrong in the report; its spans count in the text.
    /// </summary>
    public Candidates? Showing(string text, Report report)
    {
        var machine = KnownSlips.Machine(gates.Timeline);
        if (ConditionParser.Read(machine, text, report) is not { } condition)
        {
            return null;
        }
        try
        {
            var literal = new ConditionGates(machine, gates, Possible).Literal(condition);
            return new Candidates(gates, engine, table, literal) { Asked = text, pace = pace };
        }
        catch (LawBeyondPlanesException e)
        {
            report.Add(
                Id.ConditionTooLarge,
                e.Formula.Place,
                ("formula", $"{e.Formula}"),
                ("limit", ConditionFormulas.MostBits)
            );
            return null;
        }
    }

    /// <summary>
    /// All operands of the machine at the next width, with the same condition; null when they are more than so many bits, or the
    /// condition means nothing there.
    /// </summary>
    internal Candidates? AtNextWidth(int mostBits) =>
        NextWidth.Of(Datapath, mostBits) is not { } next ? null
        : Asked is null ? Of(next, engine, null)
        : Of(next, engine, null).Showing(Asked, new Report(null));

    public Datapath Datapath => gates.Datapath;

    /// <summary>The condition as it was read; null for none.</summary>
    private string? Asked { get; init; }

    public bool IsExhaustive => Table.IsExhaustive;

    /// <summary>How many operands inside "given" there are or were tried.</summary>
    public long Cases => CaseTable.Count(Given);

    /// <summary>How many of them show what is wanted; all, where nothing particular is.</summary>
    public long Count => CaseTable.Count(Wanted);

    internal MachineGates Gates => gates;
    internal CaseTable Table => table.Value;

    /// <summary>The cases that show what is wanted.</summary>
    internal ulong[] Wanted => wanted.Value;

    internal ulong[] Given => given.Value;

    /// <summary>A bit per case for each literal.</summary>
    internal ulong[][] Ask(IReadOnlyList<int> literals) => Ask(gates, literals);

    /// <summary>The same of gates that were made beside, on the same operands.</summary>
    internal ulong[][] Ask(MachineGates beside, IReadOnlyList<int> literals)
    {
        pace?.MayGoOn();
        return Table.Run(PlaneProgram.Of(beside.Graph, literals), engine);
    }

    /// <summary>The cases that show what is wanted, smallest operands first.</summary>
    internal IEnumerable<int> Chosen => BitSets.Items(Wanted);

    private List<bool> Possible(IReadOnlyList<int> literals)
    {
        var bits = Ask([.. literals.Select(l => gates.Graph.And(gates.Given, l))]);
        return [.. bits.Select(b => Array.Exists(b, w => w != 0))];
    }
}
