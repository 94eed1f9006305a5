namespace Reckoner.Costing;

/// <summary>
/// Adders that take places together in groups. Of every place is known whether it passes a carry on (its bits differ) and whether it
/// makes one (both are 1).
/// </summary>
internal static class GroupAdders
{
    /// <summary>Places that look ahead together.</summary>
    private const int Ahead = 4;

    /// <summary>
    /// In each group carries ripple, but where all its places pass one on, the carry goes past. Groups grow towards the middle by at
    /// most one place each and then shrink: the earlier a group is, the less time it has, and the later, the less is left.
    /// </summary>
    public static (int[] Sum, int Carry) Skip(GateNet net, int[] passes, int[] makes, int carry)
    {
        var sum = new int[passes.Length];
        var low = 0;
        foreach (var size in SkipSizes(passes.Length))
        {
            // What the places make by themselves: with it, the carry out of the group is known to wait for no carry into it.
            var (into, own) = (carry, GateNet.Zero);
            for (var i = low; i < low + size; i++)
            {
                sum[i] = net.Xor(passes[i], into);
                into = net.Or(makes[i], net.And(passes[i], into));
                own = net.Or(makes[i], net.And(passes[i], own));
            }
            carry = size == 1 ? into : net.Bypass(net.All(passes[low..(low + size)]), carry, into, own);
            low += size;
        }
        return (sum, carry);
    }

    /// <summary>
    /// 1, 2, ... k, ... 2, 1 with the largest k for which there are places enough. Those left over are one further group on each side,
    /// beside one of its size; where they are so few that a side would get a single place, they are one group.
    /// </summary>
    internal static IReadOnlyList<int> SkipSizes(int width)
    {
        var most = (int)Math.Sqrt(width);
        var rest = width - (most * most);
        var (up, down) = rest < 4 && rest <= most ? (rest, 0) : ((rest + 1) / 2, rest / 2);
        return
        [
            .. Enumerable.Range(1, most).Append(up).Where(s => s > 0).Order(),
            .. Enumerable.Range(1, most - 1).Append(down).Where(s => s > 0).OrderDescending(),
        ];
    }

    /// <summary>
    /// In each group but the first carries ripple twice, for no carry and for a carry into it, and what is so is chosen when that is
    /// known. Where a carry comes out without one, it does with one too, so that no choice but two gates say which it is.
    /// </summary>
    /// <param name="either">Whether one of a place's bits is 1, so that a carry into it comes out of it.</param>
    public static (int[] Sum, int Carry) Select(
        GateNet net,
        int[] passes,
        int[] makes,
        Func<int, int> either,
        int carry
    )
    {
        var sum = new int[passes.Length];
        var low = 0;
        foreach (var size in SelectSizes(passes.Length))
        {
            var isFirst = low == 0;
            sum[low] = net.Xor(passes[low], carry);
            var without = isFirst ? net.Or(makes[low], net.And(passes[low], carry)) : makes[low];
            var with = isFirst ? without : either(low);
            for (var i = low + 1; i < low + size; i++)
            {
                sum[i] = net.Choose(carry, net.Xor(passes[i], with), net.Xor(passes[i], without));
                without = net.Or(makes[i], net.And(passes[i], without));
                with = net.Or(makes[i], net.And(passes[i], with));
            }
            carry = isFirst ? without : net.Or(without, net.And(with, carry));
            low += size;
        }
        return (sum, carry);
    }

    /// <summary>
    /// 2, 2, 3, 4, ...: each group has as long as the carry needs to come to it. What is too much is taken from the largest.
    /// </summary>
    internal static IReadOnlyList<int> SelectSizes(int width)
    {
        var sizes = new List<int>();
        while (sizes.Sum() < width)
        {
            sizes.Add(Math.Max(2, sizes.Count + 1));
        }
        for (var much = sizes.Sum() - width; much > 0; much--)
        {
            sizes[sizes.LastIndexOf(sizes.Max())]--;
        }
        return [.. sizes.Where(s => s > 0)];
    }

    public static (int[] Sum, int Carry) LookAhead(GateNet net, int[] passes, int[] makes, int carry)
    {
        var (into, carried) = Carries(net, passes, makes, carry);
        return ([.. passes.Zip(into, net.Xor)], carried);
    }

    /// <summary>
    /// The carries into places, and the carry out. A group of four is a place to those above it, and gets its carry from them; every
    /// carry is a sum of products, in trees of gates of two inputs.
    /// </summary>
    private static (int[] Into, int Carried) Carries(GateNet net, int[] passes, int[] makes, int carry)
    {
        if (passes.Length <= Ahead)
        {
            return (Into(net, passes, makes, carry), Out(net, passes, makes, carry));
        }
        var groups = passes.Chunk(Ahead).Zip(makes.Chunk(Ahead)).ToList();
        var (above, carried) = Carries(
            net,
            [.. groups.Select(g => net.All(g.First))],
            [.. groups.Select(g => Out(net, g.First, g.Second, GateNet.Zero))],
            carry
        );
        return ([.. groups.SelectMany((g, i) => Into(net, g.First, g.Second, above[i]))], carried);
    }

    private static int[] Into(GateNet net, int[] passes, int[] makes, int carry) =>
        [.. passes.Select((_, i) => Out(net, passes[..i], makes[..i], carry))];

    /// <summary>A place below made a carry and all between passed it on, or all passed on the one that came.</summary>
    private static int Out(GateNet net, int[] passes, int[] makes, int carry) =>
        net.Any([
            .. Enumerable.Range(0, makes.Length).Reverse().Select(i => Product(net, makes[i], passes[(i + 1)..])),
            Product(net, carry, passes),
        ]);

    private static int Product(GateNet net, int made, int[] passed) =>
        made == GateNet.Zero ? GateNet.Zero : net.All([.. passed.Reverse(), made]);
}
