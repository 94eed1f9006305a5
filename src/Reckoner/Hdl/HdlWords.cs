using Reckoner.Datapaths;
using Reckoner.Numbers;

namespace Reckoner.Hdl;

/// <summary>
/// Says values of a datapath as words of hardware text. Slices, shifts and joins become parts of what they are made of; only a part of
/// something computed needs a name for the whole, which is set just before.
/// </summary>
/// <param name="register">The name under which a register is read here.</param>
/// <param name="named">Names that were given: operands, wires, tables.</param>
/// <param name="last">Whether this is the last round, one bit.</param>
/// <param name="whole">A name for a word, set before what is being said.</param>
internal sealed class HdlWords(
    Func<Register, string> register,
    IReadOnlyDictionary<object, string> named,
    HdlWord last,
    Func<HdlWord, HdlWord> whole
)
{
    public HdlWord Of(Value value) => Of(value, value.Width - 1, 0);

    /// <summary>The places from high down to low of a value.</summary>
    private HdlWord Of(Value v, int high, int low)
    {
        var width = high - low + 1;
        return v.Operation switch
        {
            Operation.Unknown => throw new InvalidOperationException("a datapath has no unknown values"),
            Operation.Constant => HdlWord.Literal(width, Bits.Wrap(v.Bits >> low, width)),
            Operation.Operand => HdlWord.Part(named[v.Operand!], v.Width, high, low),
            Operation.Register => HdlWord.Part(register(v.Register!), v.Width, high, low),
            Operation.Wire => HdlWord.Part(named[v.Wire!], v.Width, high, low),
            Operation.Last => last,
            Operation.Reread => Of(v.Inputs[0], high, low),
            Operation.Slice => Of(v.Inputs[0], high + v.Low, low + v.Low),
            Operation.Join => Side(v.Inputs, high, low),
            Operation.Copies => Repeated(Of(v.Inputs[0]), width),
            Operation.Extend => Extended(v.Inputs[0], v.Reading == Reading.Signed, high, low),
            Operation.ShiftLeft => Side([v.Inputs[0], v.Inputs[1]], high, low),
            Operation.ShiftRight => Side([v.Inputs[1], v.Inputs[0]], high + v.Inputs[1].Width, low + v.Inputs[1].Width),
            Operation.And => Each(HdlWordKind.And, v, high, low),
            Operation.Or => Each(HdlWordKind.Or, v, high, low),
            Operation.Xor or Operation.CarrySaveSum => Each(HdlWordKind.Xor, v, high, low),
            Operation.CarrySaveCarry => Majority([.. v.Inputs[0].Inputs.Select(i => Of(i, high, low))]),
            Operation.Not => Each(HdlWordKind.Not, v, high, low),
            Operation.Choose => new HdlWord(
                HdlWordKind.Chosen,
                width,
                Of(v.Inputs[0]),
                Of(v.Inputs[1], high, low),
                Of(v.Inputs[2], high, low)
            ),
            Operation.Select => Selected(v, high, low),
            Operation.Carry => Cut(Wide(v.Inputs[0]), v.Inputs[0].Width, v.Inputs[0].Width),
            Operation.Add
            or Operation.Subtract
            or Operation.Negate
            or Operation.Magnitude
            or Operation.Multiply
            or Operation.Borrow
            or Operation.Equal
            or Operation.Unequal
            or Operation.Less
            or Operation.LessOrEqual
            or Operation.Greater
            or Operation.GreaterOrEqual
            or Operation.Lookup => Cut(Computed(v), high, low),
        };
    }

    /// <summary>What only makes sense as a whole.</summary>
    private HdlWord Computed(Value v) =>
        v.Operation switch
        {
            Operation.Add => Two(HdlWordKind.Sum, v),
            Operation.Subtract => Two(HdlWordKind.Difference, v),
            Operation.Negate => new HdlWord(HdlWordKind.Negation, v.Width, Of(v.Inputs[0])),
            Operation.Magnitude => Magnitude(v),
            Operation.Multiply => new HdlWord(HdlWordKind.Product, v.Width, Factor(v, 0), Factor(v, 1)),
            Operation.Borrow => new HdlWord(HdlWordKind.Less, 1, Of(v.Inputs[0].Inputs[0]), Of(v.Inputs[0].Inputs[1])),
            Operation.Equal => Compared(HdlWordKind.Equal, v),
            Operation.Unequal => Compared(HdlWordKind.Unequal, v),
            Operation.Less => Compared(HdlWordKind.Less, v),
            Operation.LessOrEqual => Compared(HdlWordKind.LessOrEqual, v),
            Operation.Greater => Compared(HdlWordKind.Greater, v),
            Operation.GreaterOrEqual => Compared(HdlWordKind.GreaterOrEqual, v),
            Operation.Lookup => new HdlWord(HdlWordKind.Cell, v.Width, HdlWord.Joined(v.Inputs.Select(Of)))
            {
                Name = named[v.Table!],
            },
            _ => throw new InvalidOperationException(v.Operation.ToString()),
        };

    private HdlWord Two(HdlWordKind kind, Value v) => new(kind, v.Width, Of(v.Inputs[0]), Of(v.Inputs[1]));

    /// <summary>A bare side takes the other's reading, as when it is executed.</summary>
    private HdlWord Compared(HdlWordKind kind, Value v) =>
        Two(kind, v) with
        {
            Width = 1,
            IsSigned = v.Inputs.Any(i => i.Reading == Reading.Signed),
        };

    /// <summary>The sum of two words with the carry on top.</summary>
    public HdlWord Wide(Value sum) =>
        new(
            HdlWordKind.Sum,
            sum.Width + 1,
            HdlWord.Joined([HdlWord.Literal(1, 0), Of(sum.Inputs[0])]),
            HdlWord.Joined([HdlWord.Literal(1, 0), Of(sum.Inputs[1])])
        );

    private HdlWord Factor(Value product, int side)
    {
        var factor = product.Inputs[side];
        return Extended(factor, factor.Reading == Reading.Signed, product.Width - 1, 0);
    }

    private HdlWord Magnitude(Value v)
    {
        var number = v.Inputs[0];
        return number.Reading != Reading.Signed
            ? Of(number)
            : new HdlWord(
                HdlWordKind.Chosen,
                v.Width,
                Of(number, number.Width - 1, number.Width - 1),
                new HdlWord(HdlWordKind.Negation, v.Width, Of(number)),
                Of(number)
            );
    }

    private HdlWord Cut(HdlWord word, int high, int low)
    {
        if (low == 0 && high == word.Width - 1)
        {
            return word;
        }
        var of = whole(word);
        return HdlWord.Part(of.Name, word.Width, high, low);
    }

    /// <summary>Places of words that stand side by side, the first on top.</summary>
    private HdlWord Side(IReadOnlyList<Value> words, int high, int low)
    {
        var pieces = new List<HdlWord>();
        var top = words.Sum(w => w.Width) - 1;
        foreach (var word in words)
        {
            var bottom = top - word.Width + 1;
            if (high >= bottom && low <= top)
            {
                pieces.Add(Of(word, Math.Min(high, top) - bottom, Math.Max(low, bottom) - bottom));
            }
            top = bottom - 1;
        }
        return HdlWord.Joined(pieces);
    }

    private HdlWord Extended(Value word, bool isSigned, int high, int low)
    {
        if (high < word.Width)
        {
            return Of(word, high, low);
        }
        var more = high - Math.Max(low, word.Width) + 1;
        var filled = isSigned ? Repeated(Of(word, word.Width - 1, word.Width - 1), more) : HdlWord.Literal(more, 0);
        return low >= word.Width ? filled : HdlWord.Joined([filled, Of(word, word.Width - 1, low)]);
    }

    private static HdlWord Repeated(HdlWord bit, int count) =>
        count == 1 ? bit : new HdlWord(HdlWordKind.Repeated, count, bit);

    private HdlWord Each(HdlWordKind kind, Value v, int high, int low)
    {
        var words = v.Inputs.Select(i => Of(i, high, low)).ToList();
        return words.Count == 1
            ? new HdlWord(kind, high - low + 1, words)
            : words.Skip(1).Aggregate(words[0], (a, b) => new HdlWord(kind, high - low + 1, a, b));
    }

    private static HdlWord Majority(IReadOnlyList<HdlWord> x)
    {
        var pairs = new[] { (0, 1), (0, 2), (1, 2) }.Select(p => Both(x[p.Item1], x[p.Item2]));
        return pairs.Aggregate((a, b) => new HdlWord(HdlWordKind.Or, a.Width, a, b));

        static HdlWord Both(HdlWord a, HdlWord b) => new(HdlWordKind.And, a.Width, a, b);
    }

    private HdlWord Selected(Value v, int high, int low)
    {
        var subject = Of(v.Inputs[0]);
        if (subject.Kind != HdlWordKind.Part)
        {
            subject = whole(subject);
        }
        var chosen = Of(v.Inputs[^1], high, low);
        for (var arm = v.Arms.Count - 2; arm >= 0; arm--)
        {
            var acts = new HdlWord(HdlWordKind.Matched, 1, subject) { Patterns = v.Arms[arm].Patterns };
            chosen = new HdlWord(HdlWordKind.Chosen, chosen.Width, acts, Of(v.Inputs[arm + 1], high, low), chosen);
        }
        return chosen;
    }
}
