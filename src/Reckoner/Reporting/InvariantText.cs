using Reckoner.Numbers;
using Reckoner.Proving;

namespace Reckoner.Reporting;

/// <summary>Forms as formulas one would write on a board: every part on the side where it is added, powers of 2 together.</summary>
internal static class InvariantText
{
    public static string Of(Fact fact, Variables variables)
    {
        var form = fact.IsEquation ? Led(fact.Form, variables) : fact.Form;
        var added = Parts(form, variables, sign: 1);
        var taken = Parts(form, variables, sign: -1);
        if (fact.IsEquation)
        {
            return added.Count == 0 ? $"{Sum(taken)} = 0" : $"{Sum(added)} = {Sum(taken)}";
        }
        // A number that is taken away stands behind what it is taken from: x <= y - 1.
        var constant = form.Constant;
        if (constant.Sign < 0)
        {
            taken.RemoveAt(taken.Count - 1);
            return constant == -1 ? $"{Sum(taken)} < {Sum(added)}" : $"{Sum(taken)} <= {Sum(added)} - {-constant}";
        }
        return $"{Sum(taken)} <= {Sum(added)}";
    }

    private static string Sum(IReadOnlyList<string> parts) => parts.Count == 0 ? "0" : string.Join(" + ", parts);

    /// <summary>An equation with the factor 1 at a bare operand, or else at its first part.</summary>
    private static Form Led(Form form, Variables variables)
    {
        var lead = form
            .Parts.OrderByDescending(p => p.Product.Degree == 1 && variables.IsOperand(p.Product.Variables.First()))
            .ThenByDescending(p => p.Product.Degree == 1)
            .ThenBy(p => p.Product.Factors)
            .First();
        var scaled = form.Times(new Monomial(-lead.Product.N, -lead.Product.I, 0), -1 / lead.Factor);
        return scaled;
    }

    /// <summary>Products first, a bare number last.</summary>
    private static List<string> Parts(Form form, Variables variables, int sign) =>
        [
            .. form
                .Parts.Where(p => p.Factor.Sign == sign)
                .OrderBy(p => p.Product.Factors == 0)
                .ThenByDescending(p => p.Product.Degree)
                .ThenBy(p => p.Product.N == 0 && p.Product.I == 0)
                .ThenBy(p => p.Product.Factors)
                .Select(p => Product(p.Product, Rational.Abs(p.Factor), variables)),
        ];

    private static string Product(Monomial monomial, Rational factor, Variables variables)
    {
        var (number, power) = (factor, Extent.Zero);
        if (monomial.N != 0 || monomial.I != 0)
        {
            var twos = Twos(factor);
            number = factor * Rational.Power(2, -twos);
            power = new Extent(monomial.N, monomial.I, twos);
        }
        var parts = new List<string>();
        if (number != 1 || (power == Extent.Zero && monomial.Factors == 0))
        {
            parts.Add(number.ToString());
        }
        if (power != Extent.Zero)
        {
            var text = power.ToString();
            parts.Add(text.All(char.IsLetter) ? $"2^{text}" : $"2^({text})");
        }
        parts.AddRange(
            monomial
                .Variables.OrderBy(variables.IsOperand)
                .ThenBy(v => v)
                .GroupBy(v => v)
                .Select(v => Name(variables[v.Key]) + (v.Count() > 1 ? $"^{v.Count()}" : ""))
        );
        return string.Join(" * ", parts);
    }

    private static int Twos(Rational factor) =>
        factor.IsWhole
            ? (int)System.Numerics.BigInteger.TrailingZeroCount(factor.Numerator)
            : -(int)System.Numerics.BigInteger.TrailingZeroCount(factor.Denominator);

    /// <summary>1 where a number is below 0, else 0, stands in brackets.</summary>
    private static string Name(string variable) =>
        variable.EndsWith("<0", StringComparison.Ordinal) ? $"[{variable[..^2]} < 0]" : variable;

    /// <summary>Which bits of its register a piece is.</summary>
    public static string Places(Piece piece) => $"{piece.Register.Name}[{piece.High}..{piece.Low}]";
}
