namespace Reckoner.Claims;

/// <summary>How large a formula is with every name in it written out: what it costs to compute it once.</summary>
/// <param name="Terms">Numbers and truths in it; a huge number stays <see cref="int.MaxValue"/>.</param>
/// <param name="Depth">How deep they stand inside each other: every later pass descends so far.</param>
public readonly record struct FormulaSize(int Terms, int Depth)
{
    /// <summary>Of a formula over these.</summary>
    internal static FormulaSize Over(IEnumerable<Formula> inputs)
    {
        var (terms, depth) = (1L, 0);
        foreach (var input in inputs)
        {
            terms += input.Size.Terms;
            depth = Math.Max(depth, input.Size.Depth);
        }
        return new((int)Math.Min(terms, int.MaxValue), depth + 1);
    }
}
