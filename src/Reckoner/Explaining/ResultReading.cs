using System.Numerics;
using Reckoner.Datapaths;
using Reckoner.Numbers;

namespace Reckoner.Explaining;

/// <summary>How results may be read off wrongly from registers that hold the right ones.</summary>
internal static class ResultReading
{
    /// <summary>The one thing that makes these results of those; null where there is none, or they are the same.</summary>
    public static ResultOff? Of(Datapath datapath, IReadOnlyList<ulong> held, IReadOnlyList<BigInteger?> got)
    {
        var wrong = Enumerable.Range(0, got.Count).Where(i => got[i] is { } bits && bits != held[i]).ToList();
        if (wrong.Count == 2 && got[wrong[0]] == held[wrong[1]] && got[wrong[1]] == held[wrong[0]])
        {
            return new ResultOff(ResultKind.ResultsExchanged, wrong[0], 0);
        }
        return wrong.Count == 1
            ? Of(datapath.Results[wrong[0]], wrong[0], held[wrong[0]], (ulong)got[wrong[0]]!.Value)
            : null;
    }

    private static ResultOff? Of(Result result, int index, ulong held, ulong got)
    {
        var wrong = held ^ got;
        var low = BitOperations.TrailingZeroCount(wrong);
        return BitOperations.PopCount(wrong) == 1 ? new ResultOff(ResultKind.OneBit, index, low)
            : wrong == 3UL << low && BitOperations.PopCount(held & wrong) == 1
                ? new ResultOff(ResultKind.Exchanged, index, low)
            : Bits.Wrap(-(BigInteger)held, result.Width) == got ? new ResultOff(ResultKind.Negated, index, 0)
            : null;
    }
}
