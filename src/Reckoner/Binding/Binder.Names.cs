using Reckoner.Datapaths;
using Reckoner.Diagnostics;
using Reckoner.Notation;
using Reckoner.Numbers;

namespace Reckoner.Binding;

internal sealed partial class Binder
{
    private Symbol? Find(string name)
    {
        for (var i = scopes.Count - 1; i >= 0; i--)
        {
            if (scopes[i].TryGetValue(name, out var wire))
            {
                return wire;
            }
        }
        return symbols.GetValueOrDefault(name);
    }

    private Value Name(NameReference e, Size? wanted, Reading sibling)
    {
        if (e.Name == "last")
        {
            return Last(e);
        }
        var symbol = Find(e.Name);
        if (symbol is null)
        {
            ReportUnknown(e, scopes.SelectMany(s => s.Keys).Concat(symbols.Keys));
            return Value.Unknown;
        }
        symbol.IsUsed = true;
        switch (symbol)
        {
            case NumberSymbol s:
                return s.Number is { } number ? Literal(e, number, wanted, sibling) : Value.Unknown;
            case BitsSymbol s:
                return s.Value;
            case WireSymbol s:
                return s.Wire.Value.IsUnknown
                    ? Value.Unknown
                    : new Value(Operation.Wire, s.Wire.Value.Size, s.Wire.Value.Reading)
                    {
                        Wire = s.Wire,
                        Written = e,
                        Source = source,
                    };
            case OperandSymbol s when inLoad:
                return s.Value;
            case OperandSymbol:
                return Refuse(Id.OperandAfterLoad, e);
            case RegisterSymbol s:
                return s.Register is null ? Value.Unknown : Read(e, s.Register);
            case PartSymbol s:
                return s.Part is null ? Value.Unknown : Read(e, s.Part);
            case OperandPartSymbol s when inLoad:
                s.Of.IsUsed = true;
                return s.Range is { } range && !s.Of.Value.IsUnknown
                    ? SliceOf(e, s.Of.Value, range.Low, range.Size, s.Reading)
                    : Value.Unknown;
            case OperandPartSymbol:
                return Refuse(Id.OperandAfterLoad, e);
            case FormulaSymbol:
                return Refuse(Id.FormulaAsValue, e, ("name", e.Name));
            case UnitSymbol:
                return Refuse(Id.UnitAsValue, e);
            case MeaningSymbol:
                return Refuse(Id.MeaningAsValue, e);
            case TableSymbol s:
                return Refuse(
                    Id.ArgumentCount,
                    e,
                    ("function", e.Name),
                    ("count", s.Table?.Indices.Count ?? 1),
                    ("found", 0),
                    ("form", new Term("form.lookup"))
                );
            default:
                throw new InvalidOperationException(symbol.GetType().Name);
        }
    }

    private Value Last(NameReference e)
    {
        if (loop is null)
        {
            return Refuse(Id.LastOutside, e);
        }
        return loop.While is not null ? Refuse(Id.LastUnknown, e) : Make(Operation.Last, e, Size.Of(1), Reading.Bare);
    }

    private Value Read(Expression e, Register register)
    {
        if (inLoad)
        {
            return Refuse(Id.RegisterAtLoad, e);
        }
        return MayRead(e, register, register.Width - 1, 0) ? RegisterValue(e, register) : Value.Unknown;
    }

    private Value RegisterValue(Expression e, Register register) =>
        new(Operation.Register, register.Size, register.Reading)
        {
            Register = register,
            Written = e,
            Source = source,
        };

    private Value Read(Expression e, Part part)
    {
        if (inLoad)
        {
            return Refuse(Id.RegisterAtLoad, e);
        }
        MarkUsed(part.Register);
        return MayRead(e, part.Register, part.High, part.Low)
            ? SliceOf(e, RegisterValue(e, part.Register), part.Low, part.Size, part.Reading)
            : Value.Unknown;
    }

    private Value SliceOf(Expression e, Value value, int low, Size size, Reading reading) =>
        new(Operation.Slice, size, reading, value)
        {
            Low = low,
            Written = e,
            Source = source,
        };

    private Value Slice(Sliced e)
    {
        // Bits of a register or part are read alone: other bits of it may be written above in the same moment.
        if (e.Value is NameReference name && Find(name.Name) is { } symbol && !inLoad)
        {
            symbol.IsUsed = true;
            if (symbol is RegisterSymbol { Register: { } register })
            {
                return SliceOfRegister(e, register, 0, register.Size, register.Name);
            }
            if (symbol is PartSymbol { Part: { } part })
            {
                MarkUsed(part.Register);
                return SliceOfRegister(e, part.Register, part.Low, part.Size, part.Name);
            }
        }
        var value = Evaluate(e.Value, null, Reading.Bare);
        return !value.IsUnknown && Range(e, value.Size, Printer.Text(e.Value)) is { } range
            ? SliceOf(e, value, range.Low, range.Size, Reading.Bare)
            : Value.Unknown;
    }

    private Value SliceOfRegister(Sliced e, Register register, int low, Size size, string name)
    {
        return Range(e, size, name) is { } range && MayRead(e, register, low + range.High, low + range.Low)
            ? SliceOf(e, RegisterValue(e.Value, register), low + range.Low, range.Size, Reading.Bare)
            : Value.Unknown;
    }
}
