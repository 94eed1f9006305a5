using System.Numerics;
using Reckoner.Binding;
using Reckoner.Claims;
using Reckoner.Datapaths;
using Reckoner.Diagnostics;
using Reckoner.Notation;
using Reckoner.Numbers;
using Term = Reckoner.Claims.Term;

namespace Reckoner.Conditions;

/// <summary>The formulas inside a condition: over operands and results, small enough to become gates.</summary>
internal sealed class ConditionFormulas(Datapath datapath, string text, Report report)
{
    /// <summary>Words of more bits are refused: a product of two of them takes their square in gates.</summary>
    public const int MostBits = 1024;

    /// <summary>More than a word of so many bits can have.</summary>
    private const int MostDigits = 400;

    private static readonly Span Nowhere = new(0, 0);

    /// <summary>What formulas may be about: operands and results, unless it is less.</summary>
    public IReadOnlyList<Variable> Variables { get; init; } = [.. datapath.Variables];

    /// <summary>What formulas may name besides numbers.</summary>
    public IEnumerable<string> Names => Variables.Select(v => v.Name);

    public bool Knows(string name) => Names.Contains(name);

    /// <summary>A formula of this machine, for who wrote none.</summary>
    public string Example => $"{Names.LastOrDefault()} = 0";

    public Truth? Truth(Span place) => Read(place, (binding, formula) => binding.Truth(formula));

    public Term? Number(Span place) => Read(place, (binding, formula) => binding.Number(formula));

    private T? Read<T>(Span place, Func<FormulaBinding, Expression, T?> bind)
        where T : Formula
    {
        // Blanks before it let its spans count in the whole text.
        var padded = new string(' ', place.Start) + text[place.Start..place.End];
        var found = new Report(new Source("", padded));
        var written = Parser.FormulaAlone(new Source("", padded), found);
        var binding = new FormulaBinding(found, name => Named(name, found));
        var formula = written is null ? null : bind(binding, written);
        if (formula is not null && Width(formula, found) is { } width && width > MostBits)
        {
            found.Add(Id.ConditionTooLarge, formula.Place, ("formula", $"{formula}"), ("limit", MostBits));
        }
        if (found.InOrder() is [var first, ..])
        {
            report.Add(first.Id, first.Span, [.. first.Facts]);
            return null;
        }
        return formula;
    }

    private Term? Named(NameReference name, Report found)
    {
        if (Variables.FirstOrDefault(v => v.Name == name.Name) is { } variable)
        {
            return Term.Of(name.Span, variable);
        }
        if (datapath.Numbers.TryGetValue(name.Name, out var number))
        {
            return Term.Named(name.Span, name.Name, number);
        }
        AddUnknown(found, name.Name, name.Span);
        return null;
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
    private static long Width(Formula formula, Report found) =>
        formula is Truth truth ? Width(truth, found) : Width((Term)formula, found);

    private static long Width(Truth t, Report found)
    {
        var inner = t.Inputs.Select(i => Width(i, found)).Concat(t.Terms.Select(i => Width(i, found))).ToList();
        return t.Kind switch
        {
            TruthKind.Comparison => inner.Sum() + 1,
            TruthKind.Between or TruthKind.Bracketed or TruthKind.Not => inner.Max() + 2,
            TruthKind.Every or TruthKind.Applied => inner.DefaultIfEmpty(0).Max(),
            TruthKind.And or TruthKind.Or or TruthKind.Xor => inner.Max(),
        };
    }

    private static long Width(Term t, Report found)
    {
        if (!t.Variables.Any())
        {
            return new Exact(_ => null, found).Number(t) is { } number
                ? number.Numerator.GetBitLength() + number.Denominator.GetBitLength()
                : 0;
        }
        long Input(int i) => Width(t.Inputs[i], found);
        var bits = t.Kind switch
        {
            TermKind.Literal or TermKind.Named => 1,
            TermKind.Variable => t.Variable!.Width,
            TermKind.Bracketed or TermKind.Negation => Input(0) + 2,
            TermKind.Call or TermKind.Total => t.Inputs.Sum(i => Width(i, found)) + 2,
            TermKind.Applied => Width(t.Body!, found),
            TermKind.Sum or TermKind.Difference or TermKind.Product or TermKind.Multiple or TermKind.Quotient => Input(
                0
            )
                + Input(1)
                + 1,
            TermKind.Power => Power(t, found),
        };
        return Math.Min(bits, int.MaxValue / 4);
    }

    private static long Power(Term t, Report found)
    {
        var (root, exponent) = (t.Inputs[0], t.Inputs[1]);
        if (exponent.Variables.Any())
        {
            // Chosen among the few powers that the exponent can be; the widest counts.
            var most = Width(exponent, found);
            return most > 6 ? MostBits + 1 : (1 << (int)most) * (Width(root, found) + 1);
        }
        return new Exact(_ => null, found).Whole(exponent) is { } times
            ? (long)BigInteger.Min(MostBits + 1, BigInteger.Abs(times) * (Width(root, found) + 1))
            : 0;
    }

    /// <summary>The operands or results whose digits are counted.</summary>
    public static IEnumerable<Variable> Counted(Datapath datapath, HasDigits condition) =>
        condition.Whose switch
        {
            Whose.Named => datapath.Variables.Where(v => v.Name == condition.Name),
            Whose.Operands => datapath.Variables.Where(v => v.Kind == VariableKind.Operand),
            Whose.Results => datapath.Variables.Where(v => v.Kind == VariableKind.Result),
        };

    /// <summary>A number of so many decimal digits, its sign not counted.</summary>
    public static Truth Digits(Variable number, Amount digits)
    {
        var count = Math.Min(digits.Count.Number, MostDigits);
        var size = Term.Call(Nowhere, Function.Absolute, Term.Of(Nowhere, number));
        var floor = Term.Literal(count <= 1 ? 0 : BigInteger.Pow(10, count - 1));
        var ceiling = Term.Literal(count == 0 ? 0 : BigInteger.Pow(10, count));
        return digits.Bound switch
        {
            Bound.AtLeast => Claims.Truth.Comparison(Nowhere, floor, Relation.LessOrEqual, size),
            Bound.AtMost => Claims.Truth.Comparison(Nowhere, size, Relation.Less, ceiling),
            Bound.Exactly => Claims.Truth.Comparison(
                Nowhere,
                [floor, size, ceiling],
                [Relation.LessOrEqual, Relation.Less]
            ),
        };
    }

    /// <summary>Half of it, or of one less, is whole.</summary>
    public static Truth HasParity(Term number, Parity parity)
    {
        var even = parity == Parity.Odd ? Term.Of(Nowhere, TermKind.Difference, number, Term.Literal(1)) : number;
        var half = Term.Of(Nowhere, TermKind.Quotient, even, Term.Literal(2));
        return Claims.Truth.Comparison(Nowhere, half, Relation.Equal, Term.Call(Nowhere, Function.Floor, half));
    }
}
