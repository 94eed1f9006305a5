using Reckoner.Costing;
using Reckoner.Numbers;

namespace Reckoner.Reporting;

/// <summary>Sums of a cost as they stand in tables; a range where loops may stop early.</summary>
internal static class CostText
{
    public static string Cycles(MachineCost cost) => Range(cost.Cycles.Least, cost.Cycles.Most);

    public static string Time(MachineCost cost) => Range(cost.Time.Least, cost.Time.Most);

    private static string Range(long least, long most) =>
        least == most ? Bits.Text(most) : $"{Bits.Text(least)}..{Bits.Text(most)}";
}
