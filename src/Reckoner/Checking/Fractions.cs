using System.Numerics;
using Reckoner.Claims;
using Reckoner.Numbers;

namespace Reckoner.Checking;

/// <summary>Exact arithmetic in gates: what <see cref="Rational"/> does with one number, done with all cases at once.</summary>
internal sealed class Fractions(GateGraph graph)
{
    /// <summary>
    /// Gates for one claim; a product of operands of 128 bits needs an eighth of them. More would take more memory than a
    /// check may.
    /// </summary>
    private const int MostGates = 1 << 18;

    /// <summary>Bits of an exponent that a power of two is shifted by.</summary>
    private const int MostPlaces = 13;

    private static readonly int[] One = [GateGraph.One, GateGraph.Zero];

    /// <summary>What has a value in no case.</summary>
    public static readonly Fraction Undefined = new(One, One, GateGraph.Zero);

    private Formula? claimed;
    private int most;

    /// <summary>From here on gates are made for this formula; <see cref="LawBeyondPlanesException"/> when they are too many.</summary>
    public void Begin(Formula formula) => (claimed, most) = (formula, graph.Gates.Count + MostGates);

    public static Fraction Constant(Rational number) =>
        new(Literals(number.Numerator), number.IsWhole ? One : Literals(number.Denominator), GateGraph.One);

    /// <summary>The number of a signed word.</summary>
    public static Fraction Whole(int[] word) => new(word, One, GateGraph.One);

    private static bool IsWhole(Fraction f) =>
        f.Lower.Skip(1).All(l => l == GateGraph.Zero) && f.Lower[0] == GateGraph.One;

    /// <summary>The literal of a relation; what it is where one side is undefined does not matter.</summary>
    public int Compared(Relation relation, Fraction a, Fraction b)
    {
        var (left, right, _) = Alike(a, b);
        var width = Math.Max(left.Length, right.Length);
        Afford(2 * width);
        (left, right) = (Planes.Extended(left, width), Planes.Extended(right, width));
        return relation switch
        {
            Relation.Equal => GateGraph.Not(Planes.Differ(graph, left, right)),
            Relation.Unequal => Planes.Differ(graph, left, right),
            Relation.Less => Less(left, right),
            Relation.LessOrEqual => GateGraph.Not(Less(right, left)),
            Relation.Greater => Less(right, left),
            Relation.GreaterOrEqual => GateGraph.Not(Less(left, right)),
        };
    }

    public Fraction Negated(Fraction a) => a with { Upper = Negated(a.Upper) };

    public Fraction Sum(Fraction a, Fraction b)
    {
        var (left, right, lower) = Alike(a, b);
        return new(Trimmed(Plus(left, right)), lower, graph.And(a.Defined, b.Defined));
    }

    public Fraction Difference(Fraction a, Fraction b) => Sum(a, Negated(b));

    public Fraction Product(Fraction a, Fraction b) =>
        Reduced(Times(a.Upper, b.Upper), Times(a.Lower, b.Lower), graph.And(a.Defined, b.Defined));

    /// <summary>Upper and lower multiplied crosswise; the sign of a negative divisor goes to the upper word.</summary>
    public Fraction Quotient(Fraction a, Fraction b)
    {
        if (PowerOf(b.Upper) is { } down && PowerOf(b.Lower) is { } up)
        {
            return Reduced(Moved(a.Upper, up), Moved(a.Lower, down), graph.And(a.Defined, b.Defined));
        }
        var isNegative = b.Upper[^1];
        var upper = Times(a.Upper, b.Lower);
        var lower = Times(Magnitude(b.Upper), a.Lower);
        var signed = Chosen(isNegative, Negated(upper), Planes.Extended(upper, upper.Length + 1));
        var isZero = GateGraph.Not(Planes.Differ(graph, b.Upper, Planes.Constant(0, b.Upper.Length)));
        return new Fraction(signed, lower, graph.And(GateGraph.Not(isZero), graph.And(a.Defined, b.Defined)));
    }

