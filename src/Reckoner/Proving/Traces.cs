using System.Numerics;
using Reckoner.Datapaths;
using Reckoner.Execution;
using Reckoner.Numbers;

namespace Reckoner.Proving;

/// <summary>What the registers held at the head of each round of a run, at one width.</summary>
/// <param name="Width">Which of the lifted machine's widths it is.</param>
/// <param name="Operands">The numbers they stand for.</param>
internal sealed record Trace(int Width, int N, IReadOnlyList<long> Operands, IReadOnlyList<TraceHead> Heads);

/// <param name="Loop">Counted from 0 among the loops.</param>
/// <param name="Round">Rounds done; behind the last it is their count.</param>
internal sealed record TraceHead(int Loop, int Round, bool IsExit, long[] Registers);

/// <summary>Runs on a few hundred operands, small and large ones and those at the ends of their range: what formulas are guessed from.</summary>
internal static class Traces
{
    private const int RunsEach = 200;
    private const int TriesEach = 20_000;

    /// <summary>How many of the lifted machine's widths, from the first, are run.</summary>
    public const int Widths = 3;

    /// <param name="part">The operands that are drawn.</param>
    public static List<Trace> Of(LiftedMachine machine, OperandPart part)
    {
        var traces = new List<Trace>();
        for (var width = 0; width < Widths; width++)
        {
            var datapath = machine.Datapaths[width];
            var random = new Generator(7);
            var found = 0;
            var first = traces.Count;
            for (var tries = 0; found < RunsEach && tries < TriesEach; tries++)
            {
                var operands = datapath.Operands.Select(o => Drawn(random, o.Width)).ToList();
                if (part.Has(datapath, operands))
                {
                    found++;
                    traces.Add(Run(datapath, width, operands));
                }
            }
            // Where only few operands are of a part, they are enough: what is guessed is shown all the same.
            for (var again = 0; found is > 0 and < RunsEach; again++, found++)
            {
                traces.Add(traces[first + again]);
            }
        }
        // A part without any operands is none to guess about; that there are none is shown.
        return traces.Count is 0 or Widths * RunsEach ? traces : throw new NotReachedException(Obstacle.Samples);
    }

    private static BigInteger Drawn(Generator random, int width)
    {
        var kind = random.Below(100);
        if (kind < 12)
        {
            var half = BigInteger.One << (width - 1);
            return new[] { 0, 1, 2 * half - 1, half, half - 1 }[random.Below(5)];
        }
        var bits = kind < 40 ? 1 + random.Below(width) : width;
        return Bits(random, bits);
    }

    /// <summary>So many bits; more than one number of the generator holds are put together from several.</summary>
    public static BigInteger Bits(Generator random, int bits)
    {
        const int Piece = 30;
        return bits <= Piece
            ? random.Below(1 << bits)
            : (Bits(random, bits - Piece) << Piece) | random.Below(1 << Piece);
    }

    private static Trace Run(Datapath datapath, int width, IReadOnlyList<BigInteger> operands)
    {
        var execution = new Execution<BigInteger>(new NumberWords(operands));
        execution.Load(datapath);
        var heads = new List<TraceHead>();
        var loop = 0;
        foreach (var segment in datapath.Schedule)
        {
            for (var round = 1; round <= segment.Count; round++)
            {
                Note(segment, round - 1);
                foreach (var step in segment.Steps)
                {
                    execution.Take(new Cycle(0, segment, round, step));
                }
            }
            Note(segment, segment.Count);
            loop += segment.IsLoop ? 1 : 0;
        }
        var n = (int)datapath.Widths[0].Value;
        return new(width, n, [.. operands.Select((o, i) => (long)datapath.Operands[i].Number(o))], heads);

        void Note(Segment segment, int round)
        {
            if (segment.IsLoop)
            {
                heads.Add(new(loop, round, round == segment.Count, [.. execution.Registers.Select(r => (long)r)]));
            }
        }
    }
}
