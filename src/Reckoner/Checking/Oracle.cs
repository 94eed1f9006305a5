using Reckoner.Datapaths;
using Reckoner.Notation;

namespace Reckoner.Checking;

/// <summary>
/// The expected results of laws of a known shape, kept in planes and stepped along with the first operand: when it grows by one,
/// so does the remainder (or the quotient, when the remainder would reach the divisor), and a product grows by the other factor.
/// About 8 gates a bit and step instead of the 3n^2 of multiplying out.
/// </summary>
public abstract class Oracle
{
    /// <summary>Bits of state; their inputs follow those of the operands.</summary>
    public abstract int StateBits { get; }

    /// <summary>The laws it stands for; others are checked as they are written.</summary>
    public required IReadOnlyList<Claim> Laws { get; init; }

    /// <summary>The state, lowest bit first, that belongs to operands.</summary>
    internal abstract IReadOnlyList<int> Start(GateGraph graph, IReadOnlyList<int[]> operands);

    /// <summary>Whether the laws hold in the present state, and the state for a first operand larger by one.</summary>
    internal abstract (int Holds, IReadOnlyList<int> Next) Build(
        GateGraph graph,
        int[] state,
        IReadOnlyList<int[]> operands,
        Func<Result, int[]> result
    );

    /// <summary>An oracle for the laws of a machine, or null when they have none of the known shapes.</summary>
    public static Oracle? For(Datapath datapath) =>
        (Oracle?)QuotientOracle.Recognised(datapath) ?? ProductOracle.Recognised(datapath);

    private protected static Expression Bare(Expression e) => e is Bracketed b ? Bare(b.Inner) : e;

    private protected static bool IsName(Expression e, out string name)
    {
        name = (Bare(e) as NameReference)?.Name ?? "";
        return name.Length > 0;
    }

    /// <summary>The two sides of an equation, in both orders.</summary>
    private protected static IEnumerable<(Expression, Expression)> Equation(Claim law) =>
        law.Line is { Kind: ClaimCondition.Always }
        && Bare(law.Line.Formula) is Comparison { Relations: [Relation.Equal], Terms: [var a, var b] }
            ? [(a, b), (b, a)]
            : [];
}

/// <summary>dividend = quotient * divisor + remainder with remainder &lt; divisor, all unsigned, the dividend first.</summary>
public sealed class QuotientOracle : Oracle
{
    private readonly Operand dividend;
    private readonly Operand divisor;
    private readonly Result quotient;
    private readonly Result remainder;

    private QuotientOracle(Operand dividend, Operand divisor, Result quotient, Result remainder)
    {
        this.dividend = dividend;
        this.divisor = divisor;
        this.quotient = quotient;
        this.remainder = remainder;
    }

    /// <summary>The quotient may need all bits of the dividend, the remainder those of the divisor.</summary>
    public override int StateBits => dividend.Width + divisor.Width;

    internal static QuotientOracle? Recognised(Datapath datapath)
    {
        if (datapath.Operands is not [{ IsSigned: false } dividend, { IsSigned: false } divisor])
        {
            return null;
        }
        foreach (var law in datapath.Laws)
        {
            foreach (var (left, right) in Equation(law))
            {
                if (IsName(left, out var a) && a == dividend.Name && Parts(right, divisor.Name) is var (q, r))
                {
                    var quotient = datapath.Results.FirstOrDefault(x => x.Name == q);
                    var remainder = datapath.Results.FirstOrDefault(x => x.Name == r);
                    var below = datapath.Laws.FirstOrDefault(l => IsBelow(l, r, divisor.Name));
                    if (
                        quotient is not null
                        && remainder is not null
                        && below is not null
                        && IsUnsigned(quotient)
                        && IsUnsigned(remainder)
                    )
                    {
                        return new QuotientOracle(dividend, divisor, quotient, remainder) { Laws = [law, below] };
                    }
                }
            }
        }
        return null;
    }

    private static bool IsUnsigned(Result result) => result.Value.Reading != Reading.Signed;

    /// <summary>Quotient and remainder of q * divisor + r, the terms in any order.</summary>
    private static (string Quotient, string Remainder)? Parts(Expression e, string divisor)
    {
        if (Bare(e) is not Binary { Operator: BinaryOperator.Add } sum)
        {
            return null;
        }
        foreach (var (product, rest) in new[] { (sum.Left, sum.Right), (sum.Right, sum.Left) })
        {
            if (
                Bare(product) is Binary { Operator: BinaryOperator.Multiply } p
                && IsName(p.Left, out var a)
                && IsName(p.Right, out var b)
                && IsName(rest, out var r)
            )
            {
                if (b == divisor)
                {
                    return (a, r);
                }
                if (a == divisor)
                {
                    return (b, r);
                }
            }
        }
        return null;
    }

