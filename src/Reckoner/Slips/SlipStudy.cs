using System.Numerics;
using Reckoner.Checking;
using Reckoner.Conditions;
using Reckoner.Datapaths;
using Reckoner.Running;

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
)
{
    /// <summary>Whether the laws hold with it at every width; null where that was not asked, or operands expose it.</summary>
    public SlipEverywhere? Everywhere { get; init; }

    /// <summary>Whether the condition is also exact at the next width; null when that was not or could not be asked.</summary>
    public bool? HoldsNext { get; init; }
}

/// <summary>What is known of a slip that nothing exposes at one width for every other.</summary>
/// <param name="IsProved">Whether the laws hold with it for every operand at every width, proved and verified.</param>
/// <param name="WrongAt">The hardware at the least width at which operands were found for which a law fails; null for none.</param>
/// <param name="WrongFor">These operands, as bits, and <paramref name="Results"/> what comes out; empty for none.</param>
public sealed record SlipEverywhere(
    bool IsProved,
    Datapath? WrongAt,
    IReadOnlyList<BigInteger> WrongFor,
    IReadOnlyList<BigInteger> Results
);

/// <summary>Every single slip of a machine at chosen widths, tried on all operands or a sample.</summary>
/// <param name="Cases">Operands inside "given" that were tried, corners besides a sample not counted.</param>
/// <param name="IsExhaustive">Whether these are all; else shares are estimates.</param>
public sealed record SlipStudy(Datapath Datapath, long Cases, bool IsExhaustive, IReadOnlyList<StudiedSlip> Slips)
{
    /// <summary>So many operand bits are exhausted.</summary>
    public const int MostBits = 20;

    /// <summary>At the next width nothing is listed, so more operands can be exhausted.</summary>
    private const int MoreBits = 2;

    /// <summary>The next width, at which the conditions were compared again; null when it was not asked or there is none.</summary>
    public IReadOnlyList<(string Name, BigInteger Value)>? Next { get; private init; }

    /// <summary>Operands drawn for a sample, inside "given" or not.</summary>
    public long Drawn { get; private init; }

    /// <param name="sample">
    /// Operands drawn evenly where they cannot be exhausted (<see cref="SlipSample"/>); corners are tried besides. Null to exhaust.
    /// </param>
    /// <param name="pace">Told how many slips are tried.</param>
    /// <exception cref="OperationCanceledException">It was stopped.</exception>
    internal static SlipStudy Of(
        Datapath datapath,
        IPlaneEngine engine,
        IReadOnlyList<BigInteger[]>? sample,
        bool withConditions,
        Pace? pace = null
    )
    {
        var tables = new SlipTables(datapath, engine, sample, withConditions && sample is null);
        var next = tables.HasConditions ? NextWidth.Of(datapath, MostBits + MoreBits) : null;
        var slips = new List<StudiedSlip>();
        // Many slips are exposed by the same smallest operands.
        (BigInteger[] Operands, Walk Walk)? last = null;
        var asked = Slip.Of(datapath.Machine);
        for (var at = 0; at < asked.Count; )
        {
            var tried = tables.Try(asked, ref at, pace ?? Pace.Alone);
            var verdicts = Verdicts(next, [.. tried.Select(t => (t.Slip, t.Fitting))], engine);
            slips.AddRange(
                tried.Zip(verdicts, (t, v) => Studied(t, Right) with { When = v.When, HoldsNext = v.HoldsNext })
            );
            pace?.Tell?.Invoke(at);
        }
        return new SlipStudy(datapath, tables.Cases, tables.IsExhaustive, slips)
        {
            Next = next?.Widths,
            Drawn = sample?.Count ?? 0,
        };

        Walk Right(BigInteger[] operands)
        {
            if (last is not var (known, walk) || !known.AsSpan().SequenceEqual(operands))
            {
                walk = Walk.Of(datapath, operands);
                last = (operands, walk);
            }
            return walk;
        }
    }

