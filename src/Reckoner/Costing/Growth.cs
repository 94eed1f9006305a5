namespace Reckoner.Costing;

/// <summary>Laws of growth that are tried, by the width n; logarithms are to base 2.</summary>
internal enum GrowthLaw
{
    /// <summary>It does not grow.</summary>
    Constant,
    Logarithm,
    Linear,
    LinearLogarithm,
    Square,
}

/// <summary>
/// How something grows with the width: the law that comes nearest over all widths, times a factor, and what is there anyway. Without
/// that last part 2 n + 7 looks like a logarithm over a few widths.
/// </summary>
/// <param name="Deviation">By how much, as a share of what is so, it is missed at most.</param>
internal readonly record struct Growth(GrowthLaw Law, double Factor, double Anyway, double Deviation)
{
    /// <summary>Fewer widths than this fit nearly everything.</summary>
    public const int Fewest = 5;

    /// <summary>Null where there are too few different widths, or one below 2, of which the logarithm says nothing.</summary>
    public static Growth? Of(IReadOnlyList<(int Width, long Value)> points) =>
        points.DistinctBy(p => p.Width).Count() < Fewest || points.Any(p => p.Width < 2 || p.Value <= 0)
            ? null
            : Enum.GetValues<GrowthLaw>().Select(law => Fitted(law, points)).MinBy(g => g.Deviation);

    /// <summary>Least squares of the relative deviations.</summary>
    private static Growth Fitted(GrowthLaw law, IReadOnlyList<(int Width, long Value)> points)
    {
        double ones = 0,
            laws = 0,
            squares = 0,
            values = 0,
            products = 0;
        foreach (var (width, value) in points)
        {
            var (at, weight) = (At(law, width), 1.0 / ((double)value * value));
            ones += weight;
            laws += weight * at;
            squares += weight * at * at;
            values += weight * value;
            products += weight * at * value;
        }
        var factor =
            law == GrowthLaw.Constant ? 0 : ((ones * products) - (laws * values)) / ((ones * squares) - (laws * laws));
        var anyway = (values - (factor * laws)) / ones;
        var deviation = points.Max(p => Math.Abs(new Growth(law, factor, anyway, 0).Says(p.Width) - p.Value) / p.Value);
        // What is left by the arithmetic of fractions is nothing.
        return new Growth(law, factor, anyway, deviation < 1e-9 ? 0 : deviation);
    }

    /// <summary>What it says for a width.</summary>
    public double Says(int width) => (Factor * At(Law, width)) + Anyway;

    internal static double At(GrowthLaw law, int width) =>
        law switch
        {
            GrowthLaw.Constant => 1,
            GrowthLaw.Logarithm => Math.Log2(width),
            GrowthLaw.Linear => width,
            GrowthLaw.LinearLogarithm => width * Math.Log2(width),
            GrowthLaw.Square => (double)width * width,
        };
}

/// <summary>What of a machine's cost is followed over its widths; the time is the clock times the cycles.</summary>
internal enum CostSum
{
    Area,
    Clock,
}

internal static class Growths
{
    /// <summary>Of one machine at several widths, like what its sums grow; none where machines differ or widths are too few.</summary>
    public static IReadOnlyList<(CostSum Of, Growth Growth)> Of(IReadOnlyList<MachineCost> costs) =>
        Varying(costs) is not { } varying
            ? []
            :
            [
                .. Enum.GetValues<CostSum>()
                    .Select(sum =>
                        (
                            Of: sum,
                            Growth: Growth.Of([
                                .. costs.Select(c => ((int)c.Datapath.Widths[varying].Value, Value(c, sum))),
                            ])
                        )
                    )
                    .Where(g => g.Growth is not null)
                    .Select(g => (g.Of, g.Growth!.Value)),
            ];

    /// <summary>Which of a machine's widths and parameters the costs differ in, if it is one machine and one of them.</summary>
    public static int? Varying(IReadOnlyList<MachineCost> costs)
    {
        var first = costs[0].Datapath;
        if (
            costs.Any(c =>
                c.Datapath.Machine.Hash != first.Machine.Hash || c.Datapath.Machine.Slip != first.Machine.Slip
            )
        )
        {
            return null;
        }
        var varying = Enumerable
            .Range(0, first.Widths.Count)
            .Where(i => costs.Any(c => c.Datapath.Widths[i].Value != first.Widths[i].Value))
            .ToList();
        return varying is [var only] ? only : null;
    }

    private static long Value(MachineCost cost, CostSum sum) =>
        sum switch
        {
            CostSum.Area => cost.Area,
            CostSum.Clock => cost.Clock,
        };
}
