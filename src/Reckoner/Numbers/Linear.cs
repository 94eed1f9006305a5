namespace Reckoner.Numbers;

/// <summary>
/// A width as it is spoken of: a sum of names with factors and a number, such as 2n - 1. What is not of that form (a rounded
/// quotient, a product of names) counts as one name.
/// </summary>
public sealed class Linear
{
    private readonly SortedDictionary<string, Rational> factors;
    private readonly Rational constant;

    private Linear(SortedDictionary<string, Rational> factors, Rational constant)
    {
        this.factors = factors;
        this.constant = constant;
    }

    public bool IsConstant => factors.Count == 0;

    /// <summary>What is added to the names.</summary>
    public Rational Constant => constant;

    public static Linear Of(Rational constant) => new(new(StringComparer.Ordinal), constant);

    public static Linear operator +(Linear a, Linear b) => a.Plus(b, 1);

    public static Linear operator -(Linear a, Linear b) => a.Plus(b, -1);

    public Linear Times(Rational factor)
    {
        var scaled = Of(constant * factor);
        foreach (var (name, own) in factors)
        {
            scaled.Add(name, own * factor);
        }
        return scaled;
    }

    /// <summary>A name, or what counts as one.</summary>
    public static Linear Named(string name)
    {
        var atom = Of(0);
        atom.factors[name] = 1;
        return atom;
    }

    private Linear Plus(Linear other, Rational sign)
    {
        var sum = new Linear(new(factors, StringComparer.Ordinal), constant + other.constant * sign);
        foreach (var (name, factor) in other.factors)
        {
            sum.Add(name, factor * sign);
        }
        return sum;
    }

    private void Add(string name, Rational factor)
    {
        var sum = factors.TryGetValue(name, out var own) ? own + factor : factor;
        if (sum.Sign == 0)
        {
            factors.Remove(name);
        }
        else
        {
            factors[name] = sum;
        }
    }

    public override string ToString()
    {
        var terms = factors.Select(f => (f.Value.Sign, Term(f.Key, Rational.Abs(f.Value)))).ToList();
        if (constant.Sign != 0 || terms.Count == 0)
        {
            terms.Add((constant.Sign, Rational.Abs(constant).ToString()));
        }
        terms = [.. terms.OrderBy(t => t.Item1 < 0)];
        var first = terms[0].Item1 < 0 ? "-" + terms[0].Item2 : terms[0].Item2;
        return first + string.Concat(terms.Skip(1).Select(t => (t.Item1 < 0 ? " - " : " + ") + t.Item2));
    }

    private static string Term(string name, Rational factor)
    {
        var isName = name.All(c => char.IsLetterOrDigit(c) || c == '_');
        var scaled =
            factor.Numerator.IsOne ? name
            : isName ? factor.Numerator + name
            : $"{factor.Numerator} * {name}";
        return factor.IsWhole ? scaled : $"{scaled}/{factor.Denominator}";
    }
}
