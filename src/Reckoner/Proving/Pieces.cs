using System.Numerics;
using Reckoner.Datapaths;
using Reckoner.Numbers;

namespace Reckoner.Proving;

/// <summary>Bits of a register that formulas speak of as one number.</summary>
/// <param name="Variable">What stands for it.</param>
/// <param name="IsSigned">The whole register in two's complement.</param>
internal sealed record Piece(string Name, Register Register, Extent High, Extent Low, bool IsSigned, int Variable)
{
    public Extent Width => High - Low + 1;

    public bool IsBit => Width == 1;

    public long Number(long bits, int n, int i)
    {
        var width = Width.At(n, i);
        var own = width <= 0 ? 0 : (bits >> Low.At(n, i)) & ((1L << width) - 1);
        return IsSigned && width > 0 && own >> (width - 1) != 0 ? own - (1L << width) : own;
    }

    /// <summary>The same of a register of any width.</summary>
    public BigInteger Number(BigInteger bits, int n, int i)
    {
        var width = Width.At(n, i);
        var own = width <= 0 ? BigInteger.Zero : Bits.Wrap(bits >> Low.At(n, i), width);
        return IsSigned && width > 0 ? Bits.AsSigned(own, width) : own;
    }
}

/// <summary>
/// Into which pieces registers come apart at the head of a round and behind the last one. A register of which bits move a fixed way
/// in every round is cut at the place that moves with them.
/// </summary>
internal sealed class Pieces(LiftedMachine machine, IReadOnlyList<Trace> traces, Variables variables)
{
    private const int RunsLookedAt = 120;

    /// <summary>How far bits may move in a round.</summary>
    private static readonly int[] Steps = [1, 2];

    private readonly List<Trace> widest = [.. traces.Where(t => t.Width == Traces.Widths - 1).Take(RunsLookedAt)];

    public List<Piece> AtExit(int segment)
    {
        var pieces = new List<Piece>();
        foreach (var register in machine.Datapath.Registers)
        {
            pieces.AddRange(
                Cut(register, register.IsSigned || widest.Count == 0 ? [] : Fixed(register, segment), isExit: true)
            );
        }
        return pieces;
    }

    public List<Piece> AtHead(int segment, int loop)
    {
        var pieces = new List<Piece>();
        foreach (var register in machine.Datapath.Registers)
        {
            pieces.AddRange(
                Cut(
                    register,
                    widest.Count > 0 && Moving(register, segment, loop) is { } cut ? [cut] : [],
                    isExit: false
                )
            );
        }
        return pieces;
    }

    private List<Piece> Cut(Register register, IReadOnlyList<Extent> cuts, bool isExit)
    {
        var width = machine.Width(register);
        if (cuts.Count == 0)
        {
            return [new(register.Name, register, width - 1, 0, register.IsSigned, variables.Of(register.Name))];
        }
        var pieces = new List<Piece>();
        var top = width;
        foreach (var cut in cuts.OrderByDescending(c => c.At(widest[0].N, 1)).Append(0))
        {
            var name =
                isExit ? $"{register.Name}[{top - 1}..{cut}]"
                : pieces.Count == 0 ? register.Name + ".high"
                : register.Name + ".low";
            pieces.Add(new(name, register, top - 1, cut, false, variables.Of(name)));
            top = cut;
        }
        return pieces;
    }

    // ---- places at which the results, and the steps behind the loop, take a register apart

    private List<Extent> Fixed(Register register, int segment)
    {
        var cuts = new List<Extent>();
        var values = machine
            .Datapath.Schedule.Skip(segment + 1)
            .SelectMany(s => s.Steps)
            .SelectMany(s => s.Moments)
            .SelectMany(m => m)
            .SelectMany(a => a.All)
            .SelectMany(Values)
            .Concat(machine.Datapath.Results.Select(r => r.Value));
        foreach (
            var slice in values
                .SelectMany(All)
                .Where(v => v.Operation == Operation.Slice && v.Inputs[0].Register == register)
        )
        {
            Note(machine.Low(slice));
            Note(machine.Low(slice) + machine.Width(slice));
        }
        return cuts;

        void Note(Extent place)
        {
            if (place != 0 && place != machine.Width(register) && !cuts.Contains(place))
            {
                cuts.Add(place);
            }
        }
    }

