using System.Numerics;

namespace Reckoner.Verifier;

/// <summary>2^(N * n + I * i) times variables, given by their names in order, each followed by a semicolon.</summary>
internal sealed record Product(int N, int I, string Variables)
{
    public static readonly Product One = new(0, 0, "");
}

/// <summary>A sum of products with factors; every variable stands for a whole number.</summary>
internal sealed class Poly
{
    public const int MostParts = 4000;
    private readonly Dictionary<Product, Fraction> parts;

    private Poly(Dictionary<Product, Fraction> parts) => this.parts = parts;

    public static Poly Zero { get; } = new([]);

    public static implicit operator Poly(int number) => Of(number);

    public static Poly Of(Fraction number) => Of(Product.One, number);

    public static Poly Variable(string name) => Of(new(0, 0, name + ";"), 1);

    public static Poly Of(Product product, Fraction factor) =>
        new(factor.Sign == 0 ? [] : new() { [product] = factor });

    /// <summary>2 to this power.</summary>
    public static Poly Power(Size size) => Of(new(size.N, size.I, ""), Fraction.PowerOfTwo(size.K));

    public IReadOnlyDictionary<Product, Fraction> Parts => parts;

    public bool IsZero => parts.Count == 0;

    /// <summary>Whether it is a positive number times a power of 2: what it is multiplied with keeps its sign.</summary>
    public bool IsPositivePower => parts.Count == 1 && parts.First() is { Value.Sign: > 0, Key.Variables: "" };

    public bool IsNumber => parts.Keys.All(p => p == Product.One);

    public Fraction Number => parts.TryGetValue(Product.One, out var number) ? number : 0;

    public IEnumerable<string> Variables => parts.Keys.SelectMany(p => Names(p)).Distinct();

    public static string[] Names(Product product) =>
        product.Variables.Split(';', StringSplitOptions.RemoveEmptyEntries);

    public static Poly operator +(Poly a, Poly b)
    {
        var sum = new Dictionary<Product, Fraction>(a.parts);
        foreach (var (product, factor) in b.parts)
        {
            Add(sum, product, factor);
        }
        Bound(sum);
        return new(sum);
    }

    private static void Bound(Dictionary<Product, Fraction> sum)
    {
        if (sum.Count > MostParts)
        {
            throw new RefusedException(Refusal.TooLong, "");
        }
    }

    public static Poly operator -(Poly a) => a * Of(-1);

    public static Poly operator -(Poly a, Poly b) => a + -b;

    public static Poly operator *(Poly a, Poly b)
    {
        var sum = new Dictionary<Product, Fraction>();
        foreach (var (x, f) in a.parts)
        {
            foreach (var (y, g) in b.parts)
            {
                Add(sum, Times(x, y), f * g);
            }
            Bound(sum);
        }
        return new(sum);
    }

    private static Product Times(Product a, Product b) =>
        new(
            checked(a.N + b.N),
            checked(a.I + b.I),
            a.Variables.Length == 0 ? b.Variables
                : b.Variables.Length == 0 ? a.Variables
                : string.Concat(Names(a).Concat(Names(b)).Order(StringComparer.Ordinal).Select(n => n + ";"))
        );

    private static void Add(Dictionary<Product, Fraction> sum, Product product, Fraction factor)
    {
        var total = sum.TryGetValue(product, out var own) ? own + factor : factor;
        if (total.Sign == 0)
        {
            sum.Remove(product);
        }
        else
        {
            sum[product] = total;
        }
    }

    /// <summary>All these at once in the place of variables.</summary>
    public Poly With(IReadOnlyDictionary<string, Poly> values)
    {
        if (!Variables.Any(values.ContainsKey))
        {
            return this;
        }
        var sum = Zero;
        foreach (var (product, factor) in parts)
        {
            var own = Of(product with { Variables = "" }, factor);
            foreach (var name in Names(product))
            {
                own *= values.TryGetValue(name, out var value) ? value : Variable(name);
            }
            sum += own;
        }
        return sum;
    }

    public Poly AtRound(Size rounds)
    {
        var sum = Zero;
        foreach (var (product, factor) in parts)
        {
            sum += Of(product with { I = 0 }, factor) * Power(rounds * product.I);
        }
        return sum;
    }

    /// <summary>Whether it is a whole number everywhere in a region.</summary>
    public bool IsWhole(Region region) =>
        parts.All(p => p.Value.PowersOfTwo is { } power && region.NeverNegative(new(p.Key.N, p.Key.I, power)));

    /// <summary>Equal polynomials have equal keys.</summary>
    public string Key =>
        string.Join(
            '|',
            parts
                .OrderBy(p => p.Key.N)
                .ThenBy(p => p.Key.I)
                .ThenBy(p => p.Key.Variables, StringComparer.Ordinal)
                .Select(p => $"{p.Value.Numerator}/{p.Value.Denominator} {p.Key.N} {p.Key.I} {p.Key.Variables}")
        );

    /// <summary>A whole number without anything else.</summary>
    public BigInteger? Whole => IsNumber && Number.Denominator.IsOne ? Number.Numerator : null;
}
