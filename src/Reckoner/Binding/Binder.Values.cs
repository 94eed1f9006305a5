using System.Numerics;
using Reckoner.Datapaths;
using Reckoner.Diagnostics;
using Reckoner.Notation;
using Reckoner.Numbers;

namespace Reckoner.Binding;

internal sealed partial class Binder
{
    private bool inLoad;
    private bool inResult;
    private bool isPlaceUnknown;
    private Via? via;

    /// <summary>The unit a line names; its outermost operation takes it.</summary>
    private sealed record Via(Unit Unit, Declared Name)
    {
        public bool IsTaken { get; set; }
    }

    /// <summary>
    /// The meaning of a value. <paramref name="wanted"/> is the width its place has, for what has no width of its own;
    /// <paramref name="sibling"/> the reading of the other side, for literals.
    /// </summary>
    private Value Evaluate(Expression e, Size? wanted, Reading sibling) =>
        e switch
        {
            Unreadable => Value.Unknown,
            Bracketed v => Evaluate(v.Inner, wanted, sibling),
            NumberLiteral v => Literal(v, v.Number, wanted, sibling),
            Scaled or Binary { Operator: BinaryOperator.Divide or BinaryOperator.Power } => NumberOrNothing(
                e,
                wanted,
                sibling
            ),
            BitsLiteral v => Bare(v),
            NameReference v => Name(v, wanted, sibling),
            Unary { Operator: UnaryOperator.Negate } v => Negated(v, wanted, sibling),
            Unary v => Inverted(v, wanted, sibling),
            Binary v => Pair(v, wanted),
            Comparison v => Compared(v),
            Joined v => Join(v),
            Sliced v => Slice(v),
            Call v => Function(v, wanted, sibling),
            Chosen v => Choice(v, wanted),
            Within v => Refuse(Id.NotHardware, v, ("operator", "in")),
            _ => throw new InvalidOperationException(e.GetType().Name),
        };

    /// <summary>The value for a place; when the place is not known, no number is blamed for having no width.</summary>
    private Value EvaluateFor(Expression e, Size? size, Reading reading)
    {
        isPlaceUnknown = size is null;
        var value = Evaluate(e, size, reading);
        isPlaceUnknown = false;
        return value;
    }

    private Value Make(
        Operation operation,
        Expression written,
        Size size,
        Reading reading,
        params IReadOnlyList<Value> inputs
    ) => new(operation, size, reading, inputs) { Written = written, Source = source };

    private Value Refuse(Id id, Expression e, params ReadOnlySpan<Fact> facts)
    {
        report.Add(id, e.Span, [.. facts, ("value", Printer.Text(e))]);
        return Value.Unknown;
    }

    // ---- numbers and literals

    private Value Literal(Expression e, BigInteger number, Size? wanted, Reading sibling)
    {
        if (wanted is null)
        {
            return isPlaceUnknown ? Value.Unknown : Refuse(Id.WidthUnknown, e);
        }
        var isSigned = number.Sign < 0 || sibling == Reading.Signed;
        if (!Numbers.Bits.Fits(number, wanted.Count, isSigned))
        {
            return Refuse(Id.DoesNotFit, e, ("number", Spoken(e, number)), ("size", wanted));
        }
        var reading = number.Sign < 0 ? Reading.Signed : Reading.Bare;
        return new Value(Operation.Constant, wanted, reading)
        {
            Bits = Numbers.Bits.Wrap(number, wanted.Count),
            Written = e,
            Source = source,
        };
    }

    /// <summary>2n, n / 2, 2^n: a number when all its names are, else an operation the hardware does not have.</summary>
    private Value NumberOrNothing(Expression e, Size? wanted, Reading sibling)
    {
        if (IsNumber(e))
        {
            return Whole(e) is { } number ? Literal(e, number, wanted, sibling) : Value.Unknown;
        }
        if (Names(e).FirstOrDefault(name => Find(name.Name) is null) is { } unknown)
        {
            ReportUnknown(unknown, numbers.Keys);
            return Value.Unknown;
        }
        return Refuse(
            Id.NotHardware,
            e,
            (
                "operator",
                e is Binary { Operator: BinaryOperator.Power } ? "^"
                : e is Scaled ? "*"
                : "/"
            )
        );
    }

    private static IEnumerable<NameReference> Names(Expression e) =>
        e is NameReference name ? [name] : e.Children.SelectMany(Names);

