namespace Reckoner.Verifier;

internal sealed partial class Execution
{
    /// <summary>A value; what has no width of its own takes the one that is wanted.</summary>
    private Word Value(Tree e, Size? wanted, Scope scope)
    {
        switch (e.Kind)
        {
            case "number" or "neg" or "name" or "+" or "-" or "*" when IsNumber(e, scope):
                return Constant(machine.Size(e), wanted);
            case "bits":
                return Literal(
                    Machine.Whole(
                        new(
                            "number",
                            Convert.ToUInt64(e.Text, 2).ToString(System.Globalization.CultureInfo.InvariantCulture)
                        )
                    ),
                    e.Text.Length
                );
            case "name":
                return Named(e.Text, scope);
            case "sized":
                return Fitting(Value(e[0], machine.Size(e[1]), scope), machine.Size(e[1]));
            case "slice":
                return Slice(e, scope);
            case "join":
                return Word.Of([.. e.Inside.SelectMany(p => Entering(p, scope).Stretches(path))]);
            case "not":
                return Word.Of([
                    .. Value(e[0], wanted, scope)
                        .Stretches(path)
                        .Select(s => s with { Poly = Poly.Power(s.Width) - 1 - s.Poly }),
                ]);
            case "neg" or "+" or "-":
                return Sum(e, wanted, scope);
            case "and" or "or" or "xor":
                return Gate(e, wanted, scope);
            case "compare":
                return Word.Bit(Compared(e, scope));
            case "when":
                var width = WidthOf(e, scope) ?? wanted;
                return IsOne(e[1], scope) ? Value(e[0], width, scope) : Value(e[2], width, scope);
            case "call":
                return Call(e, wanted, scope);
            default:
                throw new RefusedException(Refusal.NotKnown, e.Kind);
        }
    }

    private bool IsNumber(Tree e, Scope scope) =>
        e.Kind == "number"
        || (e.Kind == "name" && !scope.Wires.ContainsKey(e.Text) && machine.IsNumber(e.Text))
        || (e.Kind is "neg" or "+" or "-" or "*" && e.Inside.All(x => IsNumber(x, scope)));

    /// <summary>A condition: one bit.</summary>
    private bool IsOne(Tree e, Scope scope) => path.IsOne(Fitting(Value(e, 1, scope), 1).Number(path));

    private Word Constant(Size number, Size? wanted) =>
        number.IsNumber && wanted is { } width
            ? Literal(number.K, width)
            : throw new RefusedException(Refusal.NotKnown, number.ToString());

    /// <summary>A number with a width it fits into at every n.</summary>
    private Word Literal(System.Numerics.BigInteger number, Size width)
    {
        var needed = (int)(number.Sign < 0 ? -number - 1 : number).GetBitLength() + (number.Sign < 0 ? 1 : 0);
        return path.Region.NeverNegative(width - needed)
            ? Word.Of(number.Sign < 0 ? Poly.Power(width) + Poly.Of(number) : Poly.Of(number), width)
            : throw new RefusedException(
                Refusal.NotKnown,
                number.ToString(System.Globalization.CultureInfo.InvariantCulture)
            );
    }

    private Word Named(string name, Scope scope)
    {
        if (scope.Wires.TryGetValue(name, out var wire))
        {
            return wire.Word.Value;
        }
        if (name == "last" && isLast is { } last)
        {
            return Word.Bit(last);
        }
        return machine.Parts.TryGetValue(name, out var part)
                ? scope.Registers[part.Register].Slice(path, part.High, part.Low)
            : scope.Registers.TryGetValue(name, out var register) ? register
            : throw new RefusedException(Refusal.NotKnown, name);
    }

    /// <summary>Where a bit or two are cut off the top, whether anything is lost is decided.</summary>
    private Word Slice(Tree e, Scope scope)
    {
        var (high, low) = (machine.Size(e[1]), machine.Size(e[2]));
        if (
            e[0].Kind == "name"
            && machine.Parts.TryGetValue(e[0].Text, out var part)
            && !scope.Wires.ContainsKey(e[0].Text)
        )
        {
            return Sliced(scope.Registers[part.Register], part.Low + high, part.Low + low);
        }
        return Sliced(Value(e[0], null, scope), high, low);
    }

