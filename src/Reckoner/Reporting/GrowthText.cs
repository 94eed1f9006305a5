using System.Globalization;
using Reckoner.Costing;
using Reckoner.Numbers;
using Reckoner.Words;

namespace Reckoner.Reporting;

/// <summary>Like what a sum grows, as a formula, and numbers that are no whole ones.</summary>
internal static class GrowthText
{
    public static string SumKey(CostSum sum) =>
        sum switch
        {
            CostSum.Area => "cost.area",
            CostSum.Clock => "cost.clock",
        };

    public static string Formula(Growth growth, string width, Vocabulary words)
    {
        var anyway = Three(Math.Abs(growth.Anyway), words);
        if (growth.Law == GrowthLaw.Constant)
        {
            return anyway;
        }
        var law = $"{Three(growth.Factor, words)} {Law(growth.Law, width)}";
        return anyway == "0" ? law : $"{law} {(growth.Anyway < 0 ? "-" : "+")} {anyway}";
    }

    private static string Law(GrowthLaw law, string width) =>
        law switch
        {
            GrowthLaw.Constant => "",
            GrowthLaw.Logarithm => $"log2({width})",
            GrowthLaw.Linear => width,
            GrowthLaw.LinearLogarithm => $"{width} log2({width})",
            GrowthLaw.Square => $"{width}^2",
        };

    /// <summary>A number in three digits that mean something, those before the point all of them.</summary>
    public static string Three(double number, Vocabulary words)
    {
        var places = number < 1e-9 ? 0 : Math.Clamp(2 - (int)Math.Floor(Math.Log10(number)), 0, 3);
        var text = number.ToString($"F{places}", CultureInfo.InvariantCulture);
        return words.Decimal(places == 0 ? text : text.TrimEnd('0').TrimEnd('.'));
    }

    public static string Three(Rational number, Vocabulary words) =>
        Three((double)number.Numerator / (double)number.Denominator, words);
}
