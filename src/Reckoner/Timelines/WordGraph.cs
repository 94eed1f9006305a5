using System.Numerics;
using Reckoner.Datapaths;
using Reckoner.Numbers;

namespace Reckoner.Timelines;

/// <summary>
/// A growing list of word operations in which equal ones stand once. Wiring is resolved as it is built: slices of joins,
/// choices between equal words and operations on constants leave no trace.
/// </summary>
internal sealed partial class WordGraph
{
    private readonly List<Word> words = [];
    private readonly Dictionary<Key, int> places = [];

    public IReadOnlyList<Word> Words => words;

    /// <summary>The origin of operations made from here on.</summary>
    public Origin Origin { get; set; }

    /// <summary>Whether equal operations of different units stand apart, each with its unit: that of the value of the origin.</summary>
    public bool KeepsUnits { get; init; }

    private List<int> unitWords = [];

    /// <summary>The operations of units that were asked for since the last call, whether they were there before or not.</summary>
    internal IReadOnlyList<int> TakeUnitWords()
    {
        var taken = unitWords;
        unitWords = [];
        return taken;
    }

    private Unit? UnitOf(WordOperation operation) =>
        KeepsUnits && Origin.Value is { } value && IsOfUnits(operation) ? value.Unit ?? SumOf(value)?.Unit : null;

    /// <summary>What a second output of a unit belongs to.</summary>
    private static Value? SumOf(Value value) =>
        Operations.Row(value.Operation).Cost == Cost.SecondOutput ? value.Inputs[0] : null;

    /// <summary>Whether units do it; the rest of a graph is wires, gates and choices.</summary>
    private static bool IsOfUnits(WordOperation operation) =>
        operation switch
        {
            WordOperation.Add
            or WordOperation.Carry
            or WordOperation.Subtract
            or WordOperation.Less
            or WordOperation.Multiply
            or WordOperation.CarrySaveSum
            or WordOperation.CarrySaveCarry
            or WordOperation.Equal => true,
            WordOperation.Constant
            or WordOperation.Operand
            or WordOperation.Register
            or WordOperation.Last
            or WordOperation.Slice
            or WordOperation.Join
            or WordOperation.Copies
            or WordOperation.And
            or WordOperation.Or
            or WordOperation.Xor
            or WordOperation.Not
            or WordOperation.Choose
            or WordOperation.Lookup => false,
        };

    public Word this[int place] => words[place];

    private readonly record struct Key(
        WordOperation Operation,
        int Width,
        Inputs Inputs,
        int Low,
        BigInteger Bits,
        bool IsSigned,
        Table? Table,
        Unit? Unit
    );

    /// <summary>Inputs compared by their values.</summary>
    private readonly record struct Inputs(IReadOnlyList<int> Places)
    {
        public bool Equals(Inputs other) => Places.SequenceEqual(other.Places);

        public override int GetHashCode()
        {
            var hash = new HashCode();
            foreach (var place in Places)
            {
                hash.Add(place);
            }
            return hash.ToHashCode();
        }
    }

    private int Enter(Word word)
    {
        var unit = UnitOf(word.Operation);
        var key = new Key(
            word.Operation,
            word.Width,
            new Inputs(word.Inputs),
            word.Low,
            word.Bits,
            word.IsSigned,
            word.Table,
            unit
        );
        if (!places.TryGetValue(key, out var place))
        {
            place = words.Count;
            words.Add(word with { Origin = Origin, Unit = unit });
            places.Add(key, place);
        }
        if (unit is not null)
        {
            unitWords.Add(place);
        }
        return place;
    }

    public int Width(int place) => words[place].Width;

    public int Constant(BigInteger bits, int width) =>
        Enter(new Word(WordOperation.Constant, width, []) { Bits = bits });

    public int Operand(Operand operand) =>
        Enter(new Word(WordOperation.Operand, operand.Width, []) { Low = operand.Index });

    public int Register(Register register) =>
        Enter(new Word(WordOperation.Register, register.Width, []) { Low = register.Index });

    public int Last() => Enter(new Word(WordOperation.Last, 1, []));

