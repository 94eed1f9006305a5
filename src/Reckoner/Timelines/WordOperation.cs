namespace Reckoner.Timelines;

/// <summary>
/// What a word of a graph is made by: fewer than the operations of the notation, which become these. An interpreter of graphs is a
/// switch expression over them without a default.
/// </summary>
internal enum WordOperation
{
    Constant,

    /// <summary>The bits of an operand.</summary>
    Operand,

    /// <summary>The bits of a register before the edge, in a graph over registers.</summary>
    Register,

    /// <summary>Whether the round is the last, in a graph that stands for every round; where rounds are known it is a constant.</summary>
    Last,
    Slice,

    /// <summary>Words side by side, the most significant first.</summary>
    Join,

    /// <summary>One bit, many times.</summary>
    Copies,

    /// <summary>The sum of two words in their width; <see cref="Carry"/> is the bit above it.</summary>
    Add,
    Carry,
    Subtract,

    /// <summary>Whether an unsigned word is less than another: the borrow of their difference.</summary>
    Less,

    /// <summary>The whole product, of signed words where that is said.</summary>
    Multiply,
    CarrySaveSum,
    CarrySaveCarry,
    And,
    Or,
    Xor,
    Not,
    Equal,

    /// <summary>Of a condition of one bit, the word where it is 1 and the word where it is 0.</summary>
    Choose,

    /// <summary>The cell of a table that a word names.</summary>
    Lookup,
}
