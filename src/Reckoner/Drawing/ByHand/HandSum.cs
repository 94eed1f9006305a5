using Reckoner.Claims;
using Reckoner.Datapaths;

namespace Reckoner.Drawing;

/// <summary>The sums that are done by hand in written form.</summary>
internal enum HandKind
{
    Division,
    Multiplication,
    Root,
}

/// <summary>
/// Which sum a machine does, told by its laws alone: a = q * b + r is a division, p = a * b a multiplication, x = r^2 + s or
/// r^2 &lt;= x a root, where a, b and x are operands and the others results.
/// </summary>
/// <param name="First">The dividend, the multiplicand or the radicand.</param>
/// <param name="Second">The divisor or the multiplier; a root has none.</param>
/// <param name="Result">The quotient, the product or the root.</param>
internal sealed record HandSum(HandKind Kind, Operand First, Operand? Second, Result Result)
{
    /// <summary>Null for a machine without such a law.</summary>
    public static HandSum? Of(Datapath datapath) =>
        ClaimShape
            .Of(datapath.Laws)
            .Select(s => (Shape: s, Kind: KindOf(s.Kind)))
            .FirstOrDefault(s => s.Kind is not null)
            is ({ } shape, { } kind)
            ? new HandSum(
                kind,
                datapath.Operands[shape.First.Index],
                shape.Second is null ? null : datapath.Operands[shape.Second.Index],
                datapath.Results[shape.Result.Index]
            )
            : null;

    /// <summary>Null for what is not done by hand.</summary>
    private static HandKind? KindOf(ShapeKind kind) =>
        kind switch
        {
            ShapeKind.Division => HandKind.Division,
            ShapeKind.ScaledDivision => null,
            ShapeKind.Product => HandKind.Multiplication,
            ShapeKind.Root => HandKind.Root,
        };
}
