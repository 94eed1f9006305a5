using System.Numerics;
using Reckoner.Numbers;

namespace Reckoner.Proving;

/// <summary>Shows that something follows from what is known on a path.</summary>
internal static class Goals
{
    private const int MostScales = 6;

    /// <summary>Null where it was not shown.</summary>
    public static GoalProof? Shown(Path path, Fact goal)
    {
        goal = goal with { Form = path.Plain(goal.Form) };
        if (goal.Plain is { } plain)
        {
            return plain ? GoalProof.Plain : null;
        }
        var scales = Scales(goal.Form, path.Region)
            .Concat(Scales(path.Knowledge.Reduced(goal.Form), path.Region))
            .Distinct()
            .Where(s => IsWhole(goal.Form * s, path.Region))
            .Take(MostScales)
            .ToList();
        var parts = new List<GoalPart>();
        foreach (var sign in goal.IsEquation ? new[] { 1, -1 } : [-1])
        {
            if (Part(path, goal.Form, sign, scales) is not { } part)
            {
                return null;
            }
            parts.Add(part);
        }
        return new GoalProof(parts);
    }

    /// <summary>Why a form cannot be 1 or more (or, negated, -1 or less) when scaled to be whole.</summary>
    private static GoalPart? Part(Path path, Form form, int sign, IReadOnlyList<Form> scales)
    {
        foreach (var scale in scales)
        {
            var assumed = Fact.NotNegative((form * scale).Times(sign) - Form.One);
            if (path.Knowledge.Refuted([assumed], Effort.Goal) is { } refutation)
            {
                return new GoalPart(scale, refutation);
            }
        }
        return null;
    }

    /// <summary>
    /// A positive number times a power that makes a form whole everywhere in a region and keeps its numbers small; null where none
    /// is found.
    /// </summary>
    public static Part? Scale(Form form, Region region) =>
        Scales(form, region).FirstOrDefault(s => IsWhole(form * s, region))?.Parts[0];

    /// <summary>Whether a form is a whole number at every width and round of a region.</summary>
    public static bool IsWhole(Form form, Region region) =>
        form.Parts.All(p =>
            PowerIn(p.Factor) is { } power && region.NeverNegative(new Extent(p.Product.N, p.Product.I, power))
        );

    /// <summary>The power of 2 in a number; null where another denominator is left.</summary>
    private static int? PowerIn(Rational number)
    {
        if (!number.IsWhole)
        {
            return number.Denominator.IsPowerOfTwo ? 1 - (int)number.Denominator.GetBitLength() : null;
        }
        return (int)BigInteger.TrailingZeroCount(number.Numerator);
    }

    /// <summary>Factors, a positive number times a power, that make a form whole and its numbers small.</summary>
    private static IEnumerable<Form> Scales(Form form, Region region)
    {
        if (form.IsConstant)
        {
            return [Form.One];
        }
        var (odd, common) = (BigInteger.One, BigInteger.Zero);
        foreach (var factor in form.Parts.Select(p => p.Factor))
        {
            odd = odd / BigInteger.GreatestCommonDivisor(odd, Odd(factor.Denominator)) * Odd(factor.Denominator);
        }
        foreach (var factor in form.Parts.Select(p => p.Factor))
        {
            common = BigInteger.GreatestCommonDivisor(common, Odd((factor * odd).Numerator));
        }
        var by = Rational.Ratio(odd, common);
        var powers = form
            .Parts.Select(p => new Extent(p.Product.N, p.Product.I, PowerIn(p.Factor * by)!.Value))
            .Distinct()
            .ToList();
        var lowest = powers.Where(p => powers.TrueForAll(other => region.NeverNegative(other - p))).ToList();
        if (lowest.Count == 0)
        {
            lowest.Add(
                new(
                    Math.Min(0, powers.Min(p => p.N)),
                    Math.Min(0, powers.Min(p => p.I)),
                    Math.Min(0, powers.Min(p => p.Constant))
                )
            );
        }
        return lowest.Select(p => Form.Power(-p).Times(by));
    }

    private static BigInteger Odd(BigInteger number)
    {
        number = BigInteger.Abs(number);
        return number >> (int)BigInteger.TrailingZeroCount(number);
    }
}
