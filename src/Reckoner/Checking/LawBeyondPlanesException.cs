using Reckoner.Claims;

namespace Reckoner.Checking;

/// <summary>
/// A formula that cannot be turned into gates: a power or logarithm that depends on the case in too many ways, or numbers so
/// long that they would need too many gates.
/// </summary>
/// <param name="isTooLarge">Whether it is the number of gates; else it is a power or a logarithm.</param>
internal sealed class LawBeyondPlanesException(Formula formula, bool isTooLarge = false)
    : NotSupportedException($"{formula} cannot be turned into gates")
{
    public Formula Formula { get; } = formula;

    public bool IsTooLarge { get; } = isTooLarge;
}
