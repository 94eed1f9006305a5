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
        if (formula is not null)
        {
            Valued(formula, new Exact(_ => null, found));
        }
        if (formula is not null && found.InOrder().Count == 0 && !FormulaExtent.Fits(formula, MostBits))
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

    /// <summary>Reports numbers that have no value whatever the operands, such as a quotient by 0.</summary>
    private static void Valued(Formula formula, Exact exact)
    {
        switch (formula)
        {
            case Term term when !term.Variables.Any():
                exact.Number(term);
                break;
            case Term { Body: { } body }:
                Valued(body, exact);
                break;
            case Term term:
                foreach (var input in term.Inputs)
                {
                    Valued(input, exact);
                }
                break;
            case Truth truth:
                foreach (var part in truth.Inputs.Concat<Formula>(truth.Terms))
                {
                    Valued(part, exact);
                }
                break;
        }
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
