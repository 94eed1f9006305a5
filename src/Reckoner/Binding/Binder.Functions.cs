using Reckoner.Datapaths;
using Reckoner.Diagnostics;
using Reckoner.Notation;
using Reckoner.Numbers;

namespace Reckoner.Binding;

internal sealed partial class Binder
{
    private Value Function(Call e, Size? wanted, Reading sibling)
    {
        switch (e.Function)
        {
            case "signed" or "unsigned":
                return Has(e, "one", 1) ? Reread(e, wanted) : Value.Unknown;
            case "extend":
                return Has(e, "extend", 1, 2) ? Extend(e, wanted) : Value.Unknown;
            case "shl" or "shr":
                return Has(e, "shift", 2) ? Shift(e, wanted, sibling) : Value.Unknown;
            case "copies":
                return Has(e, "copies", 2) ? Copies(e) : Value.Unknown;
            case "abs":
                return Has(e, "one", 1) ? Magnitude(e, wanted) : Value.Unknown;
            case "csa":
                return Refuse(Id.CsaOneName, e);
        }
        if (symbols.TryGetValue(e.Function, out var symbol) && symbol is TableSymbol table)
        {
            table.IsUsed = true;
            return table.Table is null ? Value.Unknown : Lookup(e, table.Table);
        }
        if (formulas.Find(e.Function) is not null)
        {
            symbols[e.Function].IsUsed = true;
            return Refuse(Id.FormulaAsValue, e, ("name", e.Function));
        }
        if (!IsTorn(e.Function))
        {
            var tables = symbols.Values.OfType<TableSymbol>().Select(t => t.Name);
            report.Add(
                Id.UnknownFunction,
                e.NameSpan,
                ("name", e.Function),
                ("near", Near(e.Function, Operations.FunctionNames.Concat(tables)))
            );
        }
        return Value.Unknown;
    }

    /// <param name="form">How it is written; the words show it under "form.".</param>
    private bool Has(Call e, string form, int count, int orCount = -1)
    {
        var has = e.Arguments.Count == count || e.Arguments.Count == orCount;
        if (!has)
        {
            report.Add(
                Id.ArgumentCount,
                e.Span,
                ("function", e.Function),
                ("count", count),
                ("found", e.Arguments.Count),
                ("form", new Term("form." + form, ("function", e.Function)))
            );
        }
        return has;
    }

    private Value Reread(Call e, Size? wanted)
    {
        var reading = e.Function == "signed" ? Reading.Signed : Reading.Unsigned;
        var value = Evaluate(e.Arguments[0], wanted, Reading.Bare);
        return value.IsUnknown ? value : Make(Operation.Reread, e, value.Size, reading, value);
    }

    private Value Extend(Call e, Size? wanted)
    {
        var size = e.Arguments.Count == 2 ? Bits(e.Arguments[1], Printer.Text(e)) : wanted;
        var value = Evaluate(e.Arguments[0], null, Reading.Bare);
        if (value.IsUnknown || (size is null && e.Arguments.Count == 2))
        {
            return Value.Unknown;
        }
        if (size is null)
        {
            return isPlaceUnknown ? Value.Unknown : Refuse(Id.WidthUnknown, e);
        }
        if (value.Reading == Reading.Bare && value.Width > 1)
        {
            return Refuse(Id.ReadingNeeded, e.Arguments[0], ("purpose", new Term("purpose-extend")));
        }
        if (size.Count < value.Width)
        {
            return Refuse(Id.ExtendCuts, e, ("from", value.Size), ("to", size));
        }
        return Make(Operation.Extend, e, size, value.Reading == Reading.Bare ? Reading.Unsigned : value.Reading, value);
    }

    private Value Shift(Call e, Size? wanted, Reading sibling)
    {
        var value = Evaluate(e.Arguments[0], wanted, sibling);
        if (IsDistance(e.Arguments[1]))
        {
            return Refuse(Id.ShiftDistance, e.Arguments[1], ("function", e.Function));
        }
        var entering = Entering(e.Arguments[1]);
        if (value.IsUnknown || entering.IsUnknown)
        {
            return Value.Unknown;
        }
        if (entering.Width > value.Width)
        {
            return Refuse(Id.TooManyEnter, e, ("entering", entering.Size), ("size", value.Size));
        }
        RemarkOn(e, value, entering);
        var operation = e.Function == "shl" ? Operation.ShiftLeft : Operation.ShiftRight;
        return Make(operation, e, value.Size, value.Reading, value, entering);
    }

    private bool IsDistance(Expression e) =>
        IsNumber(e)
        && Unbracketed(e) is not (NumberLiteral { Number: { IsZero: true } or { IsOne: true } } or Unreadable);

    private static Expression Unbracketed(Expression e)
    {
        while (e is Bracketed bracketed)
        {
            e = bracketed.Inner;
        }
        return e;
    }

    /// <summary>A 1 or a register where many another notation has a distance; the 1 is remarked upon once in a description.</summary>
    private void RemarkOn(Call e, Value value, Value entering)
    {
        if (Unbracketed(e.Arguments[1]) is NumberLiteral { Number.IsOne: true } && value.Width > 1 && !hasShiftByOne)
        {
            hasShiftByOne = true;
            report.Add(
                Id.ShiftByOne,
                e.Arguments[1].Span,
                ("value", Printer.Text(e)),
                ("function", e.Function),
                ("word", Printer.Text(e.Arguments[0]))
            );
        }
        if (entering is { Operation: Operation.Register, Width: > 1, Register.Name: var name })
        {
            report.Add(Id.ShiftByWord, e.Arguments[1].Span, ("size", entering.Size), ("name", name));
        }
    }

    private bool hasShiftByOne;

    private Value Copies(Call e)
    {
        var bit = Entering(e.Arguments[0]);
        if (Bits(e.Arguments[1], Printer.Text(e)) is not { } size || bit.IsUnknown)
        {
            return Value.Unknown;
        }
        return bit.Width != 1
            ? Refuse(Id.CopiesOfWord, e.Arguments[0], ("size", bit.Size))
            : Make(Operation.Copies, e, size, Reading.Bare, bit);
    }

    private Value Magnitude(Call e, Size? wanted)
    {
        var unit = TakeVia();
        var value = Evaluate(e.Arguments[0], wanted, Reading.Bare);
        if (value.IsUnknown)
        {
            return value;
        }
        return value.Reading != Reading.Signed
            ? Refuse(Id.MagnitudeOfUnsigned, e.Arguments[0])
            : Served(Make(Operation.Magnitude, e, value.Size, Reading.Unsigned, value), unit);
    }

    private Value Lookup(Call e, Table table)
    {
        if (!Has(e, "lookup", table.Indices.Count))
        {
            return Value.Unknown;
        }
        var indices = e.Arguments.Zip(
            table.Indices,
            (a, i) =>
            {
                var reading = i.IsSigned ? Reading.Signed : Reading.Unsigned;
                return Fit(Evaluate(a, i.Size, reading), i.Size, reading, i.Name, a);
            }
        );
        var values = indices.ToList();
        if (values.Any(v => v.IsUnknown) || IsWiringOnly(e))
        {
            return Value.Unknown;
        }
        return new Value(Operation.Lookup, table.Size, table.Reading, values)
        {
            Table = table,
            Written = e,
            Source = source,
        };
    }
}
