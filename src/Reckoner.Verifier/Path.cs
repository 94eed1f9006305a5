namespace Reckoner.Verifier;

/// <summary>Something known: a polynomial is 0, or it is 0 or more.</summary>
internal sealed record Fact(Poly Poly, bool IsEquation)
{
    public static Fact Zero(Poly poly) => new(poly, true);

    public static Fact NotNegative(Poly poly) => new(poly, false);

    public static Fact Negative(Poly poly) => new(-poly - 1, false);

    public bool? Plain =>
        !Poly.IsNumber ? null
        : IsEquation ? Poly.IsZero
        : Poly.Number.Sign >= 0;
}

/// <summary>No state takes this way.</summary>
internal sealed class ImpossibleException : Exception;

/// <summary>Bits that stand for one number, 0 to 2^Width - 1.</summary>
internal sealed record Stretch(Poly Poly, Size Width);

/// <summary>
/// One way through a stretch of the schedule. Every question has answers of which exactly one is so in any state; the certificate
/// must refute an answer or go on with it.
/// </summary>
internal sealed class Path
{
    private readonly IReadOnlyList<int> script;
    private readonly Action<IReadOnlyList<int>> later;
    private readonly Dictionary<string, Poly> fixedTo = new(StringComparer.Ordinal);
    private readonly Dictionary<string, object> answers = new(StringComparer.Ordinal);
    private readonly List<int> taken = [];
    private int fresh;

    public Path(Region region, Cases cases, IReadOnlyList<int> script, Action<IReadOnlyList<int>> later)
    {
        Region = region;
        Cases = cases;
        this.script = script;
        this.later = later;
        Facts.AddRange(region.Limits.Select(l => Fact.NotNegative(Poly.Power(l) - 1)));
    }

    public Region Region { get; }

    /// <summary>Where in the certificate the path has come to.</summary>
    public Cases Cases { get; private set; }

    public List<Fact> Facts { get; } = [];

    public Poly Plain(Poly poly) => poly.With(fixedTo);

    /// <summary>An equation that makes one variable a number puts the number in its place from then on.</summary>
    public void Know(Fact fact)
    {
        fact = fact with { Poly = Plain(fact.Poly) };
        Facts.Add(fact);
        var isSimple = fact.Poly.Parts.Keys.All(p => p.N == 0 && p.I == 0 && Poly.Names(p).Length <= 1);
        if (fact.IsEquation && isSimple && fact.Poly.Variables.Take(2).ToList() is [var only])
        {
            var factor = fact.Poly.Parts[new(0, 0, only + ";")];
            var value = new Dictionary<string, Poly>(StringComparer.Ordinal)
            {
                [only] = Poly.Of(fact.Poly.Number * Fraction.Of(-factor.Denominator, factor.Numerator)),
            };
            foreach (var other in fixedTo.Keys.ToList())
            {
                fixedTo[other] = fixedTo[other].With(value);
            }
            fixedTo[only] = value[only];
        }
    }

    /// <summary>Something that was shown or stands at the beginning.</summary>
    public void KnowShown(Fact fact)
    {
        fact = fact with { Poly = Plain(fact.Poly) };
        if (fact.Plain == false)
        {
            throw new ImpossibleException();
        }
        if (fact.Plain is null)
        {
            Know(fact);
        }
    }

    public void Define(string variable, Poly poly) => fixedTo[variable] = poly;

    public Poly Unsigned(string variable, Size width)
    {
        Know(Fact.NotNegative(Poly.Variable(variable)));
        Know(Fact.NotNegative(Poly.Power(width) - 1 - Poly.Variable(variable)));
        return Poly.Variable(variable);
    }

    public Poly Signed(string variable, Size width)
    {
        var half = Poly.Power(width - 1);
        Know(Fact.NotNegative(Poly.Variable(variable) + half));
        Know(Fact.NotNegative(half - 1 - Poly.Variable(variable)));
        return Poly.Variable(variable);
    }

    // ---- questions

    private T Choose<T>(params (T Result, Fact[] Facts)[] answers)
    {
        var open = answers.Where(a => a.Facts.All(f => (f with { Poly = Plain(f.Poly) }).Plain != false)).ToList();
        if (open.Count == 0)
        {
            throw new ImpossibleException();
        }
        var way = open.Count == 1 ? 0 : Ask([.. open.Select(o => o.Facts)]);
        foreach (var fact in open[way].Facts)
        {
            if ((fact with { Poly = Plain(fact.Poly) }).Plain is null)
            {
                Know(fact);
            }
        }
        return open[way].Result;
    }

    private int Ask(Fact[][] ways)
    {
        Cases.MustAsk(ways.Length);
        if (taken.Count >= script.Count)
        {
            var first = -1;
            for (var way = 0; way < ways.Length; way++)
            {
                if (Cases.Refuted(way) is { } sum)
                {
                    var assumed = ways[way].Select(f => f with { Poly = Plain(f.Poly) }).Where(f => f.Plain is null);
                    sum.Check([.. Facts, .. assumed]);
                }
                else if (first < 0)
                {
                    first = way;
                }
                else
                {
                    later([.. taken, way]);
                }
            }
            taken.Add(first >= 0 ? first : throw new ImpossibleException());
        }
        else
        {
            taken.Add(script[taken.Count]);
        }
        Cases = Cases.Next(taken[^1]);
        return taken[^1];
    }