    /// <summary>A power that is the same in every case.</summary>
    public Fraction Power(Fraction root, BigInteger power)
    {
        Afford(BigInteger.Abs(power));
        var one = new Fraction(One, One, root.Defined);
        var product = Enumerable.Repeat(root, (int)BigInteger.Abs(power)).Aggregate(one, Product);
        return power.Sign >= 0 ? product : Quotient(one, product);
    }

    /// <summary>A power that depends on the case is chosen among those it can be; it has no value where the exponent is not whole.</summary>
    /// <param name="exponent">Not less than <paramref name="least"/>, not more than <paramref name="most"/>.</param>
    public Fraction Power(Fraction root, Fraction exponent, int least, int most)
    {
        var chosen = Undefined;
        for (var power = least; power <= most; power++)
        {
            var isIt = Compared(Relation.Equal, exponent, Constant(power));
            chosen = Chosen(isIt, Power(root, power), chosen);
        }
        return chosen with { Defined = graph.And(chosen.Defined, exponent.Defined) };
    }

    /// <summary>
    /// a * 2^exponent: a shift in stages, by 1, by 2, by 4, each if its bit of the exponent is 1. Null for an exponent that need not
    /// be whole or takes too many places.
    /// </summary>
    public Fraction? Shifted(Fraction a, Fraction exponent)
    {
        var places = Trimmed(exponent.Upper);
        if (!IsWhole(exponent) || places.Length > MostPlaces)
        {
            return null;
        }
        // What may be negative is counted from its lowest: 2^k = 2^(k + 8) / 2^8.
        var low = places[^1] == GateGraph.Zero ? 0 : 1 << (places.Length - 1);
        var bits = low == 0 ? places[..^1] : [.. places[..^1], GateGraph.Not(places[^1])];
        var word = Trimmed(a.Upper);
        for (var bit = 0; bit < bits.Length; bit++)
        {
            var by = 1 << bit;
            Afford(word.Length + by);
            word = Chosen(bits[bit], Moved(word, by), Planes.Extended(word, word.Length + by));
        }
        return Reduced(word, Moved(a.Lower, low), graph.And(a.Defined, exponent.Defined));
    }

    /// <summary>a - b * floor(a / b); by a power of two it is the low bits.</summary>
    public Fraction Modulo(Fraction a, Fraction b)
    {
        if (PowerOf(b.Upper) is { } top && IsWhole(b) && PowerOf(a.Lower) is { } below)
        {
            var count = top + below;
            var bits = Planes.Extended(a.Upper, Math.Max(count, a.Upper.Length))[..count];
            return new([.. bits, GateGraph.Zero], a.Lower, graph.And(a.Defined, b.Defined));
        }
        return Difference(a, Product(b, Floor(Quotient(a, b))));
    }

    public Fraction Largest(Fraction a, Fraction b) => Extreme(a, b, Relation.Greater);

    public Fraction Smallest(Fraction a, Fraction b) => Extreme(a, b, Relation.Less);

    private Fraction Extreme(Fraction a, Fraction b, Relation relation)
    {
        var (left, right, lower) = Alike(a, b);
        var width = Math.Max(left.Length, right.Length);
        var chosen = Chosen(Compared(relation, a, b), Planes.Extended(left, width), Planes.Extended(right, width));
        // The larger of two, one of them never negative, is not negative; the gates alone do not show it.
        if (relation == Relation.Greater && (left[^1] == GateGraph.Zero || right[^1] == GateGraph.Zero))
        {
            chosen[^1] = GateGraph.Zero;
        }
        return new(Trimmed(chosen), lower, graph.And(a.Defined, b.Defined));
    }

    public Fraction Absolute(Fraction x) => x with { Upper = Magnitude(x.Upper) };

    public Fraction Floor(Fraction x) => IsWhole(x) ? x : Rounding(x, Floor(x.Upper, x.Lower));

    public Fraction Ceiling(Fraction x) => IsWhole(x) ? x : Rounding(x, Negated(Floor(Negated(x.Upper), x.Lower)));

