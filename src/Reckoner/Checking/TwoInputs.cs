namespace Reckoner.Checking;

/// <summary>
/// Spells lookups with two-input operations. Needs a stretch of a program; leaves lookups of AND, OR, XOR, AND-NOT, NOT and
/// copies, with new values behind the program's for what lies between. Sum and carry share their first XOR, and other parts
/// are shared in the same way while they are near.
/// </summary>
internal sealed class TwoInputs
{
    /// <summary>A part older than so many operations is made again: keeping it would cost a register.</summary>
    private const int Near = 8;

    private readonly PlaneValues values;
    private readonly List<Lookup> spelt = [];
    private readonly Dictionary<(byte Function, int Left, int Right), (int Value, int Place)> made = [];
    private readonly HashSet<(byte, int, int)> wanted = [];
    private int nextValue;

    private TwoInputs(PlaneValues values)
    {
        this.values = values;
        nextValue = values.Count;
    }

    public static IReadOnlyList<Lookup> Spelt(PlaneValues values, int from, int to)
    {
        var writer = new TwoInputs(values);
        for (var i = from; i < to; i++)
        {
            writer.Want(i);
        }
        for (var i = from; i < to; i++)
        {
            writer.Spell(i);
        }
        return writer.spelt;
    }

    /// <summary>Notes the first operations of small gates, since a neighbour may have them as parts: a sum's XOR, say.</summary>
    private void Want(int index)
    {
        var gate = values.Lookups[index];
        if (BitExpressions.Cost(gate.Function) > 2)
        {
            return;
        }
        foreach (var formula in BitExpressions.Of(gate.Function).OfType<BitPair>())
        {
            foreach (var part in new[] { formula, formula.Left, formula.Right })
            {
                if (part is BitPair { Left: BitInput left, Right: BitInput right } pair)
                {
                    wanted.Add(Key(pair.Operation, gate.At(left.Index), gate.At(right.Index)));
                }
            }
        }
    }

    private static (byte, int, int) Key(BitOperation operation, int left, int right)
    {
        var function = operation switch
        {
            BitOperation.And => Lookup.And,
            BitOperation.Or => Lookup.Or,
            BitOperation.Xor => Lookup.Xor,
            BitOperation.AndNot => Lookup.AndNot,
        };
        return operation != BitOperation.AndNot && left > right ? (function, right, left) : (function, left, right);
    }

    private void Spell(int index)
    {
        var gate = values.Lookups[index];
        var best = BitExpressions.Of(gate.Function).MinBy(e => Price(e, gate, index).Price)!;
        Write(best, gate, index, gate.To);
    }

    /// <summary>The value of an expression if it is there already; else what it costs, less a little for parts that are wanted.</summary>
    private (int? Value, int Price) Price(BitExpression expression, Lookup gate, int index)
    {
        const int whole = 64;
        switch (expression)
        {
            case BitInput input:
                return (gate.At(input.Index), 0);
            case BitPair pair:
                var (left, right) = (Price(pair.Left, gate, index), Price(pair.Right, gate, index));
                if (left.Value is not { } a || right.Value is not { } b)
                {
                    return (null, left.Price + right.Price + whole);
                }
                var key = Key(pair.Operation, a, b);
                return Known(key, index) is { } known ? (known, 0) : (null, whole - (wanted.Contains(key) ? 1 : 0));
            default:
                return (null, 0);
        }
    }

    private int? Known((byte, int, int) key, int index)
    {
        if (!made.TryGetValue(key, out var known))
        {
            return null;
        }
        var lasts =
            known.Value >= values.Count ? spelt.Count - known.Place <= Near : values.LastUse(known.Value) >= index;
        return lasts ? known.Value : null;
    }

    /// <summary>Writes what is not there yet; the value wanted for the result, if any, gets a copy where it is.</summary>
    private int Write(BitExpression expression, Lookup gate, int index, int? to)
    {
        switch (expression)
        {
            case BitInput input:
                return to is null ? gate.At(input.Index) : Add(Lookup.Copy, gate.At(input.Index), 0, to);
            case BitConstant constant:
                return Add(constant.Function, 0, 0, to);
            case BitPair { Left: BitConstant, Operation: BitOperation.Xor or BitOperation.AndNot } pair:
                return Add(Lookup.Not, Write(pair.Right, gate, index, null), 0, to);
            case BitPair { Right: BitConstant, Operation: BitOperation.Xor } pair:
                return Add(Lookup.Not, Write(pair.Left, gate, index, null), 0, to);
            case BitPair pair:
                var left = Write(pair.Left, gate, index, null);
                var right = Write(pair.Right, gate, index, null);
                var key = Key(pair.Operation, left, right);
                if (Known(key, index) is { } known)
                {
                    return to is null ? known : Add(Lookup.Copy, known, 0, to);
                }
                var made = Add(key.Item1, key.Item2, key.Item3, to);
                this.made[key] = (made, spelt.Count);
                return made;
            default:
                throw new InvalidOperationException(expression.GetType().Name);
        }
    }

    private int Add(byte function, int left, int right, int? to)
    {
        var value = to ?? nextValue++;
        spelt.Add(new Lookup(function, left, right, 0, value));
        return value;
    }
}
