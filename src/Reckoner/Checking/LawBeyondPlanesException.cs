using Reckoner.Notation;

namespace Reckoner.Checking;

/// <summary>A formula that cannot be turned into gates: a power or logarithm that depends on the case in too many ways.</summary>
public sealed class LawBeyondPlanesException(Expression formula)
    : NotSupportedException($"{Printer.Text(formula)} cannot be turned into gates")
{
    public Expression Formula { get; } = formula;
}
