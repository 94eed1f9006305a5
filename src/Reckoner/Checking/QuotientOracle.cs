using Reckoner.Claims;
using Reckoner.Datapaths;

namespace Reckoner.Checking;

/// <summary>dividend = quotient * divisor + remainder with remainder &lt; divisor, all unsigned, the dividend first.</summary>
public sealed class QuotientOracle : Oracle
{
    private readonly Operand dividend;
    private readonly Operand divisor;
    private readonly Result quotient;
    private readonly Result remainder;

    private QuotientOracle(ClaimShape shape, Datapath datapath, IReadOnlyList<Assertion> all)
        : base(all, shape.Equation, shape.Below!)
    {
        dividend = datapath.Operands[shape.First.Index];
        divisor = datapath.Operands[shape.Second!.Index];
        quotient = datapath.Results[shape.Result.Index];
        remainder = datapath.Results[shape.Remainder!.Index];
    }

    /// <summary>The quotient may need all bits of the dividend, the remainder those of the divisor.</summary>
    public override int StateBits => dividend.Width + divisor.Width;

    internal static QuotientOracle? Of(ClaimShape shape, Datapath datapath, IReadOnlyList<Assertion> all) =>
        datapath.Operands.Count == 2
        && shape is { First.Index: 0, Second.Index: 1, Below: not null }
        && new[] { shape.First, shape.Second, shape.Result, shape.Remainder! }.All(v => !v.IsSigned)
            ? new QuotientOracle(shape, datapath, all)
            : null;

    internal override IReadOnlyList<int> Start(GateGraph graph, IReadOnlyList<int[]> operands)
    {
        var (q, r) = Divided(graph, operands[dividend.Index], operands[divisor.Index]);
        return [.. r, .. q];
    }

    /// <summary>The sum by hand: a bit of the dividend comes down, and the divisor is taken away where it can be.</summary>
    internal static (int[] Quotient, int[] Remainder) Divided(GateGraph graph, int[] dividend, int[] divisor)
    {
        int[] d = [.. divisor, GateGraph.Zero];
        var r = Planes.Constant(0, divisor.Length);
        var q = new int[dividend.Length];
        for (var i = dividend.Length - 1; i >= 0; i--)
        {
            int[] longer = [dividend[i], .. r];
            var (difference, borrow) = Planes.Difference(graph, longer, d);
            q[i] = GateGraph.Not(borrow);
            r = [.. longer.Zip(difference, (keep, less) => graph.Choose(borrow, keep, less)).Take(r.Length)];
        }
        return (q, r);
    }

    internal override (int Holds, IReadOnlyList<int> Next) Build(
        GateGraph graph,
        int[] state,
        IReadOnlyList<int[]> operands,
        Func<Result, int[]> result
    )
    {
        var r = state[..divisor.Width];
        var q = state[divisor.Width..];
        var d = operands[divisor.Index];
        var isZero = GateGraph.Not(Planes.Differ(graph, d, Planes.Constant(0, d.Length)));
        var differs = graph.Or(Differ(graph, q, result(quotient)), Differ(graph, r, result(remainder)));
        var (more, _) = Planes.Sum(graph, r, Planes.Constant(0, r.Length), GateGraph.One);
        var stays = Planes.Differ(graph, more, d);
        var nextR = more.Select(bit => graph.And(bit, stays));
        var (nextQ, _) = Planes.Sum(graph, q, Planes.Constant(0, q.Length), GateGraph.Not(stays));
        return (GateGraph.Not(graph.Or(differs, isZero)), [.. nextR, .. nextQ]);
    }

    /// <summary>Whether two unsigned words, of any widths, differ.</summary>
    internal static int Differ(GateGraph graph, int[] a, int[] b)
    {
        var width = Math.Max(a.Length, b.Length);
        int[] Wide(int[] x) => [.. x, .. Enumerable.Repeat(GateGraph.Zero, width - x.Length)];
        return Planes.Differ(graph, Wide(a), Wide(b));
    }
}
