using System.Numerics;
using Reckoner.Numbers;

namespace Reckoner.Timelines;

internal sealed partial class WordGraph
{
    public int Not(int a)
    {
        if (IsConstant(a, out var x))
        {
            return Constant(Bits.Mask(Width(a)) ^ x, Width(a));
        }
        return words[a].Operation == WordOperation.Not
            ? words[a].Inputs[0]
            : Enter(new Word(WordOperation.Not, Width(a), [a]));
    }

    public int And(int a, int b) => Gate(WordOperation.And, a, b, (x, y) => x & y, neutral: true);

    public int Or(int a, int b) => Gate(WordOperation.Or, a, b, (x, y) => x | y, neutral: false);

    /// <summary>And keeps the other side beside ones and is zeros beside zeros; or the reverse.</summary>
    private int Gate(WordOperation operation, int a, int b, Func<BigInteger, BigInteger, BigInteger> fold, bool neutral)
    {
        var (isA, isB) = (IsConstant(a, out var x), IsConstant(b, out var y));
        if (isA && isB)
        {
            return Constant(fold(x, y), Width(a));
        }
        if (a == b)
        {
            return a;
        }
        if (isA || isB)
        {
            var (word, other, bits) = isA ? (b, a, x) : (a, b, y);
            var keeps = neutral ? Bits.Mask(Width(a)) : BigInteger.Zero;
            var decides = neutral ? BigInteger.Zero : Bits.Mask(Width(a));
            if (bits == keeps)
            {
                return word;
            }
            if (bits == decides)
            {
                return other;
            }
        }
        return Symmetric(operation, Width(a), a, b);
    }

    public int Xor(int a, int b)
    {
        var (isA, isB) = (IsConstant(a, out var x), IsConstant(b, out var y));
        if (isA && isB)
        {
            return Constant(x ^ y, Width(a));
        }
        if (a == b)
        {
            return Constant(0, Width(a));
        }
        if (isA || isB)
        {
            var (word, bits) = isA ? (b, x) : (a, y);
            if (bits.IsZero)
            {
                return word;
            }
            if (bits == Bits.Mask(Width(a)))
            {
                return Not(word);
            }
        }
        return Symmetric(WordOperation.Xor, Width(a), a, b);
    }

    /// <summary>Bits high..low of a word.</summary>
    public int Slice(int a, int high, int low)
    {
        var word = words[a];
        var width = high - low + 1;
        if (width == word.Width)
        {
            return a;
        }
        return word.Operation switch
        {
            WordOperation.Constant => Constant(Bits.Wrap(word.Bits >> low, width), width),
            WordOperation.Slice => Slice(word.Inputs[0], word.Low + high, word.Low + low),
            WordOperation.Copies => Copies(word.Inputs[0], width),
            WordOperation.Join => SliceOfJoin(word, high, low),
            WordOperation.Operand
            or WordOperation.Register
            or WordOperation.Last
            or WordOperation.Add
            or WordOperation.Carry
            or WordOperation.Subtract
            or WordOperation.Less
            or WordOperation.Multiply
            or WordOperation.CarrySaveSum
            or WordOperation.CarrySaveCarry
            or WordOperation.And
            or WordOperation.Or
            or WordOperation.Xor
            or WordOperation.Not
            or WordOperation.Equal
            or WordOperation.Choose
            or WordOperation.Lookup => Enter(new Word(WordOperation.Slice, width, [a]) { Low = low }),
        };
    }

    private int SliceOfJoin(Word join, int high, int low)
    {
        var parts = new List<int>();
        var top = join.Width - 1;
        foreach (var part in join.Inputs)
        {
            var bottom = top - Width(part) + 1;
            var (h, l) = (Math.Min(top, high), Math.Max(bottom, low));
            if (h >= l)
            {
                parts.Add(Slice(part, h - bottom, l - bottom));
            }
            top = bottom - 1;
        }
        return Join(parts);
    }

