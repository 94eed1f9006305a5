namespace Reckoner.Costing;

/// <summary>Laws of growth that are tried, by the width n; logarithms are to base 2.</summary>
internal enum GrowthLaw
{
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

    /// <summary>Null where there are too few widths, or one below 2, of which the logarithm says nothing.</summary>
    public static Growth? Of(IReadOnlyList<(int Width, long Value)> points) =>
        points.Count < Fewest || points.Any(p => p.Width < 2 || p.Value <= 0)
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
        var factor = ((ones * products) - (laws * values)) / ((ones * squares) - (laws * laws));
        var anyway = (values - (factor * laws)) / ones;
        var deviation = points.Max(p => Math.Abs((factor * At(law, p.Width)) + anyway - p.Value) / p.Value);
        // What is left by the arithmetic of fractions is nothing.
        return new Growth(law, factor, anyway, deviation < 1e-9 ? 0 : deviation);
    }

    internal static double At(GrowthLaw law, int width) =>
        law switch
        {
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
        costs.Any(c => c.Datapath.Machine.Name != costs[0].Datapath.Machine.Name)
            ? []
            :
            [
                .. Enum.GetValues<CostSum>()
                    .Select(sum => (sum, Growth.Of([.. costs.Select(c => (Width(c), Value(c, sum)))])))
                    .Where(g => g.Item2 is not null)
                    .Select(g => (g.sum, g.Item2!.Value)),
            ];

    private static int Width(MachineCost cost) => (int)cost.Datapath.Widths[0].Value;

    private static long Value(MachineCost cost, CostSum sum) =>
        sum switch
        {
            CostSum.Area => cost.Area,
            CostSum.Clock => cost.Clock,
        };
}
