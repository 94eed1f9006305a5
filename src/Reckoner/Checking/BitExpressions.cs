namespace Reckoner.Checking;

/// <summary>
/// The cheapest ways to spell each of the 256 functions of three inputs. Cost is the number of operations of a formula; for a
/// function that gives 0 for three zeros, as all gates do, sharing inside one function would save nothing (found by trying all
/// chains of operations).
/// </summary>
internal static class BitExpressions
{
    private static readonly BitOperation[] Operations = Enum.GetValues<BitOperation>();

    private static readonly BitExpression[] Free =
    [
        new BitConstant(IsOne: false),
        new BitConstant(IsOne: true),
        new BitInput(0),
        new BitInput(1),
        new BitInput(2),
    ];

    /// <summary>The functions that take 0, 1, 2 and so on operations.</summary>
    private static readonly List<List<byte>> ByCost = FindByCost();

    private static readonly IReadOnlyList<BitExpression>?[] Found = new IReadOnlyList<BitExpression>?[256];

    /// <summary>Operations that a function takes at least.</summary>
    public static int Cost(byte function) => ByCost.FindIndex(functions => functions.Contains(function));

    /// <summary>All formulas of least cost, so that one may be chosen whose parts are there already.</summary>
    public static IReadOnlyList<BitExpression> Of(byte function) => Found[function] ??= [.. Spelt(function)];

    private static IEnumerable<BitExpression> Spelt(byte function)
    {
        if (Cost(function) == 0)
        {
            return Free.Where(e => e.Function == function);
        }
        return Pairs(Cost(function))
            .Where(p => BitPair.Applied(p.Operation, p.Left, p.Right) == function)
            .SelectMany(p =>
                Of(p.Left).SelectMany(left => Of(p.Right).Select(right => new BitPair(p.Operation, left, right)))
            );
    }

    /// <summary>
    /// What an operation can join so that the whole costs so much; of two orders that mean the same, one.
    /// </summary>
    private static IEnumerable<(BitOperation Operation, byte Left, byte Right)> Pairs(int cost) =>
        from leftCost in Enumerable.Range(0, cost)
        from left in ByCost[leftCost]
        from right in ByCost[cost - 1 - leftCost]
        from operation in Operations
        where operation == BitOperation.AndNot || left <= right
        select (operation, left, right);

    private static List<List<byte>> FindByCost()
    {
        List<List<byte>> byCost =
        [
            [.. Free.Select(e => e.Function)],
        ];
        var found = byCost[0].ToHashSet();
        while (found.Count < 256)
        {
            var next = new List<byte>();
            for (var left = 0; left < byCost.Count; left++)
            {
                Join(byCost[left], byCost[byCost.Count - 1 - left], found, next);
            }
            byCost.Add(next);
        }
        return byCost;
    }

    private static void Join(List<byte> lefts, List<byte> rights, HashSet<byte> found, List<byte> next)
    {
        foreach (var left in lefts)
        {
            foreach (var right in rights)
            {
                foreach (var operation in Operations)
                {
                    var function = BitPair.Applied(operation, left, right);
                    if (found.Add(function))
                    {
                        next.Add(function);
                    }
                }
            }
        }
    }
}
