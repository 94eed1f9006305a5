using Reckoner.Numbers;

namespace Reckoner.Notation;

/// <summary>A formula of widths as it is spoken of.</summary>
internal static class LinearFormula
{
    public static Linear Of(Expression formula) =>
        formula switch
        {
            NumberLiteral v => Linear.Of(v.Number),
            NameReference v => Linear.Named(v.Name),
            Scaled v => Linear.Named(v.Name.Name).Times(v.Factor.Number),
            Bracketed v => Of(v.Inner),
            Unary { Operator: UnaryOperator.Negate } v => Of(v.Operand).Times(-1),
            Binary { Operator: BinaryOperator.Add } v => Of(v.Left) + Of(v.Right),
            Binary { Operator: BinaryOperator.Subtract } v => Of(v.Left) - Of(v.Right),
            Binary { Operator: BinaryOperator.Multiply } v => Product(v, Of(v.Left), Of(v.Right)),
            _ => Linear.Named(Printer.Text(formula)),
        };

    private static Linear Product(Expression formula, Linear left, Linear right) =>
        left.IsConstant ? right.Times(left.Constant)
        : right.IsConstant ? left.Times(right.Constant)
        : Linear.Named(Printer.Text(formula));
}