    /// <summary>Words side by side, the most significant first.</summary>
    public int Join(IReadOnlyList<int> parts)
    {
        var merged = new List<int>();
        foreach (var part in parts)
        {
            foreach (var piece in words[part].Operation == WordOperation.Join ? words[part].Inputs : [part])
            {
                if (merged.Count > 0 && Merged(merged[^1], piece) is { } one)
                {
                    merged[^1] = one;
                }
                else
                {
                    merged.Add(piece);
                }
            }
        }
        return merged.Count == 1 ? merged[0] : Enter(new Word(WordOperation.Join, merged.Sum(Width), merged));
    }

    /// <summary>Two neighbours that are one word: constants, neighbouring bits of a word, copies of one bit.</summary>
    private int? Merged(int high, int low)
    {
        if (IsConstant(high, out var x) && IsConstant(low, out var y))
        {
            return Constant((x << Width(low)) | y, Width(high) + Width(low));
        }
        var (h, l) = (words[high], words[low]);
        if (
            h.Operation == WordOperation.Slice
            && l.Operation == WordOperation.Slice
            && h.Inputs[0] == l.Inputs[0]
            && h.Low == l.Low + l.Width
        )
        {
            return Slice(h.Inputs[0], h.Low + h.Width - 1, l.Low);
        }
        var (highBit, lowBit) = (Bit(high), Bit(low));
        return highBit == lowBit && (h.Operation == WordOperation.Copies || l.Operation == WordOperation.Copies)
            ? Copies(highBit, h.Width + l.Width)
            : null;
    }

    private int Bit(int place) => words[place].Operation == WordOperation.Copies ? words[place].Inputs[0] : place;

    public int Copies(int bit, int count)
    {
        if (IsConstant(bit, out var x))
        {
            return Constant(x.IsOne ? Bits.Mask(count) : 0, count);
        }
        return count == 1 ? bit : Enter(new Word(WordOperation.Copies, count, [bit]));
    }

    /// <summary>
    /// a when the condition is 1, else b. Bits that are the same on both sides are chosen by nobody, so a write to a part of a
    /// register leaves a choice of that part alone.
    /// </summary>
    public int Choose(int condition, int a, int b)
    {
        if (IsConstant(condition, out var x))
        {
            return x.IsOne ? a : b;
        }
        if (a == b)
        {
            return a;
        }
        if (words[condition].Operation == WordOperation.Not)
        {
            return Choose(words[condition].Inputs[0], b, a);
        }
        if (words[a].Operation == WordOperation.Join || words[b].Operation == WordOperation.Join)
        {
            return ChooseByPieces(condition, a, b);
        }
        if (Width(a) == 1 && IsConstant(a, out x) && IsConstant(b, out var y))
        {
            return x.IsOne ? condition
                : y.IsOne ? Not(condition)
                : a;
        }
        return Enter(new Word(WordOperation.Choose, Width(a), [condition, a, b]));
    }

    private int ChooseByPieces(int condition, int a, int b)
    {
        var cuts = Cuts(a).Union(Cuts(b)).OrderDescending().ToList();
        var pieces = new List<int>();
        var top = Width(a) - 1;
        var differing = new List<(int A, int B)>();
        void Flush()
        {
            if (differing.Count > 0)
            {
                pieces.Add(
                    Whole(condition, Join([.. differing.Select(d => d.A)]), Join([.. differing.Select(d => d.B)]))
                );
                differing.Clear();
            }
        }
        foreach (var low in cuts)
        {
            var (x, y) = (Slice(a, top, low), Slice(b, top, low));
            if (x == y)
            {
                Flush();
                pieces.Add(x);
            }
            else
            {
                differing.Add((x, y));
            }
            top = low - 1;
        }
        Flush();
        return Join(pieces);
    }

    private int Whole(int condition, int a, int b) =>
        words[a].Operation == WordOperation.Join || words[b].Operation == WordOperation.Join
            ? Enter(new Word(WordOperation.Choose, Width(a), [condition, a, b]))
            : Choose(condition, a, b);

    /// <summary>The lowest place of every piece of a word.</summary>
    private IEnumerable<int> Cuts(int place)
    {
        var low = Width(place);
        foreach (var part in words[place].Operation == WordOperation.Join ? words[place].Inputs : [place])
        {
            low -= Width(part);
            yield return low;
        }
    }
}
