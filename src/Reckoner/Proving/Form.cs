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

    private readonly Part[] parts;
    private readonly int hash;
    private double[]? rough;

    private Form(Part[] parts)
    {
        this.parts = parts;
        foreach (var part in parts)
        {
            hash ^= HashCode.Combine(part.Product.GetHashCode(), part.Factor.GetHashCode());
        }
    }

    /// <summary>No two of the same product, none with the factor 0; in the order in which they came up.</summary>
    public IReadOnlyList<Part> Parts => parts;

    public IEnumerable<Monomial> Products => parts.Select(p => p.Product);

    public bool IsZero => parts.Length == 0;

    public bool IsConstant => parts.Length == 0 || (parts.Length == 1 && parts[0].Product == Monomial.One);

    /// <summary>The part without variables and powers.</summary>
    public Rational Constant => FactorOf(Monomial.One);

    /// <summary>0 where the product does not stand in it.</summary>
    public Rational FactorOf(Monomial product) =>
        At(parts, parts.Length, product) is >= 0 and var at ? parts[at].Factor : 0;

    public static implicit operator Form(int number) => Of(number);

    public static Form Of(Rational number) => Of(Monomial.One, number);

    public static Form Of(Monomial monomial, Rational factor) => factor.Sign == 0 ? Zero : new([new(monomial, factor)]);

    public static Form Variable(int variable) => Of(Monomial.Variable(variable), 1);

    /// <summary>2 to this power.</summary>
    public static Form Power(Extent exponent) => Of(Monomial.Power(exponent), Rational.Power(2, exponent.Constant));

    public static Form operator +(Form a, Form b) => Sum(a, b, 1);

    public static Form operator -(Form a, Form b) => Sum(a, b, -1);

    public static Form operator -(Form a) => a.Times(-1);

    public static Form operator *(Form a, Form b)
    {
        if (b.parts is [var only])
        {
            return a.Times(only.Product, only.Factor);
        }
        var product = new Collected(a.parts.Length * b.parts.Length);
        foreach (var x in a.parts)
        {
            foreach (var y in b.parts)
            {
                product.Add(x.Product * y.Product, x.Factor * y.Factor);
            }
        }
        return product.Form;
    }

    public Form Times(Rational factor) => Times(Monomial.One, factor);

    public Form Times(Monomial by, Rational factor)
    {
        if (factor.Sign == 0)
        {
            return Zero;
        }
        var product = new Part[parts.Length];
        for (var p = 0; p < product.Length; p++)
        {
            product[p] = new(parts[p].Product * by, factor == 1 ? parts[p].Factor : parts[p].Factor * factor);
        }
        return new(product);
    }

    private static Form Sum(Form a, Form b, int sign)
    {
        var sum = new Collected(a.parts, b.parts.Length);
        foreach (var (product, factor) in b.parts)
        {
            sum.Add(product, sign < 0 ? -factor : factor);
        }
        return sum.Form;
    }

    /// <summary>Parts that are added up; those of the same product become one.</summary>
    private ref struct Collected
    {
        private readonly Part[] parts;
        private int count;

        public Collected(int most) => parts = new Part[most];

        public Collected(Part[] first, int more)
        {
            parts = new Part[first.Length + more];
            first.CopyTo(parts, 0);
            count = first.Length;
        }

        public readonly Form Form => count == 0 ? Zero : new(count == parts.Length ? parts : parts[..count]);

        public void Add(Monomial product, Rational factor)
        {
            var at = At(parts, count, product);
            if (at < 0)
            {
                parts[count++] = new(product, factor);
                return;
            }
            var sum = parts[at].Factor + factor;
            if (sum.Sign != 0)
            {
                parts[at] = new(product, sum);
                return;
            }
            count--;
            Array.Copy(parts, at + 1, parts, at, count - at);
        }
    }

    /// <summary>Where a product stands; -1 where it does not. Forms are short.</summary>
    private static int At(Part[] parts, int count, Monomial product)
    {
        for (var p = 0; p < count; p++)
        {
            if (parts[p].Product == product)
            {
                return p;
            }
        }
        return -1;
    }

    public IEnumerable<int> Variables => parts.SelectMany(p => p.Product.Variables).Distinct();

    public bool Has(int variable)
    {
        foreach (var part in parts)
        {
            if (part.Product.Has(variable))
            {
                return true;
            }
        }
        return false;
    }

    /// <summary>The highest number of variables in a product.</summary>
    public int Degree
    {
        get
        {
            var degree = 0;
            foreach (var part in parts)
            {
                degree = Math.Max(degree, part.Product.Degree);
            }
            return degree;
        }
    }

    /// <summary>
    /// What stands beside a variable, each product with one factor less, and the rest: this is variable * Beside + Others.
    /// </summary>
    public (Form Beside, Form Others) Apart(int variable) =>
        (
            new([
                .. parts
                    .Where(p => p.Product.Has(variable))
                    .Select(p => new Part(p.Product.Without(variable), p.Factor)),
            ]),
            new([.. parts.Where(p => !p.Product.Has(variable))])
        );

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
        foreach (var part in parts)
        {
            if (!part.Product.Variables.Any(values.ContainsKey))
            {
                sum += new Form([part]);
                continue;
            }
            var product = Of(part.Product with { Factors = 0 }, part.Factor);
            foreach (var variable in part.Product.Variables)
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
        var sum = new Collected(parts.Length);
        foreach (var (product, factor) in parts)
        {
            var power = rounds * product.I;
            sum.Add(new(product.N + power.N, power.I, product.Factors), factor * Rational.Power(2, power.Constant));
        }
        return sum.Form;
    }

    /// <summary>Its value where everything has a value; exact below 2^53.</summary>
    public double At(Instance instance)
    {
        rough ??= [.. parts.Select(p => p.Rough)];
        var sum = 0.0;
        for (var p = 0; p < rough.Length; p++)
        {
            var monomial = parts[p].Product;
            var product = Math.ScaleB(rough[p], monomial.N * instance.N + monomial.I * instance.I);
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
        && parts.Length == other.parts.Length
        && Array.TrueForAll(parts, p => other.FactorOf(p.Product) == p.Factor);

    public override bool Equals(object? obj) => Equals(obj as Form);

    public override int GetHashCode() => hash;
}

/// <summary>A product of variables and a power, with its factor.</summary>
internal sealed record Part(Monomial Product, Rational Factor)
{
    public double Rough => (double)Factor.Numerator / (double)Factor.Denominator;
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