    private bool IsConstant(int place, out BigInteger bits)
    {
        bits = words[place].Bits;
        return words[place].Operation == WordOperation.Constant;
    }

    public int Add(int a, int b) =>
        IsConstant(a, out var x) && IsConstant(b, out var y) ? Constant(Bits.Wrap(x + y, Width(a)), Width(a))
        : IsConstant(b, out y) && y.IsZero ? a
        : IsConstant(a, out x) && x.IsZero ? b
        : Binary(WordOperation.Add, Width(a), a, b);

    public int Subtract(int a, int b) =>
        IsConstant(a, out var x) && IsConstant(b, out var y) ? Constant(Bits.Wrap(x - y, Width(a)), Width(a))
        : IsConstant(b, out y) && y.IsZero ? a
        : Binary(WordOperation.Subtract, Width(a), a, b);

    public int Carry(int a, int b) =>
        IsConstant(a, out var x) && IsConstant(b, out var y) ? Constant((x + y) >> Width(a), 1)
        : (IsConstant(b, out y) && y.IsZero) || (IsConstant(a, out x) && x.IsZero) ? Constant(0, 1)
        : Binary(WordOperation.Carry, 1, a, b);

    /// <summary>Whether a is less than b, unsigned: the borrow of a - b.</summary>
    public int Less(int a, int b) =>
        IsConstant(a, out var x) && IsConstant(b, out var y) ? Constant(x < y ? 1 : 0, 1)
        : a == b || (IsConstant(b, out y) && y.IsZero) ? Constant(0, 1)
        : Binary(WordOperation.Less, 1, a, b);

    /// <summary>Signed words compare as unsigned ones when their top bits are turned over.</summary>
    public int LessSigned(int a, int b) => Less(TopTurned(a), TopTurned(b));

    private int TopTurned(int a)
    {
        var top = Width(a) - 1;
        var turned = Not(Slice(a, top, top));
        return top == 0 ? turned : Join([turned, Slice(a, top - 1, 0)]);
    }

    public int Equal(int a, int b)
    {
        if (IsConstant(a, out var x) && IsConstant(b, out var y))
        {
            return Constant(x == y ? 1 : 0, 1);
        }
        if (a == b)
        {
            return Constant(1, 1);
        }
        if (Width(a) == 1 && (IsConstant(a, out _) || IsConstant(b, out _)))
        {
            var (bit, isOne) = IsConstant(a, out x) ? (b, x.IsOne) : (a, words[b].Bits.IsOne);
            return isOne ? bit : Not(bit);
        }
        return Symmetric(WordOperation.Equal, 1, a, b);
    }

    public int Multiply(int a, int b, bool isSigned)
    {
        var width = Width(a) + Width(b);
        if (IsConstant(a, out var x) && IsConstant(b, out var y))
        {
            return Constant(
                Bits.Wrap(isSigned ? Bits.AsSigned(x, Width(a)) * Bits.AsSigned(y, Width(b)) : x * y, width),
                width
            );
        }
        return Enter(new Word(WordOperation.Multiply, width, [a, b]) { IsSigned = isSigned });
    }

    public int CarrySaveSum(int a, int b, int c) =>
        Xor(Xor(a, b), c) is var sum && IsConstant(sum, out _)
            ? sum
            : Enter(new Word(WordOperation.CarrySaveSum, Width(a), [a, b, c]));

    public int CarrySaveCarry(int a, int b, int c) =>
        Enter(new Word(WordOperation.CarrySaveCarry, Width(a), [a, b, c]));

    public int Lookup(Table table, int cell) =>
        IsConstant(cell, out var index)
            ? Constant(table.Cells[(int)index], table.Width)
            : Enter(new Word(WordOperation.Lookup, table.Width, [cell]) { Table = table });

    private int Binary(WordOperation operation, int width, int a, int b) => Enter(new Word(operation, width, [a, b]));

    private int Symmetric(WordOperation operation, int width, int a, int b) =>
        Binary(operation, width, Math.Min(a, b), Math.Max(a, b));
}
