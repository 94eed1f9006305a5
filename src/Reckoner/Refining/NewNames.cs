using Reckoner.Notation;

namespace Reckoner.Refining;

/// <summary>
/// What is called how that a description has no name for yet, with its names in other languages; a number is put behind a name that
/// is taken.
/// </summary>
/// <param name="Upper">The upper part of a register.</param>
/// <param name="Lower">The lower part of a register.</param>
/// <param name="Inner">A part of a register that reaches neither end.</param>
internal sealed record NewNames(
    Declared Sum,
    Declared Difference,
    Declared Carry,
    Declared Borrow,
    Declared Row,
    Declared Value,
    Declared Upper,
    Declared Lower,
    Declared Inner
);
