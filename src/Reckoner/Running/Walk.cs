using System.Collections.ObjectModel;
using System.Numerics;
using Reckoner.Claims;
using Reckoner.Datapaths;

namespace Reckoner.Running;

/// <summary>A named value of a moment: its bits as the wire carries them to the end of the cycle.</summary>
public sealed record WireValue(Wire Wire, BigInteger Bits);

/// <summary>A stretch of a cycle: what stands on the registers' wires at its end, and what happened.</summary>
/// <param name="Stored">True for the last of its cycle: what the edge stores.</param>
public sealed record MomentOfWalk(
    int Moment,
    bool Stored,
    IReadOnlyList<BigInteger> Registers,
    IReadOnlyList<WireValue> Values,
    IReadOnlyList<Happening> Happenings
);

/// <summary>A row: the load (cycle 0) or one clock edge.</summary>
/// <param name="Repeat">The loop from 1, 0 outside loops; <paramref name="Round"/> likewise.</param>
/// <param name="Last">In a loop of fixed count: whether this is its last round; else null.</param>
/// <param name="Before">What the registers hold before the edge; <paramref name="Registers"/> after it.</param>
public sealed record Row(
    int Cycle,
    int Repeat,
    int Round,
    Step? Step,
    bool? Last,
    IReadOnlyList<BigInteger> Before,
    IReadOnlyList<BigInteger> Registers,
    IReadOnlyList<MomentOfWalk> Moments
);

/// <summary>Whether a claim held on this walk.</summary>
/// <param name="Applies">False where its "when" is not so: it holds then, and says nothing.</param>
public sealed record JudgedClaim(Claim Claim, bool Holds, bool Applies)
{
    /// <summary>The part for want of whose value it does not hold; null where it holds, or is plainly false.</summary>
    internal Undefined? Undefined { get; init; }

    /// <summary>By the bits of operands and results. Where its "when" has no value it applies, or nobody would hear of it.</summary>
    internal static JudgedClaim Of(Claim claim, IReadOnlyList<BigInteger> operands, IReadOnlyList<BigInteger> results)
    {
        var holds = ClaimJudge.Holds(claim, operands, results);
        return new JudgedClaim(claim, holds, !holds || ClaimJudge.Applies(claim, operands, results))
        {
            Undefined = holds ? null : ClaimJudge.Undefined(claim, operands, results),
        };
    }
}

/// <summary>The walk of one set of operands through a machine, cycle by cycle, computed with whole numbers.</summary>
public sealed class Walk
{
    private readonly Lazy<BitTrace> trace;

    private Walk(Datapath datapath, IReadOnlyList<BigInteger> operands, Lazy<BitTrace> trace)
    {
        Datapath = datapath;
        Operands = operands;
        this.trace = trace;
    }

    public Datapath Datapath { get; }

    /// <summary>The operands' bits, in the order of the text.</summary>
    public IReadOnlyList<BigInteger> Operands { get; }

    public IReadOnlyList<Row> Rows { get; private init; } = [];

    /// <summary>The results' bits, in the order of the text.</summary>
    public IReadOnlyList<BigInteger> Results { get; private init; } = [];

    /// <summary>Whether the operands lie inside "given".</summary>
    public bool IsGiven { get; private init; }

    /// <summary>The laws inside "given", what is stated for operands outside it there; in the order of the text.</summary>
    public IReadOnlyList<JudgedClaim> Claims { get; private init; } = [];

    public bool Holds => Claims.All(c => c.Holds);

    /// <summary>What holds in every round, with the numbers it has here; null where it was not asked for.</summary>
    internal Holding? Holding { get; private init; }

    /// <summary>The same walk with what holds in every round beside its rows.</summary>
    internal Walk With(Holding holding) =>
        new(Datapath, Operands, trace)
        {
            Rows = Rows,
            Results = Results,
            IsGiven = IsGiven,
            Claims = Claims,
            Holding = holding,
        };

    public int Cycles => Rows.Count - 1;

    /// <summary>Where the bits of its rows come from; run for it when first asked, unless the walk was traced.</summary>
    internal BitTrace Trace => trace.Value;

    /// <summary>Whether that has been found.</summary>
    internal bool IsTraced => trace.IsValueCreated;

    /// <param name="operands">Bits of each operand's width, from 0 to 2^width - 1, in the order of the text.</param>
    /// <exception cref="ArgumentException">Another number of operands, or bits beyond an operand's width.</exception>
    public static Walk Of(Datapath datapath, IReadOnlyList<BigInteger> operands)
    {
        var own = Checked(datapath, operands);
        return Of(datapath, own, WalkRun.Of(datapath, own), null);
    }

    /// <summary>The same, with the places that its bits come from found in the same run: for figures.</summary>
    /// <inheritdoc cref="Of(Datapath, IReadOnlyList{BigInteger})"/>
    public static Walk Traced(Datapath datapath, IReadOnlyList<BigInteger> operands)
    {
        var own = Checked(datapath, operands);
        var (run, trace) = WalkRun.Traced(datapath, own);
        return Of(datapath, own, run, trace);
    }

    /// <summary>A list of its own: what the caller does to theirs afterwards is not this walk's.</summary>
    private static ReadOnlyCollection<BigInteger> Checked(Datapath datapath, IReadOnlyList<BigInteger> operands)
    {
        ArgumentNullException.ThrowIfNull(datapath);
        ArgumentNullException.ThrowIfNull(operands);
        var own = Array.AsReadOnly([.. operands]);
        WordRange.Check(own, [.. datapath.Operands.Select(o => (o.Name, o.Width))], nameof(operands));
        return own;
    }

    private static Walk Of(Datapath datapath, IReadOnlyList<BigInteger> operands, WalkRun run, BitTrace? trace)
    {
        var given = datapath.IsGiven(operands);
        var claims = (given ? datapath.Laws : datapath.Outside).Select(c => JudgedClaim.Of(c, operands, run.Results));
        var known = trace is null
            ? new Lazy<BitTrace>(() => WalkRun.Traced(datapath, operands).Trace)
            : new Lazy<BitTrace>(trace);
        return new Walk(datapath, operands, known)
        {
            Rows = run.Rows,
            Results = run.Results,
            IsGiven = given,
            Claims = Array.AsReadOnly([.. claims]),
        };
    }
}
