using Reckoner.Notation;

namespace Reckoner.Checking;

/// <summary>
/// A formula that cannot be turned into gates: a power or logarithm that depends on the case in too many ways, or numbers so
/// long that they would need too many gates.
/// </summary>
public sealed class LawBeyondPlanesException(Expression formula)
    : NotSupportedException($"{Printer.Text(formula)} cannot be turned into gates")
{
    public Expression Formula { get; } = formula;
}
