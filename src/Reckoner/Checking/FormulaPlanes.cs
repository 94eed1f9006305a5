using System.Numerics;
using Reckoner.Binding;
using Reckoner.Notation;
using Reckoner.Numbers;

namespace Reckoner.Checking;

/// <summary>
/// Turns formulas over operands and results into gates. A number is a fraction of two words in two's complement as wide as its
/// value can need, the lower one positive; <see cref="Fraction.Defined"/> is 0 in the cases where it has no value (a division
/// by zero), and a comparison is then false as in <see cref="Formulas"/>.
/// </summary>
public sealed class FormulaPlanes(
    GateGraph graph,
    IReadOnlyDictionary<string, Rational> numbers,
    IReadOnlyDictionary<string, int[]> words
)
{
    /// <summary>
    /// Gates for one claim; a product of operands of 128 bits needs an eighth of them. More would take more memory than a
    /// check may.
    /// </summary>
    private const int MostGates = 1 << 18;

    private Expression? claimed;
    private int most;

    /// <summary>A number by cases: signed words, the lower one above zero; one literal where it is defined.</summary>
    private sealed record Fraction(int[] Upper, int[] Lower, int Defined);

    /// <summary>A truth by cases, and where it is defined.</summary>
    private readonly record struct Truth(int Holds, int Defined);

    private static readonly int[] Whole = [GateGraph.One, GateGraph.Zero];

    /// <summary>The literal of "is so": 1 exactly where the formula has a value and it is true.</summary>
    public int Holds(Expression formula)
    {
        Begin(formula);
        var truth = TruthOf(formula);
        return graph.And(truth.Holds, truth.Defined);
    }

    /// <summary>The literal of a claim that holds, by the rules of <see cref="ClaimJudge.Holds"/>.</summary>
    public int Holds(ClaimLine claim)
    {
        Begin(claim.Formula);
        var formula = TruthOf(claim.Formula);
        var isSo = graph.And(formula.Holds, formula.Defined);
        if (claim.Kind == ClaimCondition.Always)
        {
            return isSo;
        }
        var condition = TruthOf(claim.Condition!);
        if (claim.Kind == ClaimCondition.When)
        {
            return graph.Or(graph.And(GateGraph.Not(condition.Holds), condition.Defined), isSo);
        }
        var same = GateGraph.Not(graph.Xor(formula.Holds, condition.Holds));
        return graph.And(same, graph.And(formula.Defined, condition.Defined));
    }

    private void Begin(Expression formula) => (claimed, most) = (formula, graph.Gates.Count + MostGates);

    private Truth TruthOf(Expression e)
    {
        switch (e)
        {
            case Bracketed f:
                return TruthOf(f.Inner);
            case Unary { Operator: UnaryOperator.Not } f:
                var inner = TruthOf(f.Operand);
                return inner with { Holds = GateGraph.Not(inner.Holds) };
            case Binary { Operator: BinaryOperator.And or BinaryOperator.Or or BinaryOperator.Xor } f:
                return TruthOf(f);
            case Comparison f:
                return TruthOf(f);
            case Within f:
                var value = NumberOf(f.Value);
                var (low, high) = (NumberOf(f.Low), NumberOf(f.High));
                var defined = graph.And(value.Defined, graph.And(low.Defined, high.Defined));
                return new Truth(
                    graph.And(Compared(Relation.LessOrEqual, low, value), Compared(Relation.LessOrEqual, value, high)),
                    defined
                );
            default:
                throw new InvalidOperationException($"{Printer.Text(e)} is no truth");
        }
    }

    /// <summary>"and" and "or" stop at the first side that decides; what follows may then be undefined.</summary>
    private Truth TruthOf(Binary f)
    {
        var (a, b) = (TruthOf(f.Left), TruthOf(f.Right));
        if (f.Operator == BinaryOperator.Xor)
        {
            return new Truth(graph.Xor(a.Holds, b.Holds), graph.And(a.Defined, b.Defined));
        }
        var goesOn = f.Operator == BinaryOperator.And ? a.Holds : GateGraph.Not(a.Holds);
        var holds = f.Operator == BinaryOperator.And ? graph.And(a.Holds, b.Holds) : graph.Or(a.Holds, b.Holds);
        return new Truth(holds, graph.And(a.Defined, graph.Or(GateGraph.Not(goesOn), b.Defined)));
    }

    /// <summary>A chain stops at the first relation that fails, as <see cref="Formulas"/> reads it.</summary>
    private Truth TruthOf(Comparison f)
    {
        var holds = GateGraph.One;
        var left = NumberOf(f.Terms[0]);
        var defined = left.Defined;
        for (var i = 0; i < f.Relations.Count; i++)
        {
            var right = NumberOf(f.Terms[i + 1]);
            defined = graph.And(defined, graph.Or(GateGraph.Not(holds), right.Defined));
            holds = graph.And(holds, Compared(f.Relations[i], left, right));
            left = right;
        }
        return new Truth(holds, defined);
    }

    private int Compared(Relation relation, Fraction a, Fraction b)
    {
        var (left, right) =
            ReferenceEquals(a.Lower, b.Lower) && IsWhole(a)
                ? (a.Upper, b.Upper)
                : (Times(a.Upper, b.Lower), Times(b.Upper, a.Lower));
        var width = Math.Max(left.Length, right.Length);
        (left, right) = (Planes.Extended(left, width), Planes.Extended(right, width));
        return relation switch
        {
            Relation.Equal => GateGraph.Not(Planes.Differ(graph, left, right)),
            Relation.Unequal => Planes.Differ(graph, left, right),
            Relation.Less => Less(left, right),
            Relation.LessOrEqual => GateGraph.Not(Less(right, left)),
            Relation.Greater => Less(right, left),
            Relation.GreaterOrEqual => GateGraph.Not(Less(left, right)),
        };
    }

    private static bool IsWhole(Fraction f) =>
        f.Lower.Skip(1).All(l => l == GateGraph.Zero) && f.Lower[0] == GateGraph.One;

    private int Less(int[] a, int[] b)
    {
        int[] turnedA = [.. a[..^1], GateGraph.Not(a[^1])];
        int[] turnedB = [.. b[..^1], GateGraph.Not(b[^1])];
        return Planes.Difference(graph, turnedA, turnedB).Borrow;
    }

    private Fraction NumberOf(Expression e)
    {
        if (Constant(e) is { } constant)
        {
            return new Fraction(
                Literals(constant.Numerator),
                constant.IsWhole ? Whole : Literals(constant.Denominator),
                GateGraph.One
            );
        }
        switch (e)
        {
            case Bracketed f:
                return NumberOf(f.Inner);
            case NameReference f:
                return new Fraction(words[f.Name], Whole, GateGraph.One);
            case Scaled f:
                return Product(NumberOf(f.Factor), NumberOf(f.Name));
            case Unary f:
                var operand = NumberOf(f.Operand);
                return operand with { Upper = Negated(operand.Upper) };
            case Binary { Operator: BinaryOperator.Add } f:
                return Sum(NumberOf(f.Left), NumberOf(f.Right));
            case Binary { Operator: BinaryOperator.Subtract } f:
                var right = NumberOf(f.Right);
                return Sum(NumberOf(f.Left), right with { Upper = Negated(right.Upper) });
            case Binary { Operator: BinaryOperator.Multiply } f:
                return Product(NumberOf(f.Left), NumberOf(f.Right));
            case Binary { Operator: BinaryOperator.Divide } f:
                return Quotient(NumberOf(f.Left), NumberOf(f.Right));
            case Binary { Operator: BinaryOperator.Power } f:
                return Power(f);
            case Call f:
                return Function(f);
            default:
                throw new InvalidOperationException($"{Printer.Text(e)} is no number");
        }
    }

    /// <summary>A formula that mentions no operand or result is a number once and for all.</summary>
    private Rational? Constant(Expression e) =>
        Formulas.Mentioned(e).Any(words.ContainsKey) ? null : new Formulas(numbers).Number(e);

    private static int[] Literals(BigInteger number) =>
        Planes.Constant(
            Bits.Wrap(number, Bits.Needed(number, isSigned: true) + 1),
            Bits.Needed(number, isSigned: true) + 1
        );

    private int[] Negated(int[] a)
    {
        var wide = Planes.Extended(a, a.Length + 1);
        return Planes.Difference(graph, Planes.Constant(0, wide.Length), wide).Difference;
    }

    private int[] Times(int[] a, int[] b)
    {
        if (b.Length == 2 && b[0] == GateGraph.One && b[1] == GateGraph.Zero)
        {
            return a;
        }
        Afford((long)a.Length * b.Length);
        return Planes.ProductSigned(graph, a, b);
    }

    private void Afford(long gates)
    {
        if (graph.Gates.Count + gates > most)
        {
            throw new LawBeyondPlanesException(claimed!);
        }
    }

    private int[] Plus(int[] a, int[] b)
    {
        var width = Math.Max(a.Length, b.Length) + 1;
        return Planes.Sum(graph, Planes.Extended(a, width), Planes.Extended(b, width), GateGraph.Zero).Sum;
    }

    private Fraction Sum(Fraction a, Fraction b) =>
        new(
            Plus(Times(a.Upper, b.Lower), Times(b.Upper, a.Lower)),
            Times(a.Lower, b.Lower),
            graph.And(a.Defined, b.Defined)
        );

    private Fraction Product(Fraction a, Fraction b) =>
        new(Times(a.Upper, b.Upper), Times(a.Lower, b.Lower), graph.And(a.Defined, b.Defined));

    /// <summary>Upper and lower multiplied crosswise; the sign of a negative divisor goes to the upper word.</summary>
    private Fraction Quotient(Fraction a, Fraction b)
    {
        var isNegative = b.Upper[^1];
        var upper = Times(a.Upper, b.Lower);
        var lower = Times(Magnitude(b.Upper), a.Lower);
        var signed = Chosen(isNegative, Negated(upper), Planes.Extended(upper, upper.Length + 1));
        var isZero = GateGraph.Not(Planes.Differ(graph, b.Upper, Planes.Constant(0, b.Upper.Length)));
        return new Fraction(signed, lower, graph.And(GateGraph.Not(isZero), graph.And(a.Defined, b.Defined)));
    }

    /// <summary>One bit wider, so that the most negative word has a magnitude.</summary>
    private int[] Magnitude(int[] a) => Chosen(a[^1], Negated(a), Planes.Extended(a, a.Length + 1));

    private int[] Chosen(int condition, int[] a, int[] b) => [.. a.Zip(b, (x, y) => graph.Choose(condition, x, y))];

    private Fraction Power(Binary f)
    {
        if (Constant(f.Right) is { } power)
        {
            return Power(NumberOf(f.Left), (int)power.Numerator);
        }
        // A power that depends on the case is chosen among the few it can be.
        var exponent = NumberOf(f.Right);
        var bits = exponent.Upper.Length;
        if (bits > 7 || !IsWhole(exponent))
        {
            throw new LawBeyondPlanesException(f);
        }
        var root = NumberOf(f.Left);
        var all = Enumerable
            .Range(0, 1 << bits)
            .Select(i => Power(root, i < 1 << (bits - 1) ? i : i - (1 << bits)))
            .ToList();
        for (var bit = 0; bit < bits; bit++)
        {
            all =
            [
                .. Enumerable
                    .Range(0, all.Count / 2)
                    .Select(i => Chosen(exponent.Upper[bit], all[2 * i + 1], all[2 * i])),
            ];
        }
        return all[0];
    }

    private Fraction Chosen(int condition, Fraction a, Fraction b)
    {
        int[] Alike(int[] x, int[] other) => Planes.Extended(x, Math.Max(x.Length, other.Length));
        return new Fraction(
            Chosen(condition, Alike(a.Upper, b.Upper), Alike(b.Upper, a.Upper)),
            Chosen(condition, Alike(a.Lower, b.Lower), Alike(b.Lower, a.Lower)),
            graph.Choose(condition, a.Defined, b.Defined)
        );
    }

    private Fraction Power(Fraction root, int power)
    {
        var one = new Fraction(Whole, Whole, root.Defined);
        var product = Enumerable.Repeat(root, Math.Abs(power)).Aggregate(one, Product);
        return power >= 0 ? product : Quotient(one, product);
    }

    private Fraction Function(Call f)
    {
        if (Formulas.Logarithm(f) is { } argument)
        {
            return Logarithm(f.Function == "floor", NumberOf(argument), f);
        }
        var x = NumberOf(f.Arguments[0]);
        return f.Function switch
        {
            "abs" => x with { Upper = Magnitude(x.Upper) },
            _ when IsWhole(x) => x,
            "floor" => x with { Upper = Floor(x.Upper, x.Lower), Lower = Whole },
            "ceil" => x with { Upper = Negated(Floor(Negated(x.Upper), x.Lower)), Lower = Whole },
            "trunc" => x with { Upper = Truncated(x), Lower = Whole },
            "round" => x with
            {
                Upper = Floor(Plus(Plus(x.Upper, x.Upper), x.Lower), Plus(x.Lower, x.Lower)),
                Lower = Whole,
            },
            _ => throw new InvalidOperationException($"{f.Function} is no function of formulas"),
        };
    }

    private int[] Truncated(Fraction x)
    {
        var quotient = Planes.Extended(Divided(Magnitude(x.Upper), x.Lower).Quotient, x.Upper.Length + 2);
        return Chosen(x.Upper[^1], Negated(quotient), Planes.Extended(quotient, quotient.Length + 1));
    }

    /// <summary>floor(a / b) for b above zero: the truncated quotient, one less for a negative a that leaves a remainder.</summary>
    private int[] Floor(int[] a, int[] b)
    {
        var (quotient, remainder) = Divided(Magnitude(a), b);
        var left = Planes.Differ(graph, remainder, Planes.Constant(0, remainder.Length));
        int[] wide = [.. quotient, GateGraph.Zero, GateGraph.Zero];
        var down = Planes.Sum(graph, wide, Planes.Constant(0, wide.Length), graph.And(left, a[^1])).Sum;
        return Chosen(a[^1], Negated(down), Planes.Extended(down, down.Length + 1));
    }

    /// <summary>Unsigned division of non-negative words by trial subtraction. The quotient has the width of a.</summary>
    private (int[] Quotient, int[] Remainder) Divided(int[] a, int[] b)
    {
        Afford((long)a.Length * b.Length);
        var width = b.Length + 1;
        var divisor = Planes.Extended(b, width);
        var remainder = Planes.Constant(0, width);
        var quotient = new int[a.Length];
        for (var i = a.Length - 1; i >= 0; i--)
        {
            int[] shifted = [a[i], .. remainder[..^1]];
            var (difference, borrow) = Planes.Difference(graph, shifted, divisor);
            quotient[i] = GateGraph.Not(borrow);
            remainder = Chosen(borrow, shifted, difference);
        }
        return ([.. quotient, GateGraph.Zero], remainder);
    }

    /// <summary>The place of the top bit; one more for ceil unless the word is a power of two. Only of whole numbers.</summary>
    private Fraction Logarithm(bool floor, Fraction x, Call f)
    {
        if (!IsWhole(x))
        {
            throw new LawBeyondPlanesException(f);
        }
        var width = BitOperations.Log2((uint)x.Upper.Length) + 2;
        var place = Planes.Constant(0, width);
        var above = GateGraph.Zero;
        var lower = GateGraph.Zero;
        for (var i = x.Upper.Length - 2; i >= 0; i--)
        {
            var isTop = graph.And(x.Upper[i], GateGraph.Not(above));
            lower = graph.Or(lower, graph.And(x.Upper[i], above));
            place = Chosen(isTop, Planes.Constant(i, width), place);
            above = graph.Or(above, x.Upper[i]);
        }
        var carry = floor ? GateGraph.Zero : lower;
        var result = Planes.Sum(graph, place, Planes.Constant(0, width), carry).Sum;
        return new Fraction(result, Whole, graph.And(x.Defined, graph.And(above, GateGraph.Not(x.Upper[^1]))));
    }
}
