using System.Numerics;
using Reckoner.Numbers;

namespace Reckoner.Choosing;

/// <summary>
/// The operands that are best shown, by these in turn: none of them 0, 1 or -1 and no two alike; fewest cycles; most outcomes of
/// decisions; fewest decimal digits; and what counts as small in every list of operands.
/// </summary>
internal static class BestFew
{
    public static IReadOnlyList<ChosenOperands> Of(Candidates candidates, int count)
    {
        var tables = new DecisionTables(candidates);
        var ranked = candidates
            .Chosen.Select(index => (Index: index, Rank: Rank(candidates, tables, index)))
            .OrderBy(c => c.Rank)
            .ThenBy(c => c.Index);
        return [.. ranked.Take(count).Select(c => tables.At(c.Index))];
    }

    private static (bool IsTrivial, int Cycles, int Outcomes, int Digits) Rank(
        Candidates candidates,
        DecisionTables tables,
        int index
    )
    {
        return (
            IsTrivial(candidates, index),
            tables.Cycles(index),
            -tables.Counts(index).Count(c => c > 0),
            Numbers(candidates, index).Sum(Digits)
        );
    }

    /// <summary>Operands that show little: 0, 1 or -1, or two alike.</summary>
    internal static bool IsTrivial(Candidates candidates, int index)
    {
        var numbers = Numbers(candidates, index);
        return numbers.Exists(n => BigInteger.Abs(n) <= 1) || numbers.Distinct().Count() < numbers.Count;
    }

    private static List<BigInteger> Numbers(Candidates candidates, int index) =>
        [.. candidates.Datapath.Operands.Zip(candidates.Table.Cases[index], (o, bits) => o.Number(bits))];

    private static int Digits(BigInteger number)
    {
        var size = BigInteger.Abs(number);
        return size < 10 ? 1
            : size < 100 ? 2
            : size < 1000 ? 3
            : Bits.Text(size).Length;
    }
}
