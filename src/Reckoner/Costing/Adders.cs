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

    /// <summary>Past groups that hand on what they get: M. Lehman, N. Burla, "Skip Techniques for High-Speed Carry-Propagation in Binary Arithmetic Units", IRE Transactions on Electronic Computers EC-10(4), 1961, 691-698.</summary>
    Skip,

    /// <summary>Both sums of each group, of which the carry selects one: O. J. Bedrij, "Carry-Select Adder", IRE Transactions on Electronic Computers EC-11(3), 1962, 340-346, with the carries of A. Tyagi (see <see cref="CostModel.UnitGates"/>).</summary>
    Select,

    /// <summary>Groups of four, and groups of groups, that say at once whether they make a carry or pass one on: A. Weinberger, J. L. Smith, "A One-Microsecond Adder Using One-Megacycle Circuitry", IRE Transactions on Electronic Computers EC-5(2), 1956, 65-73.</summary>
    LookAhead,
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
            AdderKind.Skip => "skip",
            AdderKind.Select => "select",
            AdderKind.LookAhead => "look-ahead",
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
        if (a.Count == 0)
        {
            return ([], carry);
        }
        if (kind == AdderKind.Ripple && net.HasFullAdders)
        {
            return Chain(net, a, b, carry);
        }
        var passes = a.Zip(b, net.Xor).ToArray();
        var makes = a.Zip(b, net.And).ToArray();
        return kind switch
        {
            AdderKind.Ripple or AdderKind.Sklansky or AdderKind.BrentKung or AdderKind.KoggeStone => Prefixes(
                net,
                Network(kind, a.Count),
                passes,
                makes,
                carry
            ),
            AdderKind.Skip => GroupAdders.Skip(net, passes, makes, carry),
            AdderKind.Select => GroupAdders.Select(net, passes, makes, i => net.Or(a[i], b[i]), carry),
            AdderKind.LookAhead => GroupAdders.LookAhead(net, passes, makes, carry),
        };
    }

    /// <summary>The full adders of the model, as they are.</summary>
    private static (int[] Sum, int Carry) Chain(GateNet net, IReadOnlyList<int> a, IReadOnlyList<int> b, int carry)
    {
        var sum = new int[a.Count];
        for (var i = 0; i < sum.Length; i++)
        {
            (sum[i], carry) = net.Full(a[i], b[i], carry);
        }
        return (sum, carry);
    }

    private static (int[] Sum, int Carry) Prefixes(
        GateNet net,
        IEnumerable<List<(int To, int From)>> levels,
        int[] passes,
        int[] makes,
        int carry
    )
    {
        // Of each place's group, down to place 0 in the end: whether it makes a carry of its own, and whether it passes one on.
        var reaches = (int[])passes.Clone();
        makes[0] = net.Or(makes[0], net.And(passes[0], carry));
        foreach (var cells in levels)
        {
            var (made, reached) = ((int[])makes.Clone(), (int[])reaches.Clone());
            foreach (var (to, from) in cells)
            {
                makes[to] = net.Or(made[to], net.And(reached[to], made[from]));
                reaches[to] = net.And(reached[to], reached[from]);
            }
        }
        return ([.. passes.Select((p, i) => net.Xor(p, i == 0 ? carry : makes[i - 1]))], makes[^1]);
    }

    /// <summary>Level by level the cells: the place whose group grows, and the place whose group it takes in.</summary>
    /// <remarks>Only of kinds that are such networks.</remarks>
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
            AdderKind.Skip or AdderKind.Select or AdderKind.LookAhead => throw new ArgumentOutOfRangeException(
                nameof(kind)
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
