using Reckoner.Diagnostics;
using Reckoner.Notation;
using Reckoner.Numbers;

namespace Reckoner.Slips;

/// <summary>The single slips inside a value of the hardware. Places of bits are numbers and slip by one.</summary>
internal static class ValueSlips
{
    private const string ReadBefore = "read-before";
    internal static readonly Term High = new("slip-high");
    internal static readonly Term Low = new("slip-low");
    private static readonly Span Nowhere = new(0, 0);

    /// <param name="subject">The place or wire that the value is for.</param>
    public static IEnumerable<Edit<Expression>> Of(Expression e, string subject, Scope scope)
    {
        foreach (var (node, kind, facts) in Own(e, scope))
        {
            yield return new Edit<Expression>(
                node,
                kind,
                subject,
                e.Span,
                [.. facts, new Fact("value", Printer.Text(e))]
            )
            {
                Before = kind == ReadBefore ? ((NameReference)e).Name : null,
            };
        }
        for (var i = 0; i < e.Children.Count; i++)
        {
            var child = i;
            if (IsPlace(e, i))
            {
                continue;
            }
            foreach (var edit in Of(e.Children[i], subject, scope))
            {
                yield return edit.Within(changed => Rewriting.With(e, child, changed));
            }
        }
    }

    /// <summary>Places of a slice, the width of extend and the count of copies are numbers, no hardware.</summary>
    private static bool IsPlace(Expression e, int child) =>
        (e is Sliced && child > 0) || (e is Call { Function: "extend" or "copies" } && child == 1) || e is Scaled;

    private static Expression Zero => new NumberLiteral(Nowhere, "0");

    private static Expression One => new NumberLiteral(Nowhere, "1");

    private static Expression Not(Expression e) =>
        new Unary(e.Span, UnaryOperator.Not, e is Unary or NameReference or Sliced ? e : new Bracketed(e.Span, e));

    private static Expression Function(string name, params Expression[] arguments) =>
        new Call(Nowhere, Nowhere, name, arguments);

    private static IEnumerable<(Expression Node, string Kind, IReadOnlyList<Fact> Facts)> Own(Expression e, Scope scope)
    {
        switch (e)
        {
            case Unary { Operator: UnaryOperator.Not } v:
                yield return (v.Operand, "not-forgotten", []);
                break;
            case Unary { Operator: UnaryOperator.Negate, Operand: not NumberLiteral } v:
                yield return (v.Operand, "sign-kept", []);
                yield return (Not(v.Operand), "one-forgotten", []);
                break;
            case Binary { Operator: BinaryOperator.Add } v:
                yield return (new Binary(v.Span, BinaryOperator.Subtract, v.Left, v.Right), "subtract-for-add", []);
                break;
            case Binary { Operator: BinaryOperator.Subtract } v:
                yield return (new Binary(v.Span, BinaryOperator.Add, v.Left, v.Right), "add-for-subtract", []);
                yield return (new Binary(v.Span, BinaryOperator.Subtract, v.Right, v.Left), "sides-exchanged", []);
                yield return (new Binary(v.Span, BinaryOperator.Add, v.Left, Not(v.Right)), "one-forgotten", []);
                break;
            case Comparison { Relations: [var relation] } v:
                foreach (var slip in Compared(v, relation))
                {
                    yield return slip;
                }
                break;
            case Chosen v:
                yield return (v.WhenTrue, "always-first", []);
                yield return (v.Otherwise, "always-second", []);
                yield return (new Chosen(v.Span, v.Otherwise, v.Condition, v.WhenTrue), "choice-turned", []);
                break;
            case Sliced v:
                foreach (var (moved, by) in Moved(v))
                {
                    yield return (moved, "place-off-by-one", [("by", by)]);
                }
                break;
            case BitsLiteral { Digits.Length: > 0 } v:
                yield return (
                    new BitsLiteral(v.Span, "0b" + v.Digits[..^1] + (v.Digits[^1] == '0' ? "1" : "0")),
                    "digit-changed",
                    []
                );
                break;
            case Call { Function: "shl" or "shr", Arguments.Count: 2 } v:
                foreach (var slip in ShiftSlips.Of(v, scope))
                {
                    yield return slip;
                }
                break;
            case Call { Function: "extend" } v:
                foreach (var (inner, outer) in new[] { ("signed", "unsigned"), ("unsigned", "signed") })
                {
                    var other = Function("extend", [Function(inner, v.Arguments[0]), .. v.Arguments.Skip(1)]);
                    yield return (Function(outer, other), "extended-otherwise", [("as", new Term(inner))]);
                }
                break;
            case Call { Function: "abs" } v:
                yield return (Function("unsigned", v.Arguments[0]), "magnitude-not-taken", []);
                break;
            case Joined { Parts: [NumberLiteral { Number.IsZero: true }, var rest] } v
                when scope.TopOf(rest) is { } top:
                yield return (new Joined(v.Span, [top, rest]), "extended-otherwise", [("as", new Term("signed"))]);
                break;
            case NameReference v when scope.Before.TryGetValue(v.Name, out var before):
                yield return (new NameReference(v.Span, before), ReadBefore, []);
                break;
            case NameReference v when scope.Wires.TryGetValue(v.Name, out var isCarry):
                if (isCarry)
                {
                    yield return (new BitsLiteral(v.Span, "0b0"), "carry-ignored", [("wire", v.Name)]);
                }
                foreach (var other in scope.Wires.Keys.Where(w => w != v.Name))
                {
                    yield return (new NameReference(v.Span, other), "other-wire", [("wire", v.Name), ("other", other)]);
                }
                break;
        }
    }

    private static IEnumerable<(Expression, string, IReadOnlyList<Fact>)> Compared(Comparison v, Relation relation)
    {
        Relation? otherStrictness = relation switch
        {
            Relation.Less => Relation.LessOrEqual,
            Relation.LessOrEqual => Relation.Less,
            Relation.Greater => Relation.GreaterOrEqual,
            Relation.GreaterOrEqual => Relation.Greater,
            Relation.Equal or Relation.Unequal => null,
        };
        if (otherStrictness is { } strictness)
        {
            yield return (
                new Comparison(v.Span, v.Terms, [strictness]),
                "strictness",
                [("symbol", strictness.Symbol())]
            );
            yield return (new Comparison(v.Span, [v.Terms[1], v.Terms[0]], v.Relations), "sides-exchanged", []);
        }
        else
        {
            yield return (
                new Comparison(v.Span, v.Terms, [relation == Relation.Equal ? Relation.Unequal : Relation.Equal]),
                "question-turned",
                []
            );
        }
    }

    /// <summary>The same bits one place higher and one lower.</summary>
    internal static IEnumerable<(Sliced Moved, Term By)> Moved(Sliced v)
    {
        foreach (var (op, by) in new[] { (BinaryOperator.Add, High), (BinaryOperator.Subtract, Low) })
        {
            Expression Off(Expression place) => new Binary(place.Span, op, place, One);
            var moved = v.HasLow
                ? new Sliced(v.Span, v.Value, Off(v.High), Off(v.Low))
                : new Sliced(v.Span, v.Value, Off(v.High));
            yield return (moved, by);
        }
    }

    internal static Expression Turned(Expression bit) =>
        bit is NumberLiteral { Number: var n } ? (n.IsZero ? One : Zero) : Not(bit);
}
