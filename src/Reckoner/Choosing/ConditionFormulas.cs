using System.Numerics;
using Reckoner.Binding;
using Reckoner.Datapaths;
using Reckoner.Diagnostics;
using Reckoner.Notation;
using Reckoner.Numbers;

namespace Reckoner.Choosing;

/// <summary>The formulas inside a condition: over operands and results, small enough to become gates.</summary>
internal sealed class ConditionFormulas(Datapath datapath, string text, Report report)
{
    /// <summary>Words of more bits are refused: a product of two of them takes their square in gates.</summary>
    public const int MostBits = 1024;

    private static readonly Span Nowhere = new(0, 0);

    /// <summary>What formulas may name besides numbers.</summary>
    public IEnumerable<string> Names =>
        datapath.Operands.Select(o => o.Name).Concat(datapath.Results.Select(r => r.Name));

    public bool Knows(string name) => Names.Contains(name);

    /// <summary>A formula of this machine, for who wrote none.</summary>
    public string Example => $"{Names.LastOrDefault()} = 0";

    public Expression? Truth(Span place) => Checked(place, (check, formula) => check.Truth(formula));

    public Expression? Number(Span place) => Checked(place, (check, formula) => check.Number(formula));

    private Expression? Checked(Span place, Func<FormulaCheck, Expression, bool> isRight)
    {
        // Blanks before it let its spans count in the whole text.
        var padded = new string(' ', place.Start) + text[place.Start..place.End];
        var found = new Report(new Source("", padded));
        var formula = Parser.FormulaAlone(new Source("", padded), found);
        var check = new FormulaCheck(found, name => IsNumber(name, found));
        if (formula is not null && isRight(check, formula) && Width(formula, found) is { } width && width > MostBits)
        {
            found.Add(Id.ConditionTooLarge, formula.Span, ("formula", Printer.Text(formula)), ("limit", MostBits));
        }
        if (found.InOrder() is [var first, ..])
        {
            report.Add(first.Id, first.Span, [.. first.Facts]);
            return null;
        }
        return formula;
    }

    private bool IsNumber(NameReference name, Report found)
    {
        if (Knows(name.Name) || datapath.Numbers.ContainsKey(name.Name))
        {
            return true;
        }
        AddUnknown(found, name.Name, name.Span);
        return false;
    }

    public void ReportUnknown(string name, Span place) => AddUnknown(report, name, place);

    private void AddUnknown(Report to, string name, Span place) =>
        to.Add(
            Id.UnknownInCondition,
            place,
            ("machine", datapath.Machine.Name),
            ("name", name),
            ("known", Names.ToList()),
            ("near", NearNames.Of(name, Names.Concat(datapath.Numbers.Keys)))
        );

    /// <summary>The most bits that some word needs on the way to the formula's value, roughly; powers are judged too.</summary>
    private int Width(Expression e, Report found)
    {
        if (!Formulas.Mentioned(e).Any(Knows) && e is not (Comparison or Within))
        {
            return new Formulas(datapath.Numbers, found).Number(e) is { } number
                ? (int)(number.Numerator.GetBitLength() + number.Denominator.GetBitLength())
                : 0;
        }
        if (e is Binary { Operator: BinaryOperator.Power } power)
        {
            return Power(power, found);
        }
        var inner = e.Children.Select(c => (long)Width(c, found)).ToList();
        var bits = e switch
        {
            NameReference name => datapath.Operands.FirstOrDefault(o => o.Name == name.Name)?.Width
                ?? datapath.Results.First(r => r.Name == name.Name).Width,
            Binary { Operator: BinaryOperator.And or BinaryOperator.Or or BinaryOperator.Xor } => inner.Max(),
            Binary or Scaled or Comparison => inner.Sum() + 1,
            _ => inner.DefaultIfEmpty(1).Max() + 2,
        };
        return (int)Math.Min(bits, int.MaxValue / 4);
    }

    private int Power(Binary f, Report found)
    {
        if (Formulas.Mentioned(f.Right).Any(Knows))
        {
            // Chosen among the few powers that the exponent can be; the widest counts.
            var most = Width(f.Right, found);
            return most > 6 ? MostBits + 1 : (1 << most) * (Width(f.Left, found) + 1);
        }
        return new Formulas(datapath.Numbers, found).Whole(f.Right) is { } times
            ? (int)BigInteger.Min(MostBits + 1, BigInteger.Abs(times) * (Width(f.Left, found) + 1))
            : 0;
    }

    /// <summary>A number of so many decimal digits, its sign not counted.</summary>
    public static Expression Digits(string name, Amount digits)
    {
        var size = new Call(Nowhere, Nowhere, "abs", [new NameReference(Nowhere, name)]);
        var floor = Literal(digits.Count <= 1 ? 0 : BigInteger.Pow(10, Math.Min(digits.Count, 400) - 1));
        var ceiling = Literal(BigInteger.Pow(10, Math.Min(digits.Count, 400)));
        return digits.Bound switch
        {
            Bound.AtLeast => new Comparison(Nowhere, [floor, size], [Relation.LessOrEqual]),
            Bound.AtMost => new Comparison(Nowhere, [size, ceiling], [Relation.Less]),
            Bound.Exactly => new Comparison(Nowhere, [floor, size, ceiling], [Relation.LessOrEqual, Relation.Less]),
        };
    }

    /// <summary>Half of it, or of one less, is whole.</summary>
    public static Expression Parity(Expression number, bool odd)
    {
        var even = odd ? new Binary(Nowhere, BinaryOperator.Subtract, number, Literal(1)) : number;
        var half = new Binary(Nowhere, BinaryOperator.Divide, even, Literal(2));
        return new Comparison(Nowhere, [half, new Call(Nowhere, Nowhere, "floor", [half])], [Relation.Equal]);
    }

    private static NumberLiteral Literal(BigInteger number) => new(Nowhere, Bits.Text(number));
}
