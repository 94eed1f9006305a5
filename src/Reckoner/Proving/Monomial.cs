namespace Reckoner.Proving;

/// <summary>
/// 2^(<paramref name="N"/> * n + <paramref name="I"/> * i) times a product of at most four variables, whose numbers stand in
/// <paramref name="Factors"/>, 16 bits each, the largest on top.
/// </summary>
internal sealed record Monomial(int N, int I, ulong Factors)
{
    public static readonly Monomial One = new(0, 0, 0);

    private const int Most = 4;

    public bool Equals(Monomial? other) =>
        other is not null && N == other.N && I == other.I && Factors == other.Factors;

    public override int GetHashCode() => HashCode.Combine(N, I, Factors);

    public int Degree
    {
        get
        {
            var degree = 0;
            for (var rest = Factors; rest != 0; rest <<= 16)
            {
                degree++;
            }
            return degree;
        }
    }

    public static Monomial Power(Extent exponent) => new(exponent.N, exponent.I, 0);

    public static Monomial Variable(int variable) => new(0, 0, (ulong)variable << 48);

    public static Monomial operator *(Monomial a, Monomial b) =>
        new(a.N + b.N, a.I + b.I, Merged(a.Factors, b.Factors));

    private static ulong Merged(ulong a, ulong b)
    {
        if (a == 0 || b == 0)
        {
            return a | b;
        }
        ulong merged = 0;
        for (var count = 0; a != 0 || b != 0; count++)
        {
            if (count == Most)
            {
                throw new NotReachedException(Obstacle.Degree);
            }
            ref var from = ref (a >= b ? ref a : ref b);
            merged |= (from >> 48) << (48 - 16 * count);
            from <<= 16;
        }
        return merged;
    }

    /// <summary>The numbers of its variables, the largest first; one for each power.</summary>
    public IEnumerable<int> Variables
    {
        get
        {
            for (var rest = Factors; rest != 0; rest <<= 16)
            {
                yield return (int)(rest >> 48);
            }
        }
    }

    public bool Has(int variable)
    {
        for (var rest = Factors; rest != 0; rest <<= 16)
        {
            if ((int)(rest >> 48) == variable)
            {
                return true;
            }
        }
        return false;
    }

    /// <summary>The same with one factor less; it has the variable.</summary>
    public Monomial Without(int variable)
    {
        ulong left = 0;
        var (at, isTaken) = (48, false);
        for (var rest = Factors; rest != 0; rest <<= 16)
        {
            if (!isTaken && (int)(rest >> 48) == variable)
            {
                isTaken = true;
                continue;
            }
            left |= (rest >> 48) << at;
            at -= 16;
        }
        return new(N, I, left);
    }
}
