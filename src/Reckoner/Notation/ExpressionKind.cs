namespace Reckoner.Notation;

/// <summary>
/// The kinds of values and formulas. A switch over them without a default fails the build where a new kind is forgotten; a switch over
/// the classes would not.
/// </summary>
public enum ExpressionKind
{
    Number,
    Bits,
    Name,
    Scaled,
    Bracketed,
    Unary,
    Binary,
    Comparison,
    Within,
    Joined,
    Sliced,
    Call,
    Total,
    Every,
    Chosen,
    Unreadable,
}
