using System.Numerics;
using Reckoner.Datapaths;

namespace Reckoner.Checking;

/// <summary>
/// The order in which operands count as small, the same wherever some are shown: by the sum of their magnitudes; of equal sums
/// those with fewer negative numbers; then operand by operand, the last first, the one nearer to 0, and of 3 and -3 the 3. No two
/// sets of operands are equal in it.
/// </summary>
public readonly struct Rank : IComparable<Rank>, IEquatable<Rank>
{
    private readonly IReadOnlyList<BigInteger>? numbers;

    private Rank(IReadOnlyList<BigInteger> numbers)
    {
        this.numbers = numbers;
        Sum = numbers.Aggregate(BigInteger.Zero, (sum, n) => sum + BigInteger.Abs(n));
        Negatives = numbers.Count(n => n.Sign < 0);
    }

    /// <summary>Of the magnitudes.</summary>
    public BigInteger Sum { get; }

    private int Negatives { get; }

    private IReadOnlyList<BigInteger> Numbers => numbers ?? [];

    /// <param name="bits">Of each operand, by its index.</param>
    public static Rank Of(IReadOnlyList<Operand> operands, IReadOnlyList<BigInteger> bits) =>
        OfNumbers([.. operands.Select(o => o.Number(bits[o.Index]))]);

    public static Rank OfNumbers(IReadOnlyList<BigInteger> numbers) => new(numbers);

    public int CompareTo(Rank other)
    {
        var order = (Sum, Negatives).CompareTo((other.Sum, other.Negatives));
        for (var i = Numbers.Count - 1; order == 0 && i >= 0; i--)
        {
            order = Place(Numbers[i]).CompareTo(Place(other.Numbers[i]));
        }
        return order;
    }

    /// <summary>0, 1, -1, 2, -2 and so on as 0, 1, 2, 3, 4.</summary>
    private static BigInteger Place(BigInteger number) => number.Sign > 0 ? 2 * number - 1 : -2 * number;

    public bool Equals(Rank other) => CompareTo(other) == 0;

    public override bool Equals(object? obj) => obj is Rank other && Equals(other);

    public override int GetHashCode() => HashCode.Combine(Sum, Negatives);

    public override string ToString() => string.Join(", ", Numbers);

    public static bool operator ==(Rank a, Rank b) => a.Equals(b);

    public static bool operator !=(Rank a, Rank b) => !a.Equals(b);

    public static bool operator <(Rank a, Rank b) => a.CompareTo(b) < 0;

    public static bool operator >(Rank a, Rank b) => a.CompareTo(b) > 0;

    public static bool operator <=(Rank a, Rank b) => a.CompareTo(b) <= 0;

    public static bool operator >=(Rank a, Rank b) => a.CompareTo(b) >= 0;
}
