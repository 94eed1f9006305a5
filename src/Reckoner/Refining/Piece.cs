using Reckoner.Notation;

namespace Reckoner.Refining;

/// <summary>What a stretch of a word can be.</summary>
internal enum PieceKind
{
    Constant,
    Slice,
    Copies,
    Choice,
    Sum,
    Opaque,
}

/// <summary>
/// A stretch of a word, of a width that is a formula. A word is an array of them, the highest first, none of them empty.
/// </summary>
/// <param name="Key">The same for equal pieces.</param>
internal abstract record Piece(Length Width, string Key)
{
    public abstract PieceKind Kind { get; }

    public bool IsBit => Width == 1;

    public bool IsZero => this is ConstantPiece { IsOne: false };

    public sealed override string ToString() => Key;

    /// <summary>The same for equal words.</summary>
    public static string KeyOf(IEnumerable<Piece> word) => string.Join(':', word.Select(p => p.Key));

    public static bool Same(IReadOnlyList<Piece> a, IReadOnlyList<Piece> b) => KeyOf(a) == KeyOf(b);
}

/// <summary>The same digit throughout.</summary>
internal sealed record ConstantPiece(bool IsOne, Length Width) : Piece(Width, $"{(IsOne ? 1 : 0)}x{Width.Key}")
{
    public override PieceKind Kind => PieceKind.Constant;

    public bool Equals(ConstantPiece? other) => other?.Key == Key;

    public override int GetHashCode() => Key.GetHashCode(StringComparison.Ordinal);
}

/// <summary>Bits of a register, an operand or a named value.</summary>
internal sealed record SlicePiece(string Name, Length Low, Length Width)
    : Piece(Width, $"{Name}[{Low.Key},{Width.Key}]")
{
    public override PieceKind Kind => PieceKind.Slice;

    public Length End => Low + Width;
}

/// <summary>One bit, so many times.</summary>
internal sealed record CopiesPiece(Piece Bit, Length Width) : Piece(Width, $"copies({Bit.Key},{Width.Key})")
{
    public override PieceKind Kind => PieceKind.Copies;
}

/// <summary>One word or another of the same width.</summary>
internal sealed record ChoicePiece(Expression Condition, Piece[] Then, Piece[] Otherwise, Length Width)
    : Piece(Width, $"({KeyOf(Then)} when {Condition} else {KeyOf(Otherwise)})")
{
    public override PieceKind Kind => PieceKind.Choice;
}

/// <summary>A sum or difference of two words of its width.</summary>
internal sealed record SumPiece(BinaryOperator Operator, Piece[] Left, Piece[] Right, Declared? Via, Length Width)
    : Piece(Width, $"({KeyOf(Left)} {Operator} {KeyOf(Right)})")
{
    public override PieceKind Kind => PieceKind.Sum;
}

/// <summary>A value that is taken as it is written.</summary>
internal sealed record OpaquePiece(Expression Value, Length Width) : Piece(Width, $"`{Value}`")
{
    public override PieceKind Kind => PieceKind.Opaque;
}