    /// <summary>Of the conditions that fit, the first that fits at the next width too, else the first, with whether it does.</summary>
    private static List<(Condition? When, bool? HoldsNext)> Verdicts(
        Datapath? next,
        IReadOnlyList<(Slip Slip, IReadOnlyList<Condition> Conditions)> fitting,
        IPlaneEngine engine
    )
    {
        var asked = next is null ? [] : fitting.Where(f => f.Conditions.Count > 0).ToList();
        var holding = next is null ? [] : NextWidth.Holding(next, asked, engine);
        var known = asked.Zip(holding).ToDictionary(a => a.First.Slip, a => a.Second);
        return
        [
            .. fitting.Select(f =>
            {
                var holds = known.GetValueOrDefault(f.Slip)?.ToList();
                var lasting = holds?.IndexOf(true) ?? -1;
                return (
                    f.Conditions.ElementAtOrDefault(Math.Max(lasting, 0)),
                    holds is null ? null : (bool?)(lasting >= 0)
                );
            }),
        ];
    }

    /// <summary>Every slip that can be built at the widths of a machine and has its results.</summary>
    internal static IReadOnlyList<(Slip Slip, Datapath Datapath)> Built(Datapath datapath) =>
        [
            .. from slip in Slip.Of(datapath.Machine)
            let built = Built(datapath, slip)
            where built is not null
            select (slip, built),
        ];

    /// <summary>A slip at the widths of a machine, if there it can be built and has the same results.</summary>
    internal static Datapath? Built(Datapath datapath, Slip slip) =>
        slip.Machine.Built(datapath.Widths.ToDictionary(w => w.Name, w => w.Value)) is { } built
        && HasSameResults(datapath, built)
            ? built
            : null;

    /// <summary>
    /// Whether hardware has no slip or one that is listed at its widths: one whose results are as wide as the right machine's. For
    /// one that is not, the names of those that are.
    /// </summary>
    public static bool IsListed(Datapath datapath, out IReadOnlyList<string> listed)
    {
        listed = [];
        if (
            datapath.Machine.Right?.Built(datapath.Widths.ToDictionary(w => w.Name, w => w.Value)) is not { } right
            || HasSameResults(right, datapath)
        )
        {
            return true;
        }
        listed = [.. Built(right).Select(b => b.Slip.Name)];
        return false;
    }

    private static bool HasSameResults(Datapath right, Datapath slipped) =>
        right.Results.Select(r => (r.Name, r.Width)).SequenceEqual(slipped.Results.Select(r => (r.Name, r.Width)));

    /// <summary>Where operands inside "given" get other results from a slip than from the right machine.</summary>
    internal static int Exposing(MachineGates right, Datapath slipped) =>
        right.Graph.And(right.Given, right.Differs(right.Beside(slipped)));

    private static StudiedSlip Studied(TriedSlip tried, Func<BigInteger[], Walk> right)
    {
        if (tried.Smallest is not { } smallest)
        {
            return new StudiedSlip(tried.Slip, 0, null, null, null, null, null, tried.SameGates);
        }
        var (wrong, good) = (Walk.Of(tried.Datapath, smallest), right(smallest));
        return new StudiedSlip(
            tried.Slip,
            tried.Exposed,
            smallest,
            wrong.Results,
            good.Results,
            PartsAt(wrong, good),
            null,
            false
        );
    }

    /// <summary>
    /// The first cycle after which a register of the right machine holds other bits, or whose edge only one of the walks has.
    /// </summary>
    private static int? PartsAt(Walk wrong, Walk right)
    {
        var places = right
            .Datapath.Registers.Select(r => wrong.Datapath.Registers.First(w => w.Name == r.Name).Index)
            .ToList();
        for (var i = 0; i < Math.Max(wrong.Rows.Count, right.Rows.Count); i++)
        {
            if (
                i >= wrong.Rows.Count
                || i >= right.Rows.Count
                || !places.Select(p => wrong.Rows[i].Registers[p]).SequenceEqual(right.Rows[i].Registers)
            )
            {
                return i;
            }
        }
        return null;
    }
}