    private bool IsNumber(Expression e) =>
        e is NumberLiteral
        || (e is NameReference name && IsPlainNumber(name.Name))
        || (e is Bracketed or Scaled or Binary or Unary { Operator: UnaryOperator.Negate } && e.Children.All(IsNumber));

    private bool IsPlainNumber(string name) => Find(name) is NumberSymbol;

    private Value Bare(BitsLiteral e)
    {
        if (e.Digits.Length == 0)
        {
            return Refuse(Id.ValueExpected, e, ("found", e.Text));
        }
        if (e.Digits.Contains('x', StringComparison.Ordinal))
        {
            return Refuse(Id.XOutsideLabel, e);
        }
        return new Value(Operation.Constant, Size.Of(e.Digits.Length), Reading.Bare)
        {
            Bits = e.Number,
            Written = e,
            Source = source,
        };
    }

    // ---- names

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

    // ---- operators

    private Value Negated(Unary e, Size? wanted, Reading sibling)
    {
        if (IsNumber(e))
        {
            return Whole(e) is { } number ? Literal(e, number, wanted, sibling) : Value.Unknown;
        }
        var unit = TakeVia();
        var value = Evaluate(e.Operand, wanted, sibling);
        return value.IsUnknown ? value : Served(Make(Operation.Negate, e, value.Size, value.Reading, value), unit);
    }

    private Value Inverted(Unary e, Size? wanted, Reading sibling)
    {
        var value = Evaluate(e.Operand, wanted, sibling);
        return value.IsUnknown || IsWiringOnly(e)
            ? Value.Unknown
            : Make(Operation.Not, e, value.Size, value.Reading, value);
    }

    /// <summary>In a result there is no hardware; reported when there is.</summary>
    private bool IsWiringOnly(Expression e)
    {
        if (inResult)
        {
            Refuse(Id.HardwareInResult, e);
        }
        return inResult;
    }

    private Value Pair(Binary e, Size? wanted)
    {
        if (IsNumber(e))
        {
            return Whole(e) is { } number ? Literal(e, number, wanted, Reading.Bare) : Value.Unknown;
        }
        if (e.Operator == BinaryOperator.Multiply)
        {
            return Product(e);
        }
        var isSum = e.Operator is BinaryOperator.Add or BinaryOperator.Subtract;
        var unit = isSum ? TakeVia() : null;
        if (Alike([e.Left, e.Right], wanted, e) is not { } sides || IsWiringOnly(e))
        {
            return Value.Unknown;
        }
        if (!isSum)
        {
            var gate = e.Operator switch
            {
                BinaryOperator.And => Operation.And,
                BinaryOperator.Or => Operation.Or,
                _ => Operation.Xor,
            };
            var same = sides[0].Reading == sides[1].Reading;
            return Make(gate, e, sides[0].Size, same ? sides[0].Reading : Reading.Bare, sides);
        }
        if (Common(sides, e) is not { } reading)
        {
            return Value.Unknown;
        }
        var operation = e.Operator == BinaryOperator.Add ? Operation.Add : Operation.Subtract;
        return Served(Make(operation, e, sides[0].Size, reading, sides), unit);
    }

    private Value Product(Binary e)
    {
        var unit = TakeVia();
        var left = Evaluate(e.Left, null, Reading.Bare);
        var right = Evaluate(e.Right, null, Reading.Bare);
        if (left.IsUnknown || right.IsUnknown || IsWiringOnly(e))
        {
            return Value.Unknown;
        }
        if (left.Reading == Reading.Bare || right.Reading == Reading.Bare)
        {
            var bare = left.Reading == Reading.Bare ? e.Left : e.Right;
            return Refuse(Id.ReadingNeeded, bare, ("purpose", new Term("purpose-multiply")));
        }
        if (Common([left, right], e) is not { } reading)
        {
            return Value.Unknown;
        }
        if (left.Width + right.Width > WidestWord)
        {
            return Refuse(
                Id.TooManyBits,
                e,
                ("name", Printer.Text(e)),
                ("size", left.Size + right.Size),
                ("limit", WidestWord)
            );
        }
        return Served(Make(Operation.Multiply, e, left.Size + right.Size, reading, left, right), unit);
    }