    private T Once<T>(string question, Func<T> answer)
    {
        if (!answers.TryGetValue(question, out var known))
        {
            answers[question] = known = answer()!;
        }
        return (T)known;
    }

    public bool IsZero(Poly poly)
    {
        poly = Plain(poly);
        return poly.IsNumber
            ? poly.IsZero
            : Once(
                "zero " + poly.Key,
                () =>
                    Choose(
                        (true, [Fact.Zero(poly)]),
                        (false, [Fact.NotNegative(poly - 1)]),
                        (false, [Fact.Negative(poly)])
                    )
            );
    }

    public bool IsNegative(Poly poly)
    {
        poly = Plain(poly);
        return poly.IsNumber
            ? poly.Number.Sign < 0
            : Once(
                "negative " + poly.Key,
                () => Choose((false, [Fact.NotNegative(poly)]), (true, [Fact.Negative(poly)]))
            );
    }

    /// <summary>Of one bit.</summary>
    public bool IsOne(Poly bit)
    {
        bit = Plain(bit);
        return bit.IsNumber
            ? !bit.IsZero
            : Once("one " + bit.Key, () => Choose((false, [Fact.Zero(bit)]), (true, [Fact.Zero(bit - 1)])));
    }

    /// <summary>Of bits that leave a word: whether they are not all 0.</summary>
    public void DecideLost(Poly poly, Size width)
    {
        poly = Plain(poly);
        if (width == 1)
        {
            IsOne(poly);
        }
        else if (!poly.IsNumber)
        {
            Once("lost " + poly.Key, () => Choose((false, [Fact.Zero(poly)]), (true, [Fact.NotNegative(poly - 1)])));
        }
    }

    /// <summary>
    /// A number taken into the range of a word. It was a sum, a difference or a negative of words of that width; so one of the
    /// stated multiples of 2^width brings it there.
    /// </summary>
    public (Poly Poly, int Turns) Wrapped(Poly poly, Size width, bool isSigned, params int[] turns)
    {
        poly = Plain(poly);
        var half = isSigned ? Poly.Power(width - 1) : 0;
        return Once(
            $"wrapped {isSigned} {width} {poly.Key}",
            () =>
                Choose([
                    .. turns.Select(t =>
                    {
                        var inside = poly - Poly.Power(width) * t;
                        return (
                            (inside, t),
                            new[]
                            {
                                Fact.NotNegative(inside + half),
                                Fact.NotNegative(Poly.Power(width) - 1 - half - inside),
                            }
                        );
                    }),
                ])
        );
    }

    /// <summary>The two parts of bits at a place inside them.</summary>
    public (Stretch High, Stretch Low) Halves(Stretch stretch, Size place) =>
        Once(
            $"halves {stretch.Width} {stretch.Poly.Key}",
            () =>
            {
                var low = new Stretch(Unsigned($"#{++fresh}", place), place);
                var high = new Stretch(Unsigned($"#{++fresh}", stretch.Width - place), stretch.Width - place);
                Know(Fact.Zero(stretch.Poly - high.Poly * Poly.Power(place) - low.Poly));
                return (high, low);
            }
        );

    /// <summary>
    /// A new whole number: the quotient of two, the divisor not 0. What is left has the sign of the divisor (rounded down) or of the
    /// dividend (toward zero), and is smaller than the divisor; there is exactly one such number.
    /// </summary>
    public Poly Quotient(Poly dividend, Poly divisor, bool isDown)
    {
        var isNegative = IsNegative(divisor);
        var size = isNegative ? -divisor : divisor;
        var isLeftNegative = isDown ? isNegative : IsNegative(dividend);
        return Once(
            $"quotient {isDown} {dividend.Key} by {divisor.Key}",
            () =>
            {
                var quotient = Poly.Variable($"#{++fresh}");
                var left = (dividend - quotient * divisor) * (isLeftNegative ? -1 : 1);
                Know(Fact.NotNegative(left));
                Know(Fact.NotNegative(size - 1 - left));
                return quotient;
            }
        );
    }

    /// <summary>The sum word and the carry word of three words: together, the carries doubled, they are their sum.</summary>
    public (Poly Sum, Poly Carry) Saved(Poly a, Poly b, Poly c, Size width)
    {
        (a, b, c) = (Plain(a), Plain(b), Plain(c));
        return Once(
            $"saved {a.Key} and {b.Key} and {c.Key}",
            () =>
            {
                var sum = Unsigned($"#{++fresh}", width);
                var carry = Unsigned($"#{++fresh}", width);
                Know(Fact.Zero(a + b + c - sum - carry * 2));
                return (sum, carry);
            }
        );
    }

    /// <summary>The order of two places; one of them is never below the other.</summary>
    public int Compare(Size a, Size b) =>
        Region.NeverNegative(a - b) ? (Region.NeverNegative(b - a) ? 0 : 1)
        : Region.NeverNegative(b - a) ? -1
        : throw new RefusedException(Refusal.NotKnown, $"{a} {b}");
}
