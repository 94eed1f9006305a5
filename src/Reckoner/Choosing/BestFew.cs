using System.Numerics;
using Reckoner.Datapaths;

namespace Reckoner.Choosing;

/// <summary>
/// The operands that are best shown, by these in turn: none of them 0, 1 or -1 and no two alike; fewest cycles; most outcomes of
/// decisions; fewest decimal digits; and what counts as small in every list of operands.
/// </summary>
public static class BestFew
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
        var numbers = candidates.Datapath.Operands.Zip(candidates.Table.Cases[index], Evaluator.Number).ToList();
        return (
            numbers.Exists(n => BigInteger.Abs(n) <= 1) || numbers.Distinct().Count() < numbers.Count,
            tables.Cycles(index),
            -tables.Counts(index).Count(c => c > 0),
            numbers.Sum(Digits)
        );
    }

    private static int Digits(BigInteger number)
    {
        var size = BigInteger.Abs(number);
        return size < 10 ? 1
            : size < 100 ? 2
            : size < 1000 ? 3
            : Numbers.Bits.Text(size).Length;
    }
}