    private static IEnumerable<Value> Values(Act act) =>
        act.Match<IEnumerable<Value>>(
            let: a => [a.Wire.Value],
            transfer: a => [a.Value],
            branch: a => [a.Condition],
            arms: a => [a.Subject],
            hold: _ => [],
            remark: _ => []
        );

    private static IEnumerable<Value> All(Value value) => value.Inputs.SelectMany(All).Prepend(value);

    // ---- places that move

    /// <summary>The place that parts what has entered a register from what will leave it; null where nothing moves.</summary>
    private Extent? Moving(Register register, int segment, int loop)
    {
        var (width, n) = (machine.Datapaths[Traces.Widths - 1].Registers[register.Index].Width, widest[0].N);
        if (width < 3 || register.IsSigned)
        {
            return null;
        }
        var heads = widest.ConvertAll(t =>
            t.Heads.Where(h => h.Loop == loop).Select(h => h.Registers[register.Index]).ToList()
        );
        var moves = heads.SelectMany(h => h.Zip(h.Skip(1).SkipLast(1))).ToList();
        if (moves.TrueForAll(m => m.First == m.Second))
        {
            return null;
        }
        var found = Steps
            .SelectMany(by =>
                new[] { (Top: TopLeft(moves, width, by), By: by), (Top: -TopRight(moves, width, by), By: -by) }
            )
            .MaxBy(f => (Math.Abs(f.Top), -f.Top));
        var step = Math.Abs(found.By);
        if (Math.Abs(found.Top) < 2 + step)
        {
            return null;
        }
        Extent cut;
        if (found.By > 0)
        {
            cut = Extent.Rounds * step;
        }
        else
        {
            // What moves right is a field of the load; its length as a formula.
            var lengths = new[] { machine.Width(register), new Extent(1, 0, 0) }.Concat(Fixed(register, segment));
            if (lengths.Where(l => l.At(n, 0) == 1 - found.Top).Take(1).ToList() is not [var length])
            {
                return null;
            }
            cut = length - Extent.Rounds * step;
        }
        return IsUseful(heads, cut, n, found.By > 0) && LiesInside(register, segment, cut) ? cut : null;
    }

    /// <summary>The highest bit, below the top, from which down all bits of a round stand <paramref name="by"/> higher in the next.</summary>
    private static int TopLeft(List<(long Old, long New)> moves, int width, int by)
    {
        var top = width - 1;
        foreach (var (old, next) in moves)
        {
            while (top >= by + 1 && (((next >> by) ^ old) & ((1L << (top + 1 - by)) - 1)) != 0)
            {
                top--;
            }
        }
        return top;
    }

    private static int TopRight(List<(long Old, long New)> moves, int width, int by)
    {
        var top = width - 1;
        foreach (var (old, next) in moves)
        {
            while (top >= by + 1 && (((old >> by) ^ next) & ((1L << (top + 1 - by)) - 1)) != 0)
            {
                top--;
            }
        }
        return top;
    }

    /// <summary>Something other than zeros stands on both sides.</summary>
    private static bool IsUseful(List<List<long>> heads, Extent cut, int n, bool isLeft)
    {
        var (isHighZero, isLowZero) = (true, true);
        foreach (var head in heads)
        {
            for (var i = 0; i < head.Count; i++)
            {
                var place = cut.At(n, i);
                if (place < 0)
                {
                    return false;
                }
                isHighZero &= head[i] >> place == 0;
                isLowZero &= (head[i] & ((1L << place) - 1)) == 0;
            }
        }
        return !isHighZero && (isLeft || !isLowZero);
    }

    private bool LiesInside(Register register, int segment, Extent cut)
    {
        var count = machine.Count(machine.Datapath.Schedule[segment]);
        var region = new Region(machine.Least, count - 1);
        return region.NeverNegative(cut) && region.NeverNegative(machine.Width(register) - cut);
    }
}
