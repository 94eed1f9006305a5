using System.Numerics;
using Reckoner.Claims;
using Reckoner.Datapaths;
using Reckoner.Execution;
using Reckoner.Numbers;

namespace Reckoner.Proving;

/// <summary>Operands for which a claim does not hold, and what comes out.</summary>
internal sealed record Failing(
    Datapath Datapath,
    int Width,
    IReadOnlyList<BigInteger> Operands,
    IReadOnlyList<BigInteger> Results
);

/// <summary>
/// Tries operands at every width of a machine up to one, the small widths first: those at the ends of their ranges and some between.
/// What holds for all of them may be wrong; what fails is.
/// </summary>
internal static class Trials
{
    /// <summary>One place more than the words of most machines: counters of six bits have come round.</summary>
    private const int WidestTried = 66;
    private const int WidthsAlwaysTried = 6;
    private const int DrawnEach = 24;
    private const int CornersEach = 81;

    /// <summary>So many bits of operands together, and all of them are tried.</summary>
    private const int FewBits = 8;

    /// <summary>The smallest width at which operands of one kind were found for which a claim fails, and the first that were.</summary>
    /// <param name="claims">Places among the claims of that kind.</param>
    /// <param name="isSpent">Whether no further width is to be tried; the first few always are.</param>
    /// <returns>For each place; null where none were found.</returns>
    public static Dictionary<int, Failing> Of(
        IMachine machine,
        bool isInside,
        IReadOnlyList<int> claims,
        Func<bool> isSpent
    )
    {
        var found = new Dictionary<int, Failing>();
        foreach (var (width, tried) in Widths(machine).Select((w, tried) => (w, tried)))
        {
            if (claims.All(found.ContainsKey) || (tried >= WidthsAlwaysTried && isSpent()))
            {
                break;
            }
            var name = machine.Widths.First().Name.Text;
            if (machine.Built(new Dictionary<string, BigInteger> { [name] = width }) is { } datapath)
            {
                Try(datapath, width, isInside, claims, found);
            }
        }
        return found;
    }

    /// <summary>Whether at this width alone operands show that none of the claims of a kind holds.</summary>
    public static bool AllFail(Datapath datapath, bool isInside)
    {
        var claims = isInside ? datapath.Laws : datapath.Outside;
        var found = new Dictionary<int, Failing>();
        Try(datapath, 0, isInside, [.. Enumerable.Range(0, claims.Count)], found);
        return claims.Count > 0 && found.Count == claims.Count;
    }

    private static IEnumerable<int> Widths(IMachine machine) =>
        machine.Widths.ToList() is [var main] && WidthBound.Of(main) is var (low, high)
            ? Enumerable.Range(Math.Max(low, 1), Math.Max(0, Math.Min(high, WidestTried) - Math.Max(low, 1) + 1))
            : [];

    private static void Try(
        Datapath datapath,
        int width,
        bool isInside,
        IReadOnlyList<int> claims,
        Dictionary<int, Failing> found
    )
    {
        var of = isInside ? datapath.Laws : datapath.Outside;
        foreach (var operands in Operands(datapath).Where(o => datapath.IsGiven(o) == isInside))
        {
            if (claims.All(found.ContainsKey))
            {
                return;
            }
            var results = Results(datapath, operands);
            foreach (var claim in claims.Where(c => !found.ContainsKey(c)))
            {
                if (!ClaimJudge.Holds(of[claim], operands, results))
                {
                    found[claim] = new(datapath, width, operands, results);
                }
            }
        }
    }

    /// <summary>The bits of the results.</summary>
    public static IReadOnlyList<BigInteger> Results(Datapath datapath, IReadOnlyList<BigInteger> operands)
    {
        var execution = new Execution<BigInteger>(new NumberWords(operands));
        execution.Load(datapath);
        execution.Run(datapath);
        return [.. datapath.Results.Select(r => execution.Word(r.Value))];
    }

    private static IEnumerable<BigInteger[]> Operands(Datapath datapath) =>
        datapath.Operands.Sum(o => o.Width) <= FewBits ? All(datapath) : Some(datapath, CornersEach);

    /// <summary>All operands, the small ones first; for narrow machines.</summary>
    public static IEnumerable<BigInteger[]> All(Datapath datapath) =>
        Products([
            .. datapath.Operands.Select(o => Enumerable.Range(0, 1 << o.Width).Select(b => (BigInteger)b).ToList()),
        ]);

    /// <summary>So many at the ends of their ranges, and some between.</summary>
    public static IEnumerable<BigInteger[]> Some(Datapath datapath, int corners)
    {
        var widths = datapath.Operands.Select(o => o.Width).ToList();
        var random = new Generator(3);
        return Drawn(random, widths.ConvertAll(Corners), corners)
            .Concat(Enumerable.Range(0, DrawnEach).Select(_ => widths.Select(w => Traces.Bits(random, w)).ToArray()));
    }

    /// <summary>All choices of one number of each list, or so many of them where there are more: of ten lists there are billions.</summary>
    private static IEnumerable<BigInteger[]> Drawn(Generator random, List<List<BigInteger>> lists, int count)
    {
        var all = lists.Aggregate(BigInteger.One, (product, list) => product * list.Count);
        return all <= Math.Max(count, CornersEach)
            ? random.Drawn([.. Products(lists)], (int)BigInteger.Min(all, count))
            : Enumerable.Range(0, count).Select(_ => lists.ConvertAll(l => l[random.Below(l.Count)]).ToArray());
    }

    private static List<BigInteger> Corners(int width)
    {
        var (half, all) = (BigInteger.One << (width - 1), BigInteger.One << width);
        return [.. new[] { 0, 1, 2, 3, half - 1, half, half + 1, all - 2, all - 1 }.Where(c => c < all).Distinct()];
    }

    /// <summary>Each number of each list with each of the others.</summary>
    private static IEnumerable<BigInteger[]> Products(IReadOnlyList<List<BigInteger>> lists) =>
        lists.Aggregate(
            (IEnumerable<BigInteger[]>)
                [
                    [],
                ],
            (sum, list) => sum.SelectMany(_ => list, (some, number) => (BigInteger[])[.. some, number])
        );
}
