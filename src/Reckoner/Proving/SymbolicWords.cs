using Reckoner.Datapaths;
using Reckoner.Execution;

namespace Reckoner.Proving;

/// <summary>
/// Words at every width at once, on one path: where an operation or a decision depends on numbers, the path is asked. Words are
/// made when they are needed and not before, so that a choice asks only about the side that is taken.
/// </summary>
internal sealed class SymbolicWords(LiftedMachine machine, Path path, IReadOnlyList<Word> operands)
    : IWordDomain<Lazy<Word>>
{
    public bool TakesAllWays => false;

    public Lazy<Word> Word(Value value, ReadOnlySpan<Lazy<Word>> inputs)
    {
        if (value.Operation is Operation.Register or Operation.Wire or Operation.Last)
        {
            return inputs[0];
        }
        var own = inputs.ToArray();
        return new(() => Computed(value, own), LazyThreadSafetyMode.None);
    }

    private Word Computed(Value value, Lazy<Word>[] inputs)
    {
        var width = machine.Width(value);
        return value.Operation switch
        {
            Operation.Unknown or Operation.Register or Operation.Wire or Operation.Last =>
                throw new InvalidOperationException(value.Operation.ToString()),
            Operation.Constant => Proving.Word.Of(machine.Bits(value), width),
            Operation.Operand => operands[value.Operand!.Index],
            Operation.Slice => Sliced(value, inputs[0].Value, machine.Low(value) + width - 1, machine.Low(value)),
            Operation.Join => Proving.Word.Of([.. inputs.SelectMany(i => i.Value.Stretches(path))]),
            Operation.Copies => Proving.Word.Of(
                IsOne(inputs[0].Value) ? Form.Power(width) - Form.One : Form.Zero,
                width
            ),
            Operation.Reread => Proving.Word.Of(inputs[0].Value.Stretches(path)),
            Operation.Extend => Extended(value, inputs[0].Value, width),
            Operation.ShiftLeft => ShiftedLeft(inputs[0].Value, inputs[1].Value),
            Operation.ShiftRight => ShiftedRight(inputs[0].Value, inputs[1].Value),
            Operation.Add => Wrapped(value, Number(value, inputs[0]) + Number(value, inputs[1]), [0, 1]),
            Operation.Subtract => Wrapped(value, Number(value, inputs[0]) - Number(value, inputs[1]), [0, -1]),
            Operation.Negate => Wrapped(value, -Number(value, inputs[0]), [0, -1]),
            Operation.Magnitude => Magnitude(inputs[0].Value, width),
            Operation.Carry => Turned(
                value,
                value.Inputs[0],
                inputs[0].Value.Number(path) + inputs[1].Value.Number(path),
                1
            ),
            Operation.Borrow => Turned(
                value,
                value.Inputs[0],
                inputs[0].Value.Number(path) - inputs[1].Value.Number(path),
                -1
            ),
            Operation.And => Both(value, inputs, isZeroEnough: true),
            Operation.Or => Both(value, inputs, isZeroEnough: false),
            Operation.Xor => Proving.Word.Bit(IsOne(value, inputs[0]) != IsOne(value, inputs[1])),
            Operation.Not => Proving.Word.Of([
                .. inputs[0]
                    .Value.Stretches(path)
                    .Select(s => s with { Form = Form.Power(s.Width) - Form.One - s.Form }),
            ]),
            Operation.Equal => Proving.Word.Bit(path.IsZero(Difference(value, inputs))),
            Operation.Unequal => Proving.Word.Bit(!path.IsZero(Difference(value, inputs))),
            Operation.Less => Proving.Word.Bit(path.IsNegative(Difference(value, inputs))),
            Operation.GreaterOrEqual => Proving.Word.Bit(!path.IsNegative(Difference(value, inputs))),
            Operation.Greater => Proving.Word.Bit(path.IsNegative(-Difference(value, inputs))),
            Operation.LessOrEqual => Proving.Word.Bit(!path.IsNegative(-Difference(value, inputs))),
            Operation.Choose => IsOne(inputs[0].Value) ? inputs[1].Value : inputs[2].Value,
            Operation.Select => inputs[1 + Arm(value.Inputs[0], inputs[0].Value, value.Arms)].Value,
            Operation.CarrySaveSum => Proving.Word.Of(Saved(inputs).Sum, width),
            Operation.CarrySaveCarry => Proving.Word.Of(Saved(inputs).Carry, width),
            Operation.Multiply or Operation.Lookup => throw new NotReachedException(
                Obstacle.Operation,
                value.Written?.ToString() ?? ""
            ),
        };
    }

    private (Form Sum, Form Carry) Saved(Lazy<Word>[] inputs)
    {
        var a = inputs[0].Value.Number(path);
        var b = inputs[1].Value.Number(path);
        return path.Saved(a, b, inputs[2].Value.Number(path), inputs[0].Value.Width);
    }

    private bool IsOne(Word bit) => path.IsOne(bit.Number(path));

    private bool IsOne(Value value, Lazy<Word> bit) =>
        machine.Width(value) == 1
            ? IsOne(bit.Value)
            : throw new NotReachedException(Obstacle.Operation, value.Written?.ToString() ?? "");

    private Word Both(Value value, Lazy<Word>[] inputs, bool isZeroEnough) =>
        IsOne(value, inputs[0]) != isZeroEnough
            ? Proving.Word.Bit(!isZeroEnough)
            : Proving.Word.Bit(IsOne(value, inputs[1]));

    /// <summary>The number of an input by the reading of the operation: bare sides take that of the other.</summary>
    private Form Number(Value value, Lazy<Word> input) =>
        value.Reading == Reading.Signed ? input.Value.AsSigned(path) : input.Value.Number(path);

    private Form Difference(Value value, Lazy<Word>[] inputs)
    {
        if (value.Inputs.Any(i => i.Reading == Reading.Signed))
        {
            var left = inputs[0].Value.AsSigned(path);
            return left - inputs[1].Value.AsSigned(path);
        }
        var number = inputs[0].Value.Number(path);
        return number - inputs[1].Value.Number(path);
    }

    private Word Wrapped(Value value, Form form, IReadOnlyList<int> turns)
    {
        var width = machine.Width(value);
        return value.Reading == Reading.Signed
            ? Proving.Word.Signed(path.Wrapped(form, width, isSigned: true, 0, 1, -1).Form, width)
            : Proving.Word.Of(path.Wrapped(form, width, isSigned: false, turns).Form, width);
    }

    /// <summary>The carry or borrow of a sum or difference.</summary>
    private Word Turned(Value value, Value of, Form form, int turn) =>
        of.Reading == Reading.Signed
            ? throw new NotReachedException(Obstacle.Operation, value.Written?.ToString() ?? "")
            : Proving.Word.Bit(path.Wrapped(form, machine.Width(of), isSigned: false, 0, turn).Turns != 0);

    private Word Extended(Value value, Word word, Extent width)
    {
        if (value.Reading == Reading.Signed)
        {
            return word.Extended(path, width);
        }
        var more = width - word.Width;
        return more == 0 ? word : Proving.Word.Of([new(Form.Zero, more), .. word.Stretches(path)]);
    }

    /// <summary>Where the text cuts a bit or two off the top of a word, whether anything is lost is decided.</summary>
    private Word Sliced(Value value, Word word, Extent high, Extent low)
    {
        var above = word.Width - 1 - high;
        if (value.Written is Notation.Sliced && above.IsConstant && above.Constant is 1 or 2 && !high.IsConstant)
        {
            path.IsLost(word.Slice(path, word.Width - 1, high + 1).Number(path), above);
        }
        return word.Slice(path, high, low);
    }

    /// <summary>Whether anything is lost above is decided, for only then the shifted word is a number again.</summary>
    private Word ShiftedLeft(Word word, Word entering)
    {
        var kept = word.Width - entering.Width;
        path.IsLost(word.Slice(path, word.Width - 1, kept).Number(path), entering.Width);
        return Proving.Word.Of([.. word.Slice(path, kept - 1, 0).Stretches(path), .. entering.Stretches(path)]);
    }

    private Word ShiftedRight(Word word, Word entering) =>
        Proving.Word.Of([
            .. entering.Stretches(path),
            .. word.Slice(path, word.Width - 1, entering.Width).Stretches(path),
        ]);

    private Word Magnitude(Word word, Extent width)
    {
        var form = word.AsSigned(path);
        return Proving.Word.Of(path.IsNegative(form) ? -form : form, width);
    }

    private int Arm(Value subject, Word word, IReadOnlyList<ArmPatterns> arms)
    {
        for (var arm = 0; arm < arms.Count; arm++)
        {
            if (arms[arm].IsElse || arms[arm].Patterns.Any(p => IsMatched(subject, word, p)))
            {
                return arm;
            }
        }
        throw new ImpossibleException();
    }

    /// <summary>The bits that a pattern fixes, the highest first, until one differs.</summary>
    private bool IsMatched(Value subject, Word word, Pattern pattern)
    {
        if (!machine.Width(subject).IsConstant)
        {
            throw new NotReachedException(Obstacle.Operation, subject.Written?.ToString() ?? "");
        }
        for (var place = machine.Width(subject).Constant - 1; place >= 0; place--)
        {
            if (!(pattern.Mask >> place).IsEven)
            {
                var isOne = IsOne(word.Slice(path, place, place));
                if (isOne == (pattern.Bits >> place).IsEven)
                {
                    return false;
                }
            }
        }
        return true;
    }

    // ---- what an execution asks

    public Lazy<Word> Bit(bool isOne) => new(Proving.Word.Bit(isOne));

    public Lazy<Word> Both(Lazy<Word> a, Lazy<Word> b) => Bit(isOne: true);

    public Lazy<Word> Not(Lazy<Word> bit) => new(() => Proving.Word.Bit(!IsOne(bit.Value)), LazyThreadSafetyMode.None);

    public Lazy<Word> Matches(Value subject, Lazy<Word> word, ArmPatterns arm) =>
        new(
            () => Proving.Word.Bit(arm.IsElse || arm.Patterns.Any(p => IsMatched(subject, word.Value, p))),
            LazyThreadSafetyMode.None
        );

    public bool? IsOne(Lazy<Word> bit) => IsOne(bit.Value);

    public Lazy<Word> Chosen(Value? question, Lazy<Word> bit, Lazy<Word> then, Lazy<Word> otherwise) =>
        IsOne(bit.Value) ? then : otherwise;

    public Lazy<Word> Stored(Lazy<Word> register, Place place, Lazy<Word> word, int low)
    {
        var (high, bottom, offset) = machine.Range(place);
        var width = machine.Width(place.Register);
        var own = high - bottom + 1;
        var value = word.Value;
        if (own == width && own == value.Width)
        {
            return new(value);
        }
        var stretches = value.Slice(path, offset + own - 1, offset).Stretches(path).ToList();
        if (high != width - 1)
        {
            stretches.InsertRange(0, register.Value.Slice(path, width - 1, high + 1).Stretches(path));
        }
        if (bottom != 0)
        {
            stretches.AddRange(register.Value.Slice(path, bottom - 1, 0).Stretches(path));
        }
        return new(Proving.Word.Of(stretches));
    }

    public Lazy<Word> Latched(int register, Lazy<Word> word) => word;
}
