using System.Numerics;
using Reckoner.Binding;
using Reckoner.Notation;
using Reckoner.Numbers;

namespace Reckoner.Proving;

/// <summary>The ends of the range of a width, as numbers that one can count with.</summary>
internal static class WidthBound
{
    /// <summary>Beyond all that is built; what lies further out counts as this.</summary>
    public const int Most = 1 << 30;

    /// <summary>From -<see cref="Most"/> to <see cref="Most"/>; null where it is no whole number.</summary>
    public static int? Of(Expression formula, IReadOnlyDictionary<string, Rational> numbers) =>
        FormulaBinding.Number(formula, numbers) is { IsWhole: true } bound
            ? (int)BigInteger.Clamp(bound.Numerator, -Most, Most)
            : null;

    /// <summary>Both ends, which are formulas without names; null where there is nothing between them.</summary>
    public static (int Low, int High)? Of(WidthLine width)
    {
        var none = new Dictionary<string, Rational>();
        return Of(width.Low, none) is { } low && Of(width.High, none) is { } high && low <= high ? (low, high) : null;
    }
}
