using Reckoner.Claims;
using Reckoner.Datapaths;

namespace Reckoner.Checking;

/// <summary>product = multiplicand * multiplier, signed or not; steps along the first.</summary>
public sealed class ProductOracle : Oracle
{
    private readonly Operand first;
    private readonly Operand second;
    private readonly Result product;

    private ProductOracle(ClaimShape shape, Datapath datapath, IReadOnlyList<Assertion> all)
        : base(all, shape.Equation)
    {
        first = datapath.Operands[shape.First.Index];
        second = datapath.Operands[shape.Second!.Index];
        product = datapath.Results[shape.Result.Index];
    }

    /// <summary>One more than the widths together: a product of signed and unsigned words may need it.</summary>
    public override int StateBits => first.Width + second.Width + 1;

    internal static ProductOracle? Of(ClaimShape shape, Datapath datapath, IReadOnlyList<Assertion> all) =>
        datapath.Operands.Count == 2 && shape is { First.Index: 0, Second.Index: 1 }
            ? new ProductOracle(shape, datapath, all)
            : null;

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