    private Word Sliced(Word word, Size high, Size low)
    {
        var above = word.Width - 1 - high;
        if (above.IsNumber && above.K is 1 or 2 && !high.IsNumber)
        {
            path.DecideLost(word.Slice(path, word.Width - 1, high + 1).Number(path), above);
        }
        return word.Slice(path, high, low);
    }

    /// <summary>In a join, and where bits enter a shift, 0 and 1 are one bit.</summary>
    private Word Entering(Tree e, Scope scope) => Value(e, e.Kind == "number" ? 1 : null, scope);

    private Size? SidesWidth(Tree e, Size? wanted, Scope scope) =>
        WidthOf(e[0], scope) ?? (e.Inside.Count > 1 ? WidthOf(e[1], scope) : null) ?? wanted;

    private Poly Number(Tree e, Size width, Reading reading, Scope scope)
    {
        var word = Fitting(Value(e, width, scope), width);
        return reading == Reading.Signed ? word.AsSigned(path) : word.Number(path);
    }

    /// <summary>Sum, difference or negative, not yet taken into the range of its width.</summary>
    private (Poly Sum, Size Width, int Turn) Unwrapped(Tree e, Size? wanted, Reading reading, Scope scope)
    {
        var width = SidesWidth(e, wanted, scope) ?? throw new RefusedException(Refusal.NotKnown, e.Kind);
        var first = Number(e[0], width, reading, scope);
        return e.Kind switch
        {
            "neg" => (-first, width, -1),
            "+" => (first + Number(e[1], width, reading, scope), width, 1),
            _ => (first - Number(e[1], width, reading, scope), width, -1),
        };
    }

    private Word Sum(Tree e, Size? wanted, Scope scope)
    {
        var isSigned = ReadingOf(e, scope) == Reading.Signed;
        var (sum, width, turn) = Unwrapped(e, wanted, ReadingOf(e, scope), scope);
        return isSigned
            ? Word.Signed(path.Wrapped(sum, width, isSigned, 0, 1, -1).Poly, width)
            : Word.Of(path.Wrapped(sum, width, isSigned, 0, turn).Poly, width);
    }

    private Word Gate(Tree e, Size? wanted, Scope scope)
    {
        var width = SidesWidth(e, wanted, scope);
        if (width != 1)
        {
            throw new RefusedException(Refusal.NotKnown, e.Kind);
        }
        var left = IsOne(e[0], scope);
        if (e.Kind != "xor" && left == (e.Kind == "or"))
        {
            return Word.Bit(left);
        }
        var right = IsOne(e[1], scope);
        return Word.Bit(e.Kind == "xor" ? left != right : right);
    }

    private bool Compared(Tree e, Scope scope)
    {
        var reading = Common(e.Inside, scope);
        var width = SidesWidth(e, null, scope) ?? throw new RefusedException(Refusal.NotKnown, e.Kind);
        var first = Number(e[0], width, reading, scope);
        var difference = first - Number(e[1], width, reading, scope);
        return e.Text switch
        {
            "=" => path.IsZero(difference),
            "<>" => !path.IsZero(difference),
            "<" => path.IsNegative(difference),
            ">=" => !path.IsNegative(difference),
            ">" => path.IsNegative(-difference),
            "<=" => !path.IsNegative(-difference),
            _ => throw new RefusedException(Refusal.NotKnown, e.Text),
        };
    }

    private Word Call(Tree e, Size? wanted, Scope scope)
    {
        switch (e.Text)
        {
            case "signed" or "unsigned":
                return Word.Of(Value(e[0], wanted, scope).Stretches(path));
            case "extend":
                var to =
                    e.Inside.Count > 1
                        ? machine.Size(e[1])
                        : wanted ?? throw new RefusedException(Refusal.NotKnown, e.Text);
                var word = Value(e[0], null, scope);
                return Extended(word, to, ReadingOf(e[0], scope) == Reading.Signed);
            case "shl":
                return Shifted(Value(e[0], wanted, scope), Entering(e[1], scope), isLeft: true);
            case "shr":
                return Shifted(Value(e[0], wanted, scope), Entering(e[1], scope), isLeft: false);
            case "copies":
                var size = machine.Size(e[1]);
                return Word.Of(
                    path.IsOne(Fitting(Entering(e[0], scope), 1).Number(path)) ? Poly.Power(size) - 1 : 0,
                    size
                );
            case "abs":
                var own = Value(e[0], wanted, scope);
                var number = own.AsSigned(path);
                return Word.Of(path.IsNegative(number) ? -number : number, own.Width);
            default:
                throw new RefusedException(Refusal.NotKnown, e.Text);
        }
    }

