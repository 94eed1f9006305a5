using Reckoner.Datapaths;
using Reckoner.Notation;

namespace Reckoner.Drawing;

/// <summary>The sums that are done by hand in written form.</summary>
public enum HandKind
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
public sealed record HandSum(HandKind Kind, Operand First, Operand? Second, Result Result)
{
    /// <summary>Null for a machine without such a law.</summary>
    public static HandSum? Of(Datapath datapath) =>
        datapath
            .Laws.Where(l => l.Line.Kind == ClaimCondition.Always)
            .SelectMany(l => Parts(l.Line.Formula))
            .OfType<Comparison>()
            .Select(c => Of(c, datapath))
            .FirstOrDefault(s => s is not null);

    private static IEnumerable<Expression> Parts(Expression formula) =>
        formula is Binary { Operator: BinaryOperator.And } both
            ? Parts(both.Left).Concat(Parts(both.Right))
            : [formula];

    private static HandSum? Of(Comparison law, Datapath datapath)
    {
        var (left, right) = (law.Terms[0], law.Terms[1]);
        return law.Relations[0] == Relation.Equal
                ? Division(left, right, datapath)
                    ?? Multiplication(left, right, datapath)
                    ?? Root(left, right, datapath)
            : law.Relations[0] == Relation.LessOrEqual && OperandOf(right, datapath) is { } radicand
                ? Root(radicand, left, datapath)
            : null;
    }

    private static HandSum? Division(Expression left, Expression right, Datapath datapath)
    {
        if (
            OperandOf(left, datapath) is not { } first
            || right
                is not Binary
                {
                    Operator: BinaryOperator.Add,
                    Left: Binary { Operator: BinaryOperator.Multiply } product
                } sum
            || ResultOf(sum.Right, datapath) is null
        )
        {
            return null;
        }
        var second = OperandOf(product.Left, datapath) ?? OperandOf(product.Right, datapath);
        var quotient = ResultOf(product.Left, datapath) ?? ResultOf(product.Right, datapath);
        return second is null || quotient is null ? null : new HandSum(HandKind.Division, first, second, quotient);
    }

    private static HandSum? Multiplication(Expression left, Expression right, Datapath datapath) =>
        ResultOf(left, datapath) is { } result
        && right is Binary { Operator: BinaryOperator.Multiply } product
        && OperandOf(product.Left, datapath) is { } first
        && OperandOf(product.Right, datapath) is { } second
            ? new HandSum(HandKind.Multiplication, first, second, result)
            : null;

    private static HandSum? Root(Expression left, Expression right, Datapath datapath) =>
        OperandOf(left, datapath) is { } radicand
        && right is Binary { Operator: BinaryOperator.Add } sum
        && ResultOf(sum.Right, datapath) is not null
            ? Root(radicand, sum.Left, datapath)
            : null;

    private static HandSum? Root(Operand radicand, Expression square, Datapath datapath) =>
        square is Binary { Operator: BinaryOperator.Power, Right: NumberLiteral { Number.IsOne: false } two } power
        && two.Number == 2
        && ResultOf(power.Left, datapath) is { } root
            ? new HandSum(HandKind.Root, radicand, null, root)
            : null;

    private static Operand? OperandOf(Expression term, Datapath datapath) =>
        term is NameReference { Name: var name } ? datapath.Operands.FirstOrDefault(o => o.Name == name) : null;

    private static Result? ResultOf(Expression term, Datapath datapath) =>
        term is NameReference { Name: var name } ? datapath.Results.FirstOrDefault(r => r.Name == name) : null;
}