    private Value Compared(Comparison e)
    {
        if (e.Relations.Count != 1)
        {
            return Value.Unknown;
        }
        if (Alike([e.Terms[0], e.Terms[1]], null, e) is not { } sides || IsWiringOnly(e))
        {
            return Value.Unknown;
        }
        if (Common(sides, e) is not { } reading)
        {
            return Value.Unknown;
        }
        var operation = e.Relations[0] switch
        {
            Relation.Equal => Operation.Equal,
            Relation.Unequal => Operation.Unequal,
            Relation.Less => Operation.Less,
            Relation.LessOrEqual => Operation.LessOrEqual,
            Relation.Greater => Operation.Greater,
            Relation.GreaterOrEqual => Operation.GreaterOrEqual,
        };
        if (reading == Reading.Bare && operation is not (Operation.Equal or Operation.Unequal))
        {
            return Refuse(Id.ReadingNeeded, e.Terms[0], ("purpose", new Term("purpose-compare")));
        }
        var value = Make(operation, e, Size.Of(1), Reading.Bare, sides);
        return value.IsSignTest || value.IsDecode ? value : Served(value, null);
    }

    private Value Join(Joined e)
    {
        var parts = e.Parts.Select(Entering).ToList();
        if (parts.Any(p => p.IsUnknown))
        {
            return Value.Unknown;
        }
        var bits = parts.Sum(p => (long)p.Width);
        return bits > WidestWord
            ? Refuse(Id.TooManyBits, e, ("name", Printer.Text(e)), ("size", bits), ("limit", WidestWord))
            : Make(Operation.Join, e, parts.Select(p => p.Size).Aggregate((a, b) => a + b), Reading.Bare, parts);
    }

    /// <summary>What enters a shift or stands in a join: 0 and 1 alone are one bit, other numbers have no width.</summary>
    private Value Entering(Expression e)
    {
        var inner = e;
        while (inner is Bracketed bracketed)
        {
            inner = bracketed.Inner;
        }
        var isBit = inner is NumberLiteral { Number: var number } && (number.IsZero || number.IsOne);
        return Evaluate(e, isBit ? Size.Of(1) : null, Reading.Bare);
    }

    private Value Choice(Chosen e, Size? wanted)
    {
        var condition = Condition(e.Condition);
        if (Alike([e.WhenTrue, e.Otherwise], wanted, e) is not { } sides || condition.IsUnknown || IsWiringOnly(e))
        {
            return Value.Unknown;
        }
        return Common(sides, e) is { } reading
            ? Make(Operation.Choose, e, sides[0].Size, reading, condition, sides[0], sides[1])
            : Value.Unknown;
    }

    /// <summary>A condition is one bit.</summary>
    private Value Condition(Expression e)
    {
        var value = Evaluate(e, Size.Of(1), Reading.Bare);
        if (!value.IsUnknown && value.Width != 1)
        {
            return Refuse(Id.ConditionWidth, e, ("size", value.Size));
        }
        return value;
    }

    // ---- widths and readings of several sides

    /// <summary>Whether a value takes its width from its place or the other side.</summary>
    private bool IsFlexible(Expression e) =>
        e switch
        {
            Bracketed v => IsFlexible(v.Inner),
            NumberLiteral or Scaled => true,
            NameReference v => IsPlainNumber(v.Name),
            Call { Function: "extend", Arguments.Count: 1 } => true,
            Call { Function: "shl" or "shr" or "abs" or "signed" or "unsigned" } v when v.Arguments.Count > 0 =>
                IsFlexible(v.Arguments[0]),
            Chosen v => IsFlexible(v.WhenTrue) && IsFlexible(v.Otherwise),
            Binary { Operator: not BinaryOperator.Multiply } v => IsNumber(v)
                || (IsFlexible(v.Left) && IsFlexible(v.Right)),
            Binary => IsNumber(e),
            Unary v => IsFlexible(v.Operand),
            _ => false,
        };

    /// <summary>Values that must be equally wide; null when one is unknown or they are not.</summary>
    private List<Value>? Alike(IReadOnlyList<Expression> written, Size? wanted, Expression whole)
    {
        var values = new Value?[written.Count];
        Value? first = null;
        for (var i = 0; i < written.Count; i++)
        {
            if (!IsFlexible(written[i]))
            {
                values[i] = Evaluate(written[i], wanted, Reading.Bare);
                first ??= values[i]!.IsUnknown ? null : values[i];
            }
        }
        var unknown = values.Any(v => v is { IsUnknown: true });
        var size = first?.Size ?? wanted;
        if (size is null && unknown)
        {
            return null;
        }
        var reading = values.FirstOrDefault(v => v is { Reading: not Reading.Bare })?.Reading ?? Reading.Bare;
        for (var i = 0; i < written.Count; i++)
        {
            values[i] ??= Evaluate(written[i], size, reading);
        }
        if (values.Any(v => v!.IsUnknown))
        {
            return null;
        }
        var differs = Array.FindIndex(values, v => v!.Width != values[0]!.Width);
        if (differs > 0)
        {
            report.Add(
                Id.SidesDiffer,
                whole.Span,
                ("left", Printer.Text(written[0])),
                ("leftsize", values[0]!.Size),
                ("right", Printer.Text(written[differs])),
                ("rightsize", values[differs]!.Size)
            );
            return null;
        }
        return [.. values.Select(v => v!)];
    }

