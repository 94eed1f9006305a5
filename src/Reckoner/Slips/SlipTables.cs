using System.Numerics;
using Reckoner.Binding;
using Reckoner.Checking;
using Reckoner.Conditions;
using Reckoner.Datapaths;

namespace Reckoner.Slips;

/// <summary>What the cases show of a slip that can be built.</summary>
/// <param name="Exposed">How many cases expose it, corners beside a sample not counted.</param>
/// <param name="Fitting">Conditions that are so exactly for those.</param>
internal sealed record TriedSlip(
    Slip Slip,
    Datapath Datapath,
    long Exposed,
    BigInteger[]? Smallest,
    bool SameGates,
    IReadOnlyList<Condition> Fitting
);

/// <summary>
/// The cases on which the slips of a machine are tried, some slips after the others, so that neither their gates nor the bits of
/// their cases are all there at once.
/// </summary>
internal sealed class SlipTables
{
    /// <summary>Slips share a graph, and with it what they have in common, until it has so many gates.</summary>
    public const int GatesAtOnce = 1 << 20;

    /// <summary>Together they keep no more than some hundred million bits of cases.</summary>
    private const int SlipsAtOnce = 512;

    /// <summary>Nor more hardware than this.</summary>
    private const long MomentsAtOnce = 1 << 15;

    private readonly Datapath datapath;
    private readonly IPlaneEngine engine;
    private readonly CaseTable table;
    private readonly CaseTable? corners;
    private readonly ConditionSearch search;
    private readonly long most;

    /// <param name="slipsAtOnce">So many are tried together at most.</param>
    public SlipTables(
        Datapath datapath,
        IPlaneEngine engine,
        IReadOnlyList<BigInteger[]>? sample,
        bool withConditions,
        int slipsAtOnce = SlipsAtOnce
    )
    {
        (this.datapath, this.engine, HasConditions) = (datapath, engine, withConditions);
        most = Math.Clamp(MomentsAtOnce / Math.Max(1, datapath.Moments), 1, slipsAtOnce);
        table = sample is null ? CaseTable.All(datapath) : CaseTable.Of(datapath, sample);
        corners = sample is null ? null : CaseTable.Of(datapath, OperandCorners.Crossed(datapath));
        var right = MachineGates.Of(datapath);
        var conditions = withConditions ? new ShortConditions(right).All() : [];
        var bits = table.Run(PlaneProgram.Of(right.Graph, [right.Given, .. conditions.Select(c => c.Literal)]), engine);
        search = new ConditionSearch(conditions.Zip(bits.Skip(1), (c, b) => (c.Condition, b)), bits[0]);
        Cases = CaseTable.Count(bits[0]);
    }

    public bool HasConditions { get; }

    /// <summary>Cases inside "given".</summary>
    public long Cases { get; }

    public bool IsExhaustive => table.IsExhaustive;

    /// <summary>Tries the next few slips, those that can be built at these widths.</summary>
    /// <param name="at">Where they begin; then the first that was not looked at.</param>
    public IReadOnlyList<TriedSlip> Try(IReadOnlyList<Slip> slips, ref int at, Pace pace)
    {
        var right = MachineGates.Of(datapath);
        var built = new List<(Slip Slip, Datapath Datapath, int Exposed)>();
        while (at < slips.Count && built.Count < most && right.Graph.Gates.Count < GatesAtOnce)
        {
            pace.MayGoOn();
            var slip = slips[at++];
            if (SlipStudy.Built(datapath, slip) is { } slipped)
            {
                built.Add((slip, slipped, SlipStudy.Exposing(right, slipped)));
            }
        }
        var program = PlaneProgram.Of(right.Graph, [.. built.Select(b => b.Exposed)]);
        var bits = table.Run(program, engine);
        var cornerBits = corners?.Run(program, engine);
        return
        [
            .. built.Select(
                (b, i) =>
                    new TriedSlip(
                        b.Slip,
                        b.Datapath,
                        CaseTable.Count(bits[i]),
                        Smaller(table.First(bits[i]), corners?.First(cornerBits![i])),
                        b.Exposed == GateGraph.Zero,
                        search.Exactly(bits[i])
                    )
            ),
        ];
    }

    private BigInteger[]? Smaller(BigInteger[]? a, BigInteger[]? b) =>
        a is null || b is null ? a ?? b
        : Rank.Of(datapath.Operands, a) <= Rank.Of(datapath.Operands, b) ? a
        : b;
}