    /// <summary>Towards zero.</summary>
    public Fraction Truncated(Fraction x)
    {
        if (IsWhole(x))
        {
            return x;
        }
        var quotient = Planes.Extended(Divided(Magnitude(x.Upper), x.Lower).Quotient, x.Upper.Length + 2);
        return Rounding(x, Chosen(x.Upper[^1], Negated(quotient), Planes.Extended(quotient, quotient.Length + 1)));
    }

    /// <summary>To the nearest whole number, halves upward: floor of (2a + b) / 2b.</summary>
    public Fraction Rounded(Fraction x) =>
        IsWhole(x) ? x : Rounding(x, Floor(Plus(Plus(x.Upper, x.Upper), x.Lower), Plus(x.Lower, x.Lower)));

    /// <summary>Null for what need not be whole.</summary>
    public Fraction? FloorOfLogarithm(Fraction x) => IsWhole(x) ? Logarithm(x, isFloor: true) : null;

    /// <inheritdoc cref="FloorOfLogarithm"/>
    public Fraction? CeilingOfLogarithm(Fraction x) => IsWhole(x) ? Logarithm(x, isFloor: false) : null;

    private static Fraction Rounding(Fraction of, int[] whole) => new(whole, One, of.Defined);

    private static int[] Literals(BigInteger number)
    {
        var width = Bits.Needed(number, isSigned: true) + 1;
        return Planes.Constant(Bits.Wrap(number, width), width);
    }

    private int Less(int[] a, int[] b)
    {
        int[] turnedA = [.. a[..^1], GateGraph.Not(a[^1])];
        int[] turnedB = [.. b[..^1], GateGraph.Not(b[^1])];
        return Planes.Difference(graph, turnedA, turnedB).Borrow;
    }

    private int[] Negated(int[] a)
    {
        var wide = Planes.Extended(a, a.Length + 1);
        return Planes.Difference(graph, Planes.Constant(0, wide.Length), wide).Difference;
    }

    private int[] Times(int[] a, int[] b)
    {
        (a, b) = (Trimmed(a), Trimmed(b));
        if (PowerOf(b) is { } up)
        {
            return Moved(a, up);
        }
        if (PowerOf(a) is { } places)
        {
            return Moved(b, places);
        }
        Afford((long)a.Length * b.Length);
        return Planes.ProductSigned(graph, a, b);
    }

    /// <summary>Both over one lower word: the larger of two powers of two, else the product.</summary>
    private (int[] A, int[] B, int[] Lower) Alike(Fraction a, Fraction b)
    {
        if (PowerOf(a.Lower) is not { } left || PowerOf(b.Lower) is not { } right)
        {
            return (Times(a.Upper, b.Lower), Times(b.Upper, a.Lower), Times(a.Lower, b.Lower));
        }
        var top = Math.Max(left, right);
        return (Moved(a.Upper, top - left), Moved(b.Upper, top - right), left > right ? a.Lower : b.Lower);
    }

    /// <summary>Without the zeros that both words end in where the lower one is a power of two.</summary>
    private static Fraction Reduced(int[] upper, int[] lower, int defined)
    {
        upper = Trimmed(upper);
        var zeros = upper.TakeWhile(l => l == GateGraph.Zero).Count();
        if (
            PowerOf(lower) is not { } power
            || Math.Min(power, Math.Min(zeros, upper.Length - 2)) is not (> 0 and var less)
        )
        {
            return new(upper, lower, defined);
        }
        return new(upper[less..], lower[less..], defined);
    }

    /// <summary>Which power of two a word is in every case; null for any other.</summary>
    private static int? PowerOf(int[] word)
    {
        var place = Array.IndexOf(word, GateGraph.One);
        return
            place >= 0
            && place < word.Length - 1
            && Array.TrueForAll(word, l => l is GateGraph.Zero or GateGraph.One)
            && word.Count(l => l == GateGraph.One) == 1
            ? place
            : null;
    }

    /// <summary>A word with zeros below.</summary>
    private static int[] Moved(int[] word, int places) =>
        places == 0 ? word : [.. Enumerable.Repeat(GateGraph.Zero, places), .. word];

    /// <summary>Without the copies of its top bit.</summary>
    private static int[] Trimmed(int[] word)
    {
        var length = word.Length;
        while (length > 2 && word[length - 1] == word[length - 2])
        {
            length--;
        }
        return word[..length];
    }

