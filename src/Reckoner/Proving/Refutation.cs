using Reckoner.Numbers;

namespace Reckoner.Proving;

/// <summary>Facts cannot all be so: their products with these factors add up to -1.</summary>
internal sealed record Refutation(IReadOnlyList<Addend> Addends)
{
    /// <summary>The numbers of the facts it needs.</summary>
    public IEnumerable<int> Uses => Addends.SelectMany(a => a.Facts);
}

/// <summary>
/// A factor times the product of facts, given by their numbers on the path. The factor of an equation, which stands alone, is any
/// form; that of facts that are 0 or more is a positive number times a power.
/// </summary>
internal sealed record Addend(Form Factor, IReadOnlyList<int> Facts)
{
    public static Addend Of(Monomial power, Rational factor, IReadOnlyList<int> facts) =>
        new(Form.Of(power, factor), facts);
}
