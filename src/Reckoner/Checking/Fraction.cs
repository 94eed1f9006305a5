namespace Reckoner.Checking;

/// <summary>
/// A number by cases: a fraction of two words in two's complement as wide as its value can need, the lower one above zero.
/// </summary>
/// <param name="Defined">The literal that is 0 in the cases where it has no value, by a division by zero.</param>
internal sealed record Fraction(int[] Upper, int[] Lower, int Defined);