    private void Afford(BigInteger gates)
    {
        if (graph.Gates.Count + gates > most)
        {
            throw new LawBeyondPlanesException(claimed!, isTooLarge: true);
        }
    }

    private int[] Plus(int[] a, int[] b)
    {
        var width = Math.Max(a.Length, b.Length) + 1;
        Afford(2 * width);
        return Planes.Sum(graph, Planes.Extended(a, width), Planes.Extended(b, width), GateGraph.Zero).Sum;
    }

    /// <summary>One bit wider, so that the most negative word has a magnitude.</summary>
    private int[] Magnitude(int[] a) => Chosen(a[^1], Negated(a), Planes.Extended(a, a.Length + 1));

    private int[] Chosen(int condition, int[] a, int[] b) => [.. a.Zip(b, (x, y) => graph.Choose(condition, x, y))];

    private Fraction Chosen(int condition, Fraction a, Fraction b)
    {
        int[] Alike(int[] x, int[] other) => Planes.Extended(x, Math.Max(x.Length, other.Length));
        return new Fraction(
            Chosen(condition, Alike(a.Upper, b.Upper), Alike(b.Upper, a.Upper)),
            Chosen(condition, Alike(a.Lower, b.Lower), Alike(b.Lower, a.Lower)),
            graph.Choose(condition, a.Defined, b.Defined)
        );
    }

    /// <summary>floor(a / b) for b above zero: the truncated quotient, one less for a negative a that leaves a remainder.</summary>
    private int[] Floor(int[] a, int[] b)
    {
        if (PowerOf(b) is { } places)
        {
            return Trimmed(Planes.Extended(a, Math.Max(a.Length, places + 2))[places..]);
        }
        var (quotient, remainder) = Divided(Magnitude(a), b);
        var left = Planes.Differ(graph, remainder, Planes.Constant(0, remainder.Length));
        int[] wide = [.. quotient, GateGraph.Zero, GateGraph.Zero];
        var down = Planes.Sum(graph, wide, Planes.Constant(0, wide.Length), graph.And(left, a[^1])).Sum;
        return Chosen(a[^1], Negated(down), Planes.Extended(down, down.Length + 1));
    }

    /// <summary>Unsigned division of non-negative words by trial subtraction. The quotient has the width of a.</summary>
    private (int[] Quotient, int[] Remainder) Divided(int[] a, int[] b)
    {
        Afford((long)a.Length * b.Length);
        var width = b.Length + 1;
        var divisor = Planes.Extended(b, width);
        var remainder = Planes.Constant(0, width);
        var quotient = new int[a.Length];
        for (var i = a.Length - 1; i >= 0; i--)
        {
            int[] shifted = [a[i], .. remainder[..^1]];
            var (difference, borrow) = Planes.Difference(graph, shifted, divisor);
            quotient[i] = GateGraph.Not(borrow);
            remainder = Chosen(borrow, shifted, difference);
        }
        return ([.. quotient, GateGraph.Zero], remainder);
    }

    /// <summary>The place of the top bit; one more for the ceiling unless the word is a power of two.</summary>
    private Fraction Logarithm(Fraction x, bool isFloor)
    {
        var width = BitOperations.Log2((uint)x.Upper.Length) + 2;
        var place = Planes.Constant(0, width);
        var above = GateGraph.Zero;
        var lower = GateGraph.Zero;
        for (var i = x.Upper.Length - 2; i >= 0; i--)
        {
            var isTop = graph.And(x.Upper[i], GateGraph.Not(above));
            lower = graph.Or(lower, graph.And(x.Upper[i], above));
            place = Chosen(isTop, Planes.Constant(i, width), place);
            above = graph.Or(above, x.Upper[i]);
        }
        var carry = isFloor ? GateGraph.Zero : lower;
        var result = Planes.Sum(graph, place, Planes.Constant(0, width), carry).Sum;
        return Rounding(x, result) with
        {
            Defined = graph.And(x.Defined, graph.And(above, GateGraph.Not(x.Upper[^1]))),
        };
    }
}
