using System.Numerics;
using Reckoner.Running;

namespace Reckoner.Explaining;

/// <summary>
/// What work that went wrong by one cause gives, known before anybody did it: the same causes that are found behind a wrong answer,
/// asked the other way round.
/// </summary>
internal static class Foreseen
{
    /// <summary>Whole walks: each slip throughout, other machines, operands that were misread; the likeliest first.</summary>
    /// <param name="operands">Their bits.</param>
    public static IEnumerable<(Explanation Why, Walk Walk)> Walks(Ways ways, IReadOnlyList<BigInteger> operands)
    {
        ulong[] bits = [.. operands.Select(o => (ulong)o)];
        var right = ways.Right.Table(bits);
        return Mode.Of(ways, bits)
            .Where(m => m.Mishap is not null)
            .Select(m => new Explanation(m.Way, m.Operands, [m.Mishap!], m.Bits).Placed(ways, right))
            .OrderBy(e => e.Bits)
            .Select(e => (e, Walk.Of(e.Way.Datapath, [.. e.Operands.Select(o => (BigInteger)o)])));
    }

    /// <summary>What a slip makes of one row, all above it being right.</summary>
    /// <param name="row">From 1: row 0 is the load, which every walk is given.</param>
    /// <returns>The registers of the machine side by side, as <see cref="RowLayout"/> has them, and the results by them.</returns>
    public static IEnumerable<(Explanation Why, UInt128 Row, ulong[] Results)> Rows(
        Ways ways,
        IReadOnlyList<BigInteger> operands,
        int row
    )
    {
        ulong[] bits = [.. operands.Select(o => (ulong)o)];
        var right = ways.Right.Table(bits);
        var at = ways.Right.Next(0, right[0]);
        for (var i = 1; i < row; i++)
        {
            at = ways.Right.Next(at + 1, right[i]);
        }
        return from slip in ways.Slips.Where(IsOfOneRow)
            let after = slip.Way.After(at, right[row - 1]) & ways.Layout.Mask
            let why = new Explanation(slip.Way, bits, [new Slipped(slip.Slip, SlipExtent.Throughout, [])], 3)
            select (why, after, ways.Right.Results(after));
    }

    /// <summary>What a slip with registers of its own gives in one row depends on rows that nobody sees.</summary>
    private static bool IsOfOneRow(SlipWay slip) => slip.IsLapsable && slip.Way.HiddenBits == 0;
}
