namespace Reckoner.Refining;

/// <summary>What is called how that a description has no name for yet; a number is put behind a name that is taken.</summary>
/// <param name="Upper">The upper part of a register.</param>
/// <param name="Lower">The lower part of a register.</param>
/// <param name="Inner">A part of a register that reaches neither end.</param>
internal sealed record NewNames(
    string Sum,
    string Difference,
    string Carry,
    string Borrow,
    string Row,
    string Value,
    string Upper,
    string Lower,
    string Inner
);
