using Reckoner.Claims;
using Reckoner.Datapaths;

namespace Reckoner.Checking;

/// <summary>
/// dividend * 2^(k + low) = quotient * divisor * 2^low + remainder with remainder &lt; divisor * 2^low, all unsigned, the dividend
/// first: the remainder's low bits are 0, and above them stands that of 2^k times the dividend. When the dividend grows by one,
/// quotient and remainder grow by those of 2^k, which stand still as long as the divisor does.
/// </summary>
public sealed class ScaledQuotientOracle : Oracle
{
    /// <summary>
    /// Dividing takes so many steps of a bit at most, some gates each, which every first step runs again: words of 128 bits and as
    /// many places. Beyond that the law is taken as it is written.
    /// </summary>
    private const int MostDivided = 1 << 15;

    private readonly Operand dividend;
    private readonly Operand divisor;
    private readonly Result quotient;
    private readonly Result remainder;
    private readonly int k;
    private readonly int low;

    private ScaledQuotientOracle(ClaimShape shape, Datapath datapath, IReadOnlyList<Assertion> all)
        : base(all, shape.Equation, shape.Below!)
    {
        dividend = datapath.Operands[shape.First.Index];
        divisor = datapath.Operands[shape.Second!.Index];
        quotient = datapath.Results[shape.Result.Index];
        remainder = datapath.Results[shape.Remainder!.Index];
        (k, low) = shape.Places;
    }

    /// <summary>Of the quotient as many bits are kept as the machine's has; whether it has grown beyond them stands beside it.</summary>
    private int QuotientWidth => Math.Min(quotient.Value.Width, dividend.Width + k);

    /// <summary>Of the quotient of 2^k likewise.</summary>
    private int StepWidth => Math.Min(QuotientWidth, k + 1);

    /// <summary>Remainder, quotient and whether it is too large; the same of what both grow by.</summary>
    public override int StateBits => 2 * divisor.Width + QuotientWidth + StepWidth + 2;

    internal static ScaledQuotientOracle? Of(ClaimShape shape, Datapath datapath, IReadOnlyList<Assertion> all) =>
        datapath.Operands.Count == 2
        && shape is { First.Index: 0, Second.Index: 1, Below: not null }
        && new[] { shape.First, shape.Second, shape.Result, shape.Remainder! }.All(v => !v.IsSigned)
        && ((long)datapath.Operands[0].Width + shape.Places.K) * datapath.Operands[1].Width <= MostDivided
            ? new ScaledQuotientOracle(shape, datapath, all)
            : null;

    internal override IReadOnlyList<int> Start(GateGraph graph, IReadOnlyList<int[]> operands)
    {
        var zeros = Enumerable.Repeat(GateGraph.Zero, k).ToList();
        var d = operands[divisor.Index];
        var (q, r) = QuotientOracle.Divided(graph, [.. zeros, .. operands[dividend.Index]], d);
        var (stepQ, stepR) = QuotientOracle.Divided(graph, [.. zeros, GateGraph.One], d);
        int Any(IEnumerable<int> bits) => bits.Aggregate(GateGraph.Zero, graph.Or);
        return
        [
            .. r,
            .. q[..QuotientWidth],
            Any(q[QuotientWidth..]),
            .. stepR,
            .. stepQ[..StepWidth],
            Any(stepQ[StepWidth..]),
        ];
    }

    internal override (int Holds, IReadOnlyList<int> Next) Build(
        GateGraph graph,
        int[] state,
        IReadOnlyList<int[]> operands,
        Func<Result, int[]> result
    )
    {
        var bits = state.AsSpan();
        int[] Taken(ref Span<int> from, int count)
        {
            var taken = from[..count].ToArray();
            from = from[count..];
            return taken;
        }
        var r = Taken(ref bits, divisor.Width);
        var q = Taken(ref bits, QuotientWidth);
        var isLarge = Taken(ref bits, 1)[0];
        var stepR = Taken(ref bits, divisor.Width);
        var stepQ = Taken(ref bits, StepWidth);
        var isStepLarge = bits[0];

        var d = operands[divisor.Index];
        var isZero = GateGraph.Not(Planes.Differ(graph, d, Planes.Constant(0, d.Length)));
        int[] shifted = [.. Enumerable.Repeat(GateGraph.Zero, low), .. r];
        var differs = graph.Or(
            QuotientOracle.Differ(graph, q, result(quotient)),
            QuotientOracle.Differ(graph, shifted, result(remainder))
        );
        var fails = graph.Or(graph.Or(differs, isZero), isLarge);

        var (sum, carry) = Planes.Sum(graph, r, stepR, GateGraph.Zero);
        int[] more = [.. sum, carry];
        var (less, borrow) = Planes.Difference(graph, more, [.. d, GateGraph.Zero]);
        var nextR = more.Zip(less, (keep, taken) => graph.Choose(borrow, keep, taken)).Take(r.Length);
        int[] wideStep = [.. stepQ, .. Enumerable.Repeat(GateGraph.Zero, q.Length - stepQ.Length)];
        var (nextQ, beyond) = Planes.Sum(graph, q, wideStep, GateGraph.Not(borrow));
        var nextLarge = graph.Or(isLarge, graph.Or(beyond, isStepLarge));
        return (GateGraph.Not(fails), [.. nextR, .. nextQ, nextLarge, .. stepR, .. stepQ, isStepLarge]);
    }
}
