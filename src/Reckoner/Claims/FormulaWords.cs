namespace Reckoner.Claims;

/// <summary>How formulas are shown to readers of a language: names of operands and results, and the small words between.</summary>
/// <param name="Names">What is shown for a name; one that is not among them stays.</param>
/// <param name="Word">What is shown for "and", "or", "xor", "not" or "in".</param>
internal sealed record FormulaWords(IReadOnlyDictionary<string, string> Names, Func<string, string> Word)
{
    /// <summary>As the notation writes it.</summary>
    public static readonly FormulaWords Notation = new(new Dictionary<string, string>(), word => word);
}
