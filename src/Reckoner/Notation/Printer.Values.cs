using Reckoner.Numbers;

namespace Reckoner.Notation;

internal static partial class Printer
{
    /// <summary>How tightly a form binds, from the loosest to the tightest, as in the grammar.</summary>
    private enum Binding
    {
        Value,
        Logic,
        Negation,
        Comparison,
        Sum,
        Product,
        Sign,
        Join,
        Postfix,
    }

    /// <summary>A value or formula as it would be written; brackets are added where the tree needs them to be read back.</summary>
    public static string Text(Expression value) =>
        value.Kind switch
        {
            ExpressionKind.Number => ((NumberLiteral)value).Text,
            ExpressionKind.Bits => ((BitsLiteral)value).Text,
            ExpressionKind.Name => ((NameReference)value).Name,
            ExpressionKind.Scaled => ((Scaled)value).Factor.Text + ((Scaled)value).Name.Name,
            ExpressionKind.Bracketed => $"({Text(((Bracketed)value).Inner)})",
            ExpressionKind.Unary => Text((Unary)value),
            ExpressionKind.Binary => Text((Binary)value),
            ExpressionKind.Comparison => Text((Comparison)value),
            ExpressionKind.Within => Text((Within)value),
            ExpressionKind.Joined => string.Join(':', value.Children.Select(p => Text(p, Binding.Postfix))),
            ExpressionKind.Sliced => Text((Sliced)value),
            ExpressionKind.Call => $"{((Call)value).Function}({string.Join(", ", value.Children.Select(Text))})",
            ExpressionKind.Total => Text((Total)value),
            ExpressionKind.Every => Text((Every)value),
            ExpressionKind.Chosen => Text((Chosen)value),
            ExpressionKind.Unreadable => "?",
        };

    private static string Text(Unary v) =>
        v.Operator switch
        {
            UnaryOperator.Not => $"not {Text(v.Operand, Binding.Negation)}",
            UnaryOperator.Negate => Apart($"-{Text(v.Operand, Binding.Sign)}"),
        };

    private static string Text(Comparison v) =>
        Text(v.Terms[0], Binding.Sum)
        + string.Concat(v.Relations.Select((r, i) => $" {r.Symbol()} {Text(v.Terms[i + 1], Binding.Sum)}"));

    private static string Text(Within v) =>
        $"{Text(v.Value, Binding.Sum)} in {Text(v.Low, Binding.Sum)}..{Text(v.High, Binding.Sum)}";

    private static string Text(Sliced v) =>
        v.HasLow
            ? $"{Text(v.Value, Binding.Postfix)}[{Place(v.High)}..{Place(v.Low)}]"
            : $"{Text(v.Value, Binding.Postfix)}[{Place(v.High)}]";

    private static string Text(Chosen v) =>
        $"{Text(v.WhenTrue, Binding.Logic)} when {Text(v.Condition, Binding.Logic)} else {Text(v.Otherwise)}";

    private static string Text(Total v) =>
        $"sum {v.Index} in {Place(v.Low)}..{Place(v.High)} of {(v.Body is Total ? Text(v.Body) : Text(v.Body, Binding.Product))}";

    private static string Text(Every v) =>
        $"every {v.Index} in {Place(v.Low)}..{Place(v.High)}: {(v.Body is Every ? Text(v.Body) : Text(v.Body, Binding.Logic))}";

    /// <summary>Places of bits and powers stand close together: R[2n-1..n], 2^(n-1).</summary>
    private static string Place(Expression place) => Close(Text(place));

    private static string Close(string text) =>
        text.Split(' ', '(', ')', ',').Any(Keywords.All.Contains)
            ? text
            : Apart(text.Replace(" ", "", StringComparison.Ordinal));

    /// <summary>Two hyphens would begin a comment, and "&lt;-" would be an arrow.</summary>
    private static string Apart(string text)
    {
        while (text.Contains("--", StringComparison.Ordinal))
        {
            text = text.Replace("--", "- -", StringComparison.Ordinal);
        }
        return text.Replace("<-", "< -", StringComparison.Ordinal);
    }

    public static string Symbol(BinaryOperator op) =>
        op switch
        {
            BinaryOperator.Add => "+",
            BinaryOperator.Subtract => "-",
            BinaryOperator.Multiply => "*",
            BinaryOperator.Divide => "/",
            BinaryOperator.Power => "^",
            BinaryOperator.And => "and",
            BinaryOperator.Or => "or",
            BinaryOperator.Xor => "xor",
        };

    private static string Text(Binary value)
    {
        var binding = BindingOf(value);
        if (value.Operator == BinaryOperator.Power)
        {
            // 2n^2 is refused as unclear, so a scaled name is bracketed under a power.
            var root = value.Left is Scaled ? $"({Text(value.Left)})" : Text(value.Left, Binding.Join);
            return $"{root}^{Close(Text(value.Right, Binding.Sign))}";
        }
        var otherChain = binding == Binding.Logic && value.Left is Binary left && left.Operator != value.Operator;
        var first = Text(value.Left, otherChain ? Binding.Negation : binding);
        // What a sum over a range adds up is one product, so it may end a sum, but begin no product.
        var second =
            value.Right is Total && binding == Binding.Sum ? Text(value.Right) : Text(value.Right, binding + 1);
        var isFraction = value is { Operator: BinaryOperator.Divide, Right: NumberLiteral };
        return isFraction ? $"{first}/{second}" : $"{first} {Symbol(value.Operator)} {second}";
    }

    private static string Text(Expression value, Binding atLeast) =>
        BindingOf(value) < atLeast ? $"({Text(value)})" : Text(value);

    private static Binding BindingOf(Expression value) =>
        value switch
        {
            Chosen or Every => Binding.Value,
            Binary { Operator: BinaryOperator.And or BinaryOperator.Or or BinaryOperator.Xor } => Binding.Logic,
            Unary { Operator: UnaryOperator.Not } => Binding.Negation,
            Comparison or Within => Binding.Comparison,
            Binary { Operator: BinaryOperator.Add or BinaryOperator.Subtract } or Total => Binding.Sum,
            Binary { Operator: BinaryOperator.Multiply or BinaryOperator.Divide } => Binding.Product,
            Unary or Binary => Binding.Sign,
            Joined => Binding.Join,
            _ => Binding.Postfix,
        };
}
