namespace Reckoner.Proving;

/// <summary>A small odd factor times a power of 2.</summary>
internal sealed record Multiple(int Factor, int Power);

/// <summary>
/// Arithmetic modulo a prime in which 2 has a large order, so that a residue tells which small multiple of which power of 2 it is.
/// </summary>
internal static class Residue
{
    public const long Prime = 2_147_483_629;
    private const int MostPower = 36;
    private const int MostTabled = 200;

    public static long Of(long number) => (number % Prime + Prime) % Prime;

    public static long Times(long a, long b) => (long)((ulong)a * (ulong)b % (ulong)Prime);

    public static long Minus(long a, long b) => a >= b ? a - b : a - b + Prime;

    public static long Inverse(long a) => Raised(a, Prime - 2);

    /// <summary>Powers from -<see cref="MostTabled"/> on.</summary>
    private static readonly long[] Powers =
    [
        .. Enumerable
            .Range(-MostTabled, 2 * MostTabled + 1)
            .Select(p => p >= 0 ? Raised(2, p) : Inverse(Raised(2, -p))),
    ];

    private static readonly Dictionary<long, Multiple> Known = Table();

    /// <param name="power">Not above <see cref="MostTabled"/> in size.</param>
    public static long PowerOfTwo(int power) => Powers[power + MostTabled];

    /// <summary>A small odd factor and a power of 2 that it is the product of; null for none.</summary>
    public static Multiple? Read(long residue) => Known.GetValueOrDefault(residue);

    private static long Raised(long root, long power)
    {
        var product = 1L;
        for (; power > 0; power >>= 1)
        {
            product = (power & 1) != 0 ? Times(product, root) : product;
            root = Times(root, root);
        }
        return product;
    }

    private static Dictionary<long, Multiple> Table()
    {
        var table = new Dictionary<long, Multiple>();
        foreach (var factor in new[] { 1, -1, 3, -3, 5, -5 })
        {
            for (var power = -MostPower; power <= MostPower; power++)
            {
                table.TryAdd(Times(Of(factor), PowerOfTwo(power)), new(factor, power));
            }
        }
        return table;
    }
}