    /// <summary>The reading of several values: bare joins either; signed and unsigned do not mix.</summary>
    private Reading? Common(IReadOnlyList<Value> values, Expression whole)
    {
        var isSigned = values.FirstOrDefault(v => v.Reading == Reading.Signed);
        var isUnsigned = values.FirstOrDefault(v => v.Reading == Reading.Unsigned);
        if (isSigned is not null && isUnsigned is not null)
        {
            report.Add(
                Id.SignsDiffer,
                whole.Span,
                ("signed", Printer.Text(isSigned.Written!)),
                ("unsigned", Printer.Text(isUnsigned.Written!))
            );
            return null;
        }
        return isSigned is not null ? Reading.Signed
            : isUnsigned is not null ? Reading.Unsigned
            : Reading.Bare;
    }

    /// <summary>Checks that a value suits its place: equal width, and no sign lost or invented.</summary>
    private Value Fit(Value value, Size size, Reading reading, string name, Expression written)
    {
        if (value.IsUnknown)
        {
            return value;
        }
        if (value.Width != size.Count)
        {
            report.Add(
                Id.WidthMismatch,
                written.Span,
                ("value", Printer.Text(written)),
                ("size", value.Size),
                ("name", name),
                ("place", size)
            );
            return Value.Unknown;
        }
        if (reading != Reading.Bare && value.Reading != Reading.Bare && reading != value.Reading)
        {
            var isSigned = value.Reading == Reading.Signed;
            report.Add(
                Id.SignMismatch,
                written.Span,
                ("value", Printer.Text(written)),
                ("name", name),
                ("is", new Term(isSigned ? "signed" : "unsigned")),
                ("say", isSigned ? "unsigned" : "signed")
            );
            return Value.Unknown;
        }
        return value;
    }

    // ---- units

    private Via? TakeVia()
    {
        var taken = via is { IsTaken: false } ? via : null;
        if (taken is not null)
        {
            taken.IsTaken = true;
        }
        return taken;
    }

    /// <summary>Enters an operation that needs a unit, the named one or one to be shared.</summary>
    private Value Served(Value value, Via? named)
    {
        if (IsWiringOnly(value.Written!))
        {
            return Value.Unknown;
        }
        var kind = Operations.Row(value.Operation).Unit!.Value;
        if (named is not null)
        {
            if (named.Unit.Kind != kind)
            {
                report.Add(
                    Id.ViaKind,
                    named.Name.Span,
                    ("unit", named.Name.Text),
                    ("is", new Term("a-" + Word(named.Unit.Kind))),
                    ("operation", new Term("a-" + Word(kind)))
                );
                return Value.Unknown;
            }
            if (named.Unit.Size.Count != Sharing.Width(value).Count || named.Unit.By.Count != Sharing.By(value).Count)
            {
                report.Add(
                    Id.ViaWidth,
                    named.Name.Span,
                    ("unit", named.Name.Text),
                    ("size", Spoken(named.Unit.Size, named.Unit.By)),
                    ("operands", Spoken(Sharing.Width(value), Sharing.By(value)))
                );
                return Value.Unknown;
            }
        }
        var place = named?.Name.Span ?? value.Written!.Span;
        var unitName = named?.Name.Text ?? "";
        var whole = isStepWhole;
        build.Uses.Add(
            new PendingUse(
                value,
                kind,
                step,
                path,
                named?.Unit,
                LineOf(place),
                whole ? line => report.Add(Id.UnitBusy, place, ("unit", unitName), ("line", line)) : _ => { }
            )
        );
        return value;
    }

    private static object Spoken(Size width, Size by) => width.Count == by.Count ? width : $"{width}, {by}";

    private static string Word(Datapaths.UnitKind kind) =>
        kind switch
        {
            Datapaths.UnitKind.Adder => "adder",
            Datapaths.UnitKind.Multiplier => "multiplier",
            Datapaths.UnitKind.Comparator => "comparator",
            Datapaths.UnitKind.CarrySaveAdder => "carry-save-adder",
        };
}
