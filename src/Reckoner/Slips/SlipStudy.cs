using System.Numerics;
using Reckoner.Checking;
using Reckoner.Datapaths;
using Reckoner.Running;
using Reckoner.Timelines;

namespace Reckoner.Slips;

/// <summary>What operands show of a slip.</summary>
/// <param name="Exposed">How many operands inside "given" give other results than the right machine.</param>
/// <param name="Smallest">The smallest of them; null when none does.</param>
/// <param name="Results">What the slip gives for them, as bits, and <paramref name="Right"/> what the right machine gives.</param>
/// <param name="PartsAt">The first cycle in which its registers differ from the right walk's; 0 is the load.</param>
/// <param name="When">A condition that is so exactly for the operands that expose it, if a short one was found.</param>
/// <param name="SameGates">For one that nothing exposes: its results are the very same gates of the operands.</param>
public sealed record StudiedSlip(
    Slip Slip,
    long Exposed,
    IReadOnlyList<BigInteger>? Smallest,
    IReadOnlyList<BigInteger>? Results,
    IReadOnlyList<BigInteger>? Right,
    int? PartsAt,
    Condition? When,
    bool SameGates
);

/// <summary>Every single slip of a machine at chosen widths, tried on all operands or a sample.</summary>
/// <param name="Cases">Operands inside "given" that were tried.</param>
/// <param name="IsExhaustive">Whether these are all; else shares are estimates.</param>
public sealed record SlipStudy(Datapath Datapath, long Cases, bool IsExhaustive, IReadOnlyList<StudiedSlip> Slips)
{
    /// <summary>So many operand bits are exhausted.</summary>
    public const int MostBits = 20;

    /// <param name="sample">Operands to try where they cannot be exhausted; null to exhaust.</param>
    public static SlipStudy Of(
        Datapath datapath,
        IPlaneEngine engine,
        IReadOnlyList<BigInteger[]>? sample,
        bool withConditions
    )
    {
        var widths = datapath.Widths.ToDictionary(w => w.Name, w => w.Value);
        var built = Slip.Of(datapath.Machine)
            .Select(s => (Slip: s, Datapath: s.Machine.Built(widths)))
            .Where(s => s.Datapath is not null && HasSameResults(datapath, s.Datapath))
            .ToList();
        var (graph, _, timeline, planes, given) = CheckProgram.Walked(datapath);
        var right = datapath.Results.Zip(timeline.Results).Select(r => planes[r.Second]).ToList();
        var operands = CheckProgram.OperandLiterals(datapath.Operands);
        var exposed = built.Select(s => graph.And(given, Differs(graph, s.Datapath!, operands, right))).ToList();
        var conditions = withConditions ? Condition.Candidates(datapath, graph, operands, right) : [];
        var outputs = exposed.Prepend(given).Concat(conditions.Select(c => c.Literal)).ToList();

        var table = sample is null ? CaseTable.All(datapath) : CaseTable.Of(datapath, sample);
        var bits = table.Run(PlaneProgram.Of(graph, outputs), engine);
        var search = new ConditionSearch(
            [.. conditions.Zip(bits.Skip(1 + exposed.Count), (c, b) => (c.Condition, b))],
            bits[0]
        );
        var slips = built.Select(
            (s, i) => Studied(s.Slip, s.Datapath!, datapath, table, bits[1 + i], exposed[i] == GateGraph.Zero, search)
        );
        return new SlipStudy(datapath, CaseTable.Count(bits[0]), table.IsExhaustive, [.. slips]);
    }

    private static bool HasSameResults(Datapath right, Datapath slipped) =>
        right.Results.Select(r => (r.Name, r.Width)).SequenceEqual(slipped.Results.Select(r => (r.Name, r.Width)));

    private static int Differs(GateGraph graph, Datapath slipped, List<int[]> operands, List<int[]> right)
    {
        var timeline = Timeline.Of(slipped);
        var planes = new Planes(graph, timeline.Graph, operands);
        return timeline
            .Results.Zip(right)
            .Aggregate(GateGraph.Zero, (any, r) => graph.Or(any, Planes.Differ(graph, planes[r.First], r.Second)));
    }

    private static StudiedSlip Studied(
        Slip slip,
        Datapath slipped,
        Datapath right,
        CaseTable table,
        ulong[] exposed,
        bool sameGates,
        ConditionSearch search
    )
    {
        if (table.First(exposed) is not { } smallest)
        {
            return new StudiedSlip(slip, 0, null, null, null, null, null, sameGates);
        }
        var (wrong, good) = (Walk.Of(slipped, smallest), Walk.Of(right, smallest));
        return new StudiedSlip(
            slip,
            CaseTable.Count(exposed),
            smallest,
            wrong.Results,
            good.Results,
            PartsAt(wrong, good),
            search.Exactly(exposed),
            false
        );
    }

    /// <summary>The first cycle after which a register holds other bits, or whose edge only one of the walks has.</summary>
    private static int? PartsAt(Walk wrong, Walk right)
    {
        for (var i = 0; i < Math.Max(wrong.Rows.Count, right.Rows.Count); i++)
        {
            if (
                i >= wrong.Rows.Count
                || i >= right.Rows.Count
                || !wrong.Rows[i].Registers.SequenceEqual(right.Rows[i].Registers)
            )
            {
                return i;
            }
        }
        return null;
    }
}
