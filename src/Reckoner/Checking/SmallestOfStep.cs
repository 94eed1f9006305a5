namespace Reckoner.Checking;

/// <summary>
/// The smallest failing operands among the cases of one step. For every case that fails no more is formed than the sum of its
/// magnitudes, in machine words: where operands run from the most negative towards 0, each step has smaller ones than the last.
/// </summary>
internal sealed class SmallestOfStep
{
    /// <summary>Sums of more bits do not fit into machine words.</summary>
    private const int MostBits = 126;

    private readonly CaseSpace space;

    /// <summary>By operand and lane: the operand's bits that run over the lanes; empty where there are too many bits.</summary>
    private readonly Int128[][] ofLane = [];

    public SmallestOfStep(CaseSpace space)
    {
        this.space = space;
        if (space.Bits > MostBits)
        {
            return;
        }
        ofLane = [.. space.Operands.Select(_ => new Int128[space.Lanes])];
        for (var lane = 0; lane < space.Lanes; lane++)
        {
            var operands = space.At(0, lane);
            for (var o = 0; o < operands.Length; o++)
            {
                ofLane[o][lane] = (Int128)operands[o];
            }
        }
    }

    /// <summary>The smallest of the one known and those failing in a step, whose lanes are the ones of the words.</summary>
    public FailingCase? Of(long step, ReadOnlySpan<ulong> failing, FailingCase? known)
    {
        if (space.Bits > MostBits)
        {
            return Smallest(step, PlaneMemory.Ones(failing), known);
        }
        Span<Int128> ofStep = stackalloc Int128[ofLane.Length];
        var first = space.At(step, 0);
        for (var o = 0; o < ofStep.Length; o++)
        {
            ofStep[o] = (Int128)first[o];
        }
        var least = known is null ? Int128.MaxValue : (Int128)known.Rank.Sum;
        var lanes = new List<int>();
        foreach (var lane in PlaneMemory.Ones(failing))
        {
            var sum = Sum(ofStep, lane);
            if (sum < least)
            {
                least = sum;
                lanes.Clear();
            }
            if (sum == least)
            {
                lanes.Add(lane);
            }
        }
        return Smallest(step, lanes, known);
    }

    private FailingCase? Smallest(long step, IEnumerable<int> lanes, FailingCase? known) =>
        lanes.Select(lane => FailingCase.Of(space, space.At(step, lane))).Aggregate(known, FailingCase.Smaller);

    private Int128 Sum(ReadOnlySpan<Int128> ofStep, int lane)
    {
        var sum = Int128.Zero;
        for (var o = 0; o < ofStep.Length; o++)
        {
            var operand = space.Operands[o];
            var bits = ofStep[o] | ofLane[o][lane];
            var isNegative = operand.IsSigned && bits >> (operand.Width - 1) != 0;
            sum += isNegative ? (Int128.One << operand.Width) - bits : bits;
        }
        return sum;
    }
}