    private static bool IsBelow(Claim law, string remainder, string divisor) =>
        law.Line is { Kind: ClaimCondition.Always }
        && Bare(law.Line.Formula) is Comparison { Relations: [var relation], Terms: [var x, var y] }
        && IsName(x, out var a)
        && IsName(y, out var b)
        && (
            (relation == Relation.Less && a == remainder && b == divisor)
            || (relation == Relation.Greater && a == divisor && b == remainder)
        );

    /// <summary>The sum by hand: a bit of the dividend comes down, and the divisor is taken away where it can be.</summary>
    internal override IReadOnlyList<int> Start(GateGraph graph, IReadOnlyList<int[]> operands)
    {
        var a = operands[dividend.Index];
        int[] d = [.. operands[divisor.Index], GateGraph.Zero];
        var r = Planes.Constant(0, divisor.Width);
        var q = new int[dividend.Width];
        for (var i = a.Length - 1; i >= 0; i--)
        {
            int[] longer = [a[i], .. r];
            var (difference, borrow) = Planes.Difference(graph, longer, d);
            q[i] = GateGraph.Not(borrow);
            r = [.. longer.Zip(difference, (keep, less) => graph.Choose(borrow, keep, less)).Take(r.Length)];
        }
        return [.. r, .. q];
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

    private static int Differ(GateGraph graph, int[] a, int[] b)
    {
        var width = Math.Max(a.Length, b.Length);
        int[] Wide(int[] x) => [.. x, .. Enumerable.Repeat(GateGraph.Zero, width - x.Length)];
        return Planes.Differ(graph, Wide(a), Wide(b));
    }
}

/// <summary>product = multiplicand * multiplier, both operands of one kind; steps along the first.</summary>
public sealed class ProductOracle : Oracle
{
    private readonly Operand first;
    private readonly Operand second;
    private readonly Result product;

    private ProductOracle(Operand first, Operand second, Result product)
    {
        this.first = first;
        this.second = second;
        this.product = product;
    }

    /// <summary>One more than the widths together: a product of signed and unsigned words may need it.</summary>
    public override int StateBits => first.Width + second.Width + 1;

    internal static ProductOracle? Recognised(Datapath datapath)
    {
        if (datapath.Operands is not [var first, var second])
        {
            return null;
        }
        foreach (var law in datapath.Laws)
        {
            foreach (var (left, right) in Equation(law))
            {
                if (
                    IsName(left, out var p)
                    && datapath.Results.FirstOrDefault(r => r.Name == p) is { } product
                    && Bare(right) is Binary { Operator: BinaryOperator.Multiply } m
                    && IsName(m.Left, out var a)
                    && IsName(m.Right, out var b)
                    && ((a == first.Name && b == second.Name) || (a == second.Name && b == first.Name))
                )
                {
                    return new ProductOracle(first, second, product) { Laws = [law] };
                }
            }
        }
        return null;
    }

    internal override IReadOnlyList<int> Start(GateGraph graph, IReadOnlyList<int[]> operands)
    {
        int[] Signed(Operand operand)
        {
            var bits = operands[operand.Index];
            return [.. bits, operand.IsSigned ? bits[^1] : GateGraph.Zero];
        }
        return Planes.ProductSigned(graph, Signed(first), Signed(second))[..StateBits];
    }

    internal override (int Holds, IReadOnlyList<int> Next) Build(
        GateGraph graph,
        int[] state,
        IReadOnlyList<int[]> operands,
        Func<Result, int[]> result
    )
    {
        var p = result(product);
        var width = Math.Max(p.Length + 1, state.Length);
        var got =
            product.Value.Reading == Reading.Signed
                ? Planes.Extended(p, width)
                : [.. p, .. Enumerable.Repeat(GateGraph.Zero, width - p.Length)];
        var expected =
            first.IsSigned || second.IsSigned
                ? Planes.Extended(state, width)
                : [.. state, .. Enumerable.Repeat(GateGraph.Zero, width - state.Length)];
        var other = operands[second.Index];
        var addend = second.IsSigned
            ? Planes.Extended(other, state.Length)
            : [.. other, .. Enumerable.Repeat(GateGraph.Zero, state.Length - other.Length)];
        return (
            GateGraph.Not(Planes.Differ(graph, got, expected)),
            Planes.Sum(graph, state, addend, GateGraph.Zero).Sum
        );
    }
}
