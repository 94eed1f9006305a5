namespace Reckoner.Costing;

/// <summary>How an adder hands on its carries.</summary>
public enum AdderKind
{
    /// <summary>From place to place.</summary>
    Ripple,

    /// <summary>J. Sklansky, "Conditional-Sum Addition Logic", IRE Transactions on Electronic Computers EC-9(2), 1960, 226-231: fewest levels, by handing a carry to many.</summary>
    Sklansky,

    /// <summary>R. P. Brent, H. T. Kung, "A Regular Layout for Parallel Adders", IEEE Transactions on Computers C-31(3), 1982, 260-264: few cells, more levels.</summary>
    BrentKung,

    /// <summary>P. M. Kogge, H. S. Stone, "A Parallel Algorithm for the Efficient Solution of a General Class of Recurrence Equations", IEEE Transactions on Computers C-22(8), 1973, 786-793: fewest levels, each carry handed to two.</summary>
    KoggeStone,
}

/// <summary>Two words added by gates. The places of a word are in the order of their weight, the lowest first.</summary>
internal static class Adders
{
    public static IReadOnlyList<AdderKind> All { get; } = Enum.GetValues<AdderKind>();

    /// <summary>How a kind is asked for.</summary>
    public static string Name(AdderKind kind) =>
        kind switch
        {
            AdderKind.Ripple => "ripple",
            AdderKind.Sklansky => "sklansky",
            AdderKind.BrentKung => "brent-kung",
            AdderKind.KoggeStone => "kogge-stone",
        };

    /// <summary>a + b + carry, as wide as a and b, and the carry out of it.</summary>
    public static (int[] Sum, int Carry) Sum(
        GateNet net,
        AdderKind kind,
        IReadOnlyList<int> a,
        IReadOnlyList<int> b,
        int carry
    )
    {
        var width = a.Count;
        var passes = Enumerable.Range(0, width).Select(i => net.Xor(a[i], b[i])).ToArray();
        // Of each place's group, down to place 0 in the end: whether it makes a carry of its own, and whether it passes one on.
        var makes = Enumerable.Range(0, width).Select(i => net.And(a[i], b[i])).ToArray();
        var reaches = (int[])passes.Clone();
        if (width > 0)
        {
            makes[0] = net.Or(makes[0], net.And(passes[0], carry));
        }
        foreach (var cells in Network(kind, width))
        {
            var (made, reached) = ((int[])makes.Clone(), (int[])reaches.Clone());
            foreach (var (to, from) in cells)
            {
                makes[to] = net.Or(made[to], net.And(reached[to], made[from]));
                reaches[to] = net.And(reached[to], reached[from]);
            }
        }
        var sum = new int[width];
        for (var i = 0; i < width; i++)
        {
            sum[i] = net.Xor(passes[i], i == 0 ? carry : makes[i - 1]);
        }
        return (sum, width == 0 ? carry : makes[^1]);
    }

    /// <summary>Level by level the cells: the place whose group grows, and the place whose group it takes in.</summary>
    internal static IEnumerable<List<(int To, int From)>> Network(AdderKind kind, int width) =>
        kind switch
        {
            AdderKind.Ripple => Enumerable
                .Range(1, Math.Max(0, width - 1))
                .Select(i => new List<(int, int)> { (i, i - 1) }),
            AdderKind.Sklansky => Doubling(width)
                .Select(step => Cells(width, i => (i & step) != 0, i => (i | (step - 1)) - step)),
            AdderKind.KoggeStone => Doubling(width).Select(step => Cells(width, i => i >= step, i => i - step)),
            AdderKind.BrentKung => Doubling(width)
                .Select(step => Cells(width, i => (i + 1) % (2 * step) == 0, i => i - step))
                .Concat(
                    Doubling(width)
                        .Reverse()
                        .Select(step => Cells(width, i => i >= 2 * step && (i + 1) % (2 * step) == step, i => i - step))
                        .Where(level => level.Count > 0)
                ),
        };

    private static IEnumerable<int> Doubling(int width)
    {
        for (var step = 1; step < width; step *= 2)
        {
            yield return step;
        }
    }

    private static List<(int To, int From)> Cells(int width, Func<int, bool> grows, Func<int, int> takesIn) =>
        [.. Enumerable.Range(0, width).Where(grows).Select(i => (i, takesIn(i)))];
}
