using System.Numerics;
using Reckoner.Numbers;

namespace Reckoner.Proving;

/// <summary>
/// Forms as formulas one would write on a board: every part on the side where it is added, powers of 2 together. On request with
/// the numbers of one state in the place of names and powers.
/// </summary>
internal sealed class InvariantText
{
    /// <summary>A power stands as a number up to this size.</summary>
    private const int LargestWrittenOut = 24;

    private readonly Variables variables;
    private readonly ExactState? state;

    private InvariantText(Variables variables, ExactState? state)
    {
        this.variables = variables;
        this.state = state;
    }

    public static string Of(Fact fact, Variables variables) => new InvariantText(variables, null).Text(fact);

    /// <summary>32 * 0 * 6 + 29 = 29 for 2^(n-i) * Q * divisor + R = dividend.</summary>
    public static string WithNumbers(Fact fact, Variables variables, ExactState state) =>
        new InvariantText(variables, state).Text(fact);

    private string Text(Fact fact)
    {
        var form = fact.IsEquation && !fact.Form.IsZero ? Led(fact.Form) : fact.Form;
        var added = Parts(form, sign: 1);
        var taken = Parts(form, sign: -1);
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
    private Form Led(Form form)
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
    private List<string> Parts(Form form, int sign) =>
        [
            .. form
                .Parts.Where(p => p.Factor.Sign == sign)
                .OrderBy(p => p.Product.Factors == 0)
                .ThenByDescending(p => p.Product.Degree)
                .ThenBy(p => p.Product.N == 0 && p.Product.I == 0)
                .ThenBy(p => p.Product.Factors)
                .Select(p => Product(p.Product, Rational.Abs(p.Factor))),
        ];

    private string Product(Monomial monomial, Rational factor)
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
            parts.Add(Power(power));
        }
        parts.AddRange(
            monomial
                .Variables.OrderBy(variables.IsOperand)
                .ThenBy(v => v)
                .GroupBy(v => v)
                .Select(v => Name(v.Key) + (v.Count() > 1 ? $"^{v.Count()}" : ""))
        );
        return string.Join(" * ", parts);
    }

    private string Power(Extent power)
    {
        if (state is null)
        {
            var text = power.ToString();
            return text.All(char.IsLetter) ? $"2^{text}" : $"2^({text})";
        }
        var exponent = power.At(state.N, state.I);
        return Math.Abs(exponent) <= LargestWrittenOut ? Rational.Power(2, exponent).ToString() : $"2^{exponent}";
    }

    private static int Twos(Rational factor) =>
        factor.IsWhole
            ? (int)BigInteger.TrailingZeroCount(factor.Numerator)
            : -(int)BigInteger.TrailingZeroCount(factor.Denominator);

    /// <summary>1 where a number is below 0, else 0, stands in brackets.</summary>
    private string Name(int variable) =>
        state is not null ? Number(state[variable])
        : variables[variable] is var name && name.EndsWith("<0", StringComparison.Ordinal) ? $"[{name[..^2]} < 0]"
        : name;

    private static string Number(BigInteger number) => number.Sign < 0 ? $"({Bits.Text(number)})" : Bits.Text(number);

    /// <summary>Which bits of its register a piece is.</summary>
    public static string Places(Piece piece) => $"{piece.Register.Name}[{piece.High}..{piece.Low}]";
}
