using System.Numerics;
using Reckoner.Datapaths;

namespace Reckoner.Hdl;

internal enum HdlWordKind
{
    Literal,

    /// <summary>Places of something that has a name, as many as the word is wide.</summary>
    Part,

    /// <summary>Its inputs side by side, the first on top.</summary>
    Joined,

    /// <summary>Its input, of one bit, in every place.</summary>
    Repeated,

    /// <summary>Two words of its own width; what leaves at the top is lost.</summary>
    Sum,
    Difference,
    Product,

    /// <summary>Its input taken from 0.</summary>
    Negation,
    And,
    Or,
    Xor,
    Not,

    /// <summary>One bit: how two words of one width compare.</summary>
    Equal,
    Unequal,
    Less,
    LessOrEqual,
    Greater,
    GreaterOrEqual,

    /// <summary>The second input where the first, a bit, is 1; else the third.</summary>
    Chosen,

    /// <summary>One bit: whether its input matches one of some patterns.</summary>
    Matched,

    /// <summary>What stands in a table, its input being the address.</summary>
    Cell,
}

/// <summary>A word as hardware text says it, before it is a text of one language. Nothing in it is widened or cut silently.</summary>
/// <param name="Width">In bits, at least 1.</param>
internal sealed record HdlWord(HdlWordKind Kind, int Width, params IReadOnlyList<HdlWord> Inputs)
{
    /// <summary>Of a part or a cell: what it is part of.</summary>
    public string Name { get; init; } = "";

    /// <summary>Of a part: how wide the whole is.</summary>
    public int Whole { get; init; }

    /// <summary>Of a part: its lowest place.</summary>
    public int Low { get; init; }

    /// <summary>Of a literal.</summary>
    public BigInteger Bits { get; init; }

    /// <summary>Of a comparison: whether both sides are read in two's complement.</summary>
    public bool IsSigned { get; init; }

    /// <summary>Of a match.</summary>
    public IReadOnlyList<Pattern> Patterns { get; init; } = [];

    public int High => Low + Width - 1;

    /// <summary>Of a part: whether it is all that the name stands for.</summary>
    public bool IsWhole => Width == Whole;

    public bool IsComparison => Kind is >= HdlWordKind.Equal and <= HdlWordKind.GreaterOrEqual;

    public static HdlWord Literal(int width, BigInteger bits) => new(HdlWordKind.Literal, width) { Bits = bits };

    public static HdlWord Part(string name, int whole, int high, int low) =>
        new(HdlWordKind.Part, high - low + 1)
        {
            Name = name,
            Whole = whole,
            Low = low,
        };

    public static HdlWord Named(string name, int width) => Part(name, width, width - 1, 0);

    public static HdlWord Not(HdlWord word) => new(HdlWordKind.Not, word.Width, word);

    /// <summary>Words side by side, the first on top; what was cut for no reason is one again.</summary>
    public static HdlWord Joined(IEnumerable<HdlWord> words)
    {
        var pieces = new List<HdlWord>();
        foreach (var piece in words.SelectMany(w => w.Kind == HdlWordKind.Joined ? w.Inputs : [w]))
        {
            if (pieces.Count > 0 && Together(pieces[^1], piece) is { } one)
            {
                pieces[^1] = one;
            }
            else
            {
                pieces.Add(piece);
            }
        }
        return pieces.Count == 1 ? pieces[0] : new HdlWord(HdlWordKind.Joined, pieces.Sum(p => p.Width), pieces);
    }

    private static HdlWord? Together(HdlWord upper, HdlWord lower) =>
        (upper.Kind, lower.Kind) switch
        {
            (HdlWordKind.Literal, HdlWordKind.Literal) => Literal(
                upper.Width + lower.Width,
                (upper.Bits << lower.Width) | lower.Bits
            ),
            (HdlWordKind.Part, HdlWordKind.Part) when upper.Name == lower.Name && upper.Low == lower.High + 1 => Part(
                upper.Name,
                upper.Whole,
                upper.High,
                lower.Low
            ),
            _ => null,
        };
}
