using Reckoner.Numbers;

namespace Reckoner.Proving;

/// <summary>
/// A number at every width at once: a sum of products of variables and powers 2^(a * n + b * i), with rational factors. Powers may
/// be negative; every variable stands for a whole number.
/// </summary>
internal sealed class Form : IEquatable<Form>
{
    public static readonly Form Zero = new([]);
    public static readonly Form One = Of(1);

    private readonly Dictionary<Monomial, Rational> parts;
    private readonly int hash;
    private (Monomial Monomial, double Factor)[]? rough;

    private Form(Dictionary<Monomial, Rational> parts)
    {
        this.parts = parts;
        foreach (var (monomial, factor) in parts)
        {
            hash ^= HashCode.Combine(monomial, factor);
        }
    }

    public IReadOnlyDictionary<Monomial, Rational> Parts => parts;

    public bool IsZero => parts.Count == 0;

    public bool IsConstant => parts.Count == 0 || (parts.Count == 1 && parts.ContainsKey(Monomial.One));

    /// <summary>The part without variables and powers.</summary>
    public Rational Constant => parts.GetValueOrDefault(Monomial.One);

    public static implicit operator Form(int number) => Of(number);

    public static Form Of(Rational number) => Of(Monomial.One, number);

    public static Form Of(Monomial monomial, Rational factor) =>
        factor.Sign == 0 ? Zero : new(new() { [monomial] = factor });

    public static Form Variable(int variable) => Of(Monomial.Variable(variable), 1);

    /// <summary>2 to this power.</summary>
    public static Form Power(Extent exponent) => Of(Monomial.Power(exponent), Rational.Power(2, exponent.Constant));

    public static Form operator +(Form a, Form b) => Sum(a, b, 1);

    public static Form operator -(Form a, Form b) => Sum(a, b, -1);

    public static Form operator -(Form a) => a.Times(-1);

    public static Form operator *(Form a, Form b)
    {
        var product = new Dictionary<Monomial, Rational>();
        foreach (var (x, f) in a.parts)
        {
            foreach (var (y, g) in b.parts)
            {
                Add(product, x * y, f * g);
            }
        }
        return new(product);
    }

    public Form Times(Rational factor) => Times(Monomial.One, factor);

    public Form Times(Monomial by, Rational factor)
    {
        var product = new Dictionary<Monomial, Rational>(parts.Count);
        if (factor.Sign != 0)
        {
            foreach (var (monomial, own) in parts)
            {
                product.Add(monomial * by, own * factor);
            }
        }
        return new(product);
    }

    private static Form Sum(Form a, Form b, int sign)
    {
        var sum = new Dictionary<Monomial, Rational>(a.parts);
        foreach (var (monomial, factor) in b.parts)
        {
            Add(sum, monomial, sign < 0 ? -factor : factor);
        }
        return new(sum);
    }

    private static void Add(Dictionary<Monomial, Rational> sum, Monomial monomial, Rational factor)
    {
        var left = sum.TryGetValue(monomial, out var own) ? own + factor : factor;
        if (left.Sign == 0)
        {
            sum.Remove(monomial);
        }
        else
        {
            sum[monomial] = left;
        }
    }

    public IEnumerable<int> Variables => parts.Keys.SelectMany(m => m.Variables).Distinct();

    public bool Has(int variable) => parts.Keys.Any(m => m.Has(variable));

    /// <summary>The highest number of variables in a product.</summary>
    public int Degree => parts.Count == 0 ? 0 : parts.Keys.Max(m => m.Degree);

    /// <summary>
    /// What stands beside a variable, each product with one factor less, and the rest: this is variable * Beside + Others.
    /// </summary>
    public (Form Beside, Form Others) Apart(int variable)
    {
        var (beside, rest) = (new Dictionary<Monomial, Rational>(), new Dictionary<Monomial, Rational>());
        foreach (var (monomial, factor) in parts)
        {
            if (monomial.Has(variable))
            {
                beside.Add(monomial.Without(variable), factor);
            }
            else
            {
                rest.Add(monomial, factor);
            }
        }
        return (new(beside), new(rest));
    }

    /// <summary>Another form in the place of a variable that does not stand in it.</summary>
    public Form With(int variable, Form value)
    {
        var form = this;
        while (form.Has(variable))
        {
            var (beside, rest) = form.Apart(variable);
            form = beside * value + rest;
        }
        return form;
    }

    public Form With(IReadOnlyDictionary<int, Form> values)
    {
        if (values.Count == 0 || !Variables.Any(values.ContainsKey))
        {
            return this;
        }
        var sum = Zero;
        foreach (var (monomial, factor) in parts)
        {
            var product = Of(monomial with { Factors = 0 }, factor);
            foreach (var variable in monomial.Variables)
            {
                product *= values.TryGetValue(variable, out var value) ? value : Variable(variable);
            }
            sum += product;
        }
        return sum;
    }

    /// <summary>The same after so many rounds.</summary>
    public Form AtRound(Extent rounds)
    {
        var sum = new Dictionary<Monomial, Rational>();
        foreach (var (monomial, factor) in parts)
        {
            var power = rounds * monomial.I;
            Add(sum, new(monomial.N + power.N, power.I, monomial.Factors), factor * Rational.Power(2, power.Constant));
        }
        return new(sum);
    }

    /// <summary>Its value where everything has a value; exact below 2^53.</summary>
    public double At(Instance instance)
    {
        rough ??= [.. parts.Select(p => (p.Key, (double)p.Value.Numerator / (double)p.Value.Denominator))];
        var sum = 0.0;
        foreach (var (monomial, factor) in rough)
        {
            var product = Math.ScaleB(factor, monomial.N * instance.N + monomial.I * instance.I);
            for (var rest = monomial.Factors; rest != 0; rest <<= 16)
            {
                product *= instance[(int)(rest >> 48)];
            }
            sum += product;
        }
        return sum;
    }

    public bool Equals(Form? other) =>
        other is not null
        && hash == other.hash
        && parts.Count == other.parts.Count
        && parts.All(p => other.parts.TryGetValue(p.Key, out var factor) && factor == p.Value);

    public override bool Equals(object? obj) => Equals(obj as Form);

    public override int GetHashCode() => hash;
}

/// <summary>One state that was met: a width, the rounds done, and a number for every variable.</summary>
internal sealed class Instance(int n, int i)
{
    private double[] values = new double[16];

    public int N { get; } = n;
    public int I { get; } = i;

    public double this[int variable]
    {
        get => variable < values.Length ? values[variable] : 0;
        set
        {
            if (variable >= values.Length)
            {
                Array.Resize(ref values, Math.Max(2 * values.Length, variable + 1));
            }
            values[variable] = value;
        }
    }

    /// <summary>The same numbers, to be gone on from apart.</summary>
    public Instance Copy(int n, int i)
    {
        var copy = new Instance(n, i) { values = [.. values] };
        return copy;
    }
}
