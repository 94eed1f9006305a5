using System.Numerics;
using Reckoner.Datapaths;
using Reckoner.Running;

namespace Reckoner.Drawing;

/// <summary>A digit that a multiplier was taken for: its row is so many times the multiplicand, at its place.</summary>
/// <param name="Digit">Below zero where the row is taken away.</param>
/// <param name="Place">In base 2; 0 are the ones.</param>
/// <param name="Cycles">The cycles that added the row; null where none came to it.</param>
internal sealed record HandDigit(int Digit, int Place, CycleSpan? Cycles);

/// <summary>
/// The digits that a machine took its multiplier for, told by what its rounds added: 0 and 1 as on paper, or -1, or several bits
/// at a time.
/// </summary>
internal static class HandDigits
{
    private const int MostBits = 4;

    /// <summary>A digit for each round, the lowest first; null where the product is not the sum of one row a round.</summary>
    public static IReadOnlyList<HandDigit>? Of(Walk walk, HandSum sum)
    {
        var (first, second) = (Number(walk, sum.First), Number(walk, sum.Second!));
        if (Gained(walk, sum) is not { } tally || tally.Gains.Aggregate((a, b) => a + b) != first * second)
        {
            return null;
        }
        if (!first.IsZero)
        {
            return Of(walk, tally, first, sum.Second!.Width);
        }
        // Nothing times a digit does not tell the digit; once the multiplicand does. The rounds are the same, or nothing is said.
        var once = Walk.Traced(
            walk.Datapath,
            [.. walk.Operands.Select((o, i) => i == sum.First.Index ? BigInteger.One : o)]
        );
        var same = once.Rows.Select(r => (r.Repeat, r.Round)).SequenceEqual(walk.Rows.Select(r => (r.Repeat, r.Round)));
        return same && tally.Gains.All(g => g.IsZero) ? Of(once, sum) : null;
    }

    private static BigInteger Number(Walk walk, Operand operand) => operand.Number(walk.Operands[operand.Index]);

    private static Tally? Gained(Walk walk, HandSum sum)
    {
        var result = walk.Datapath.Results.ToList().IndexOf(sum.Result);
        return Tally.Of(walk, Provenance.Of(walk), result) is { Loaded.IsZero: true } tally ? tally : null;
    }

    private static IReadOnlyList<HandDigit>? Of(Walk walk, Tally tally, BigInteger first, int width)
    {
        var adding = walk.Rows.Where(r => !tally.Gains[r.Cycle].IsZero).ToList();
        var loops = (adding.Count > 0 ? adding : walk.Rows.Where(r => r.Repeat > 0))
            .Select(r => r.Repeat)
            .Distinct()
            .ToList();
        if (loops is not [var loop] || walk.Datapath.Schedule.FirstOrDefault(s => s.Repeat == loop) is not { } segment)
        {
            return null;
        }
        var step = adding.FirstOrDefault()?.Step;
        var spans = walk
            .Rows.Where(r => r.Repeat == loop)
            .GroupBy(r => r.Round)
            .Select(round => Added(round, tally, step))
            .ToList();
        var fewest = (width + segment.Count - 1) / segment.Count;
        return HandCycles.AreAll(tally, spans)
            ? Enumerable
                .Range(fewest, Math.Max(MostBits - fewest + 1, 0))
                .Select(bits => Of(spans, tally, first, bits))
                .FirstOrDefault(d => d is not null)
            : null;
    }

    /// <summary>The cycles of a round that added; in a round that added nothing, the step that adds in others.</summary>
    private static CycleSpan Added(IEnumerable<Row> round, Tally tally, Step? step)
    {
        var rows = round.ToList();
        var own = HandCycles.Gaining(rows, tally).ToList();
        var idle = rows.Where(r => r.Step == step).ToList();
        return CycleSpan.Over(own.Count > 0 ? own : (idle.Count > 0 ? idle : rows).Select(r => r.Cycle));
    }

    private static List<HandDigit>? Of(List<CycleSpan> rounds, Tally tally, BigInteger first, int bits)
    {
        var digits = new List<HandDigit>();
        foreach (var (cycles, round) in rounds.Select((s, i) => (s, i)))
        {
            var row = first << (bits * round);
            var digit = BigInteger.DivRem(HandCycles.Gain(tally, cycles), row, out var rest);
            if (!rest.IsZero || BigInteger.Abs(digit) >= 1 << bits)
            {
                return null;
            }
            digits.Add(new HandDigit((int)digit, bits * round, cycles));
        }
        return digits;
    }
}
