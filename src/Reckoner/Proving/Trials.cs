using System.Numerics;
using Reckoner.Binding;
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
    private const int DrawnEach = 24;
    private const int CornersEach = 81;

    /// <summary>So many bits of operands together, and all of them are tried.</summary>
    private const int FewBits = 8;

    /// <summary>The smallest width at which operands of one kind were found for which a claim fails, and the first that were.</summary>
    /// <param name="claims">Places among the claims of that kind.</param>
    /// <returns>For each place; null where none were found.</returns>
    public static Dictionary<int, Failing> Of(IMachine machine, bool isInside, IReadOnlyList<int> claims)
    {
        var found = new Dictionary<int, Failing>();
        foreach (var width in Widths(machine))
        {
            if (claims.All(found.ContainsKey))
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

    private static IEnumerable<int> Widths(IMachine machine)
    {
        if (machine.Widths.ToList() is not [var main])
        {
            return [];
        }
        var none = new Dictionary<string, Rational>();
        int? Whole(Notation.Expression formula) =>
            FormulaBinding.Number(formula, none) is { IsWhole: true } number ? (int)number.Numerator : null;
        return Whole(main.Low) is { } low && Whole(main.High) is { } high
            ? Enumerable.Range(low, Math.Max(0, Math.Min(high, WidestTried) - low + 1))
            : [];
    }

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

    private static IReadOnlyList<BigInteger> Results(Datapath datapath, IReadOnlyList<BigInteger> operands)
    {
        var execution = new Execution<BigInteger>(new NumberWords(operands));
        execution.Load(datapath);
        execution.Run(datapath);
        return [.. datapath.Results.Select(r => execution.Word(r.Value))];
    }

    private static IEnumerable<BigInteger[]> Operands(Datapath datapath)
    {
        var widths = datapath.Operands.Select(o => o.Width).ToList();
        if (widths.Sum() <= FewBits)
        {
            return Products(widths.ConvertAll(w => Enumerable.Range(0, 1 << w).Select(b => (BigInteger)b).ToList()));
        }
        var random = new Generator(3);
        var corners = Products(widths.ConvertAll(Corners)).ToList();
        return random
            .Drawn(corners, Math.Min(corners.Count, CornersEach))
            .Concat(Enumerable.Range(0, DrawnEach).Select(_ => widths.Select(w => Traces.Bits(random, w)).ToArray()));
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