    private Word Extended(Word word, Size width, bool isSigned)
    {
        var more = width - word.Width;
        if (!path.Region.NeverNegative(more))
        {
            throw new RefusedException(Refusal.NotKnown, "extend");
        }
        return isSigned ? Word.Signed(word.AsSigned(path), width)
            : more == 0 ? word
            : Word.Of([new(0, more), .. word.Stretches(path)]);
    }

    private Word Shifted(Word word, Word entering, bool isLeft)
    {
        var by = entering.Width;
        if (!isLeft)
        {
            return Word.Of([.. entering.Stretches(path), .. word.Slice(path, word.Width - 1, by).Stretches(path)]);
        }
        path.DecideLost(word.Slice(path, word.Width - 1, word.Width - by).Number(path), by);
        return Word.Of([.. word.Slice(path, word.Width - by - 1, 0).Stretches(path), .. entering.Stretches(path)]);
    }

    // ---- what is known before anything is computed

    private Size? WidthOf(Tree e, Scope scope)
    {
        if (IsNumber(e, scope))
        {
            return null;
        }
        return e.Kind switch
        {
            "bits" => e.Text.Length,
            "name" => scope.Wires.TryGetValue(e.Text, out var wire) ? wire.Width
            : e.Text == "last" ? 1
            : machine.Parts.TryGetValue(e.Text, out var part) ? part.High - part.Low + 1
            : machine.Register(e.Text)?.Width,
            "slice" => machine.Size(e[1]) - machine.Size(e[2]) + 1,
            "join" => e.Inside.Aggregate(
                (Size)0,
                (sum, p) => sum + (p.Kind == "number" ? 1 : Known(WidthOf(p, scope), p))
            ),
            "compare" => 1,
            "sized" => machine.Size(e[1]),
            "when" => WidthOf(e[0], scope) ?? WidthOf(e[2], scope),
            "call" when e.Text is "copies" => machine.Size(e[1]),
            "call" when e.Text is "extend" => e.Inside.Count > 1 ? machine.Size(e[1]) : null,
            _ => e
                .Inside.Take(e.Kind is "call" ? 1 : 2)
                .Select(x => WidthOf(x, scope))
                .FirstOrDefault(w => w is not null),
        };
    }

    private Reading ReadingOf(Tree e, Scope scope) =>
        e.Kind switch
        {
            "neg" when IsNumber(e, scope) => Reading.Signed,
            "name" => scope.Wires.TryGetValue(e.Text, out var wire) ? wire.Reading
            : machine.Parts.TryGetValue(e.Text, out var part) ? part.Reading
            : machine.Register(e.Text)?.Reading ?? Reading.Bare,
            "not" or "neg" or "sized" => ReadingOf(e[0], scope),
            "+" or "-" when !IsNumber(e, scope) => Common(e.Inside, scope),
            "and" or "or" or "xor" => ReadingOf(e[0], scope) is var first && first == ReadingOf(e[1], scope)
                ? first
                : Reading.Bare,
            "when" => Common([e[0], e[2]], scope),
            "call" => e.Text switch
            {
                "signed" => Reading.Signed,
                "unsigned" or "abs" => Reading.Unsigned,
                "extend" => ReadingOf(e[0], scope) is var own && own == Reading.Bare ? Reading.Unsigned : own,
                "shl" or "shr" => ReadingOf(e[0], scope),
                _ => Reading.Bare,
            },
            _ => Reading.Bare,
        };

    /// <summary>Bare sides go with either of the others; signed and unsigned do not meet.</summary>
    private Reading Common(IReadOnlyList<Tree> sides, Scope scope)
    {
        var readings = sides.Select(s => ReadingOf(s, scope)).Where(r => r != Reading.Bare).Distinct().ToList();
        return readings.Count switch
        {
            0 => Reading.Bare,
            1 => readings[0],
            _ => throw new RefusedException(Refusal.NotKnown, "signed"),
        };
    }
}
