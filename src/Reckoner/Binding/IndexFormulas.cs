using Reckoner.Datapaths;
using Reckoner.Diagnostics;
using Reckoner.Notation;
using Reckoner.Numbers;

namespace Reckoner.Binding;

/// <summary>
/// Formulas of a table's rows. What does not mention every index is computed once for each combination of those it mentions:
/// the bound that a row compares with is often one of a column alone, and a table has thousands of cells.
/// </summary>
internal sealed class IndexFormulas(
    Dictionary<string, Rational> names,
    IReadOnlyList<TableIndexAt> indices,
    Report report
) : Formulas(names, report)
{
    /// <summary>Of a formula: which bits of the cell's number it depends on, and its values for them.</summary>
    private sealed record Kept(int Mask, Dictionary<int, Rational> Values);

    private readonly Dictionary<Expression, Kept?> kept = new(ReferenceEqualityComparer.Instance);
    private int cell;

    /// <summary>Gives the indices their values; the last runs fastest.</summary>
    public void At(int number)
    {
        cell = number;
        for (var i = indices.Count - 1; i >= 0; i--)
        {
            var index = indices[i];
            System.Numerics.BigInteger word = number & ((1 << index.Size.Count) - 1);
            names[index.Name] = index.IsSigned ? Numbers.Bits.AsSigned(word, index.Size.Count) : word;
            number >>= index.Size.Count;
        }
    }

    public override Rational? Number(Expression formula)
    {
        if (formula is not (Binary or Call or Scaled or Unary) || Of(formula) is not { } of)
        {
            return base.Number(formula);
        }
        if (!of.Values.TryGetValue(cell & of.Mask, out var value))
        {
            if (base.Number(formula) is not { } found)
            {
                return null;
            }
            of.Values.Add(cell & of.Mask, value = found);
        }
        return value;
    }

    /// <summary>Null for a formula of every index.</summary>
    private Kept? Of(Expression formula)
    {
        if (!kept.TryGetValue(formula, out var of))
        {
            var mentioned = Mentioned(formula).ToHashSet();
            var (mask, low) = (0, 0);
            foreach (var index in indices.Reverse())
            {
                mask |= mentioned.Contains(index.Name) ? ((1 << index.Size.Count) - 1) << low : 0;
                low += index.Size.Count;
            }
            of = indices.All(i => mentioned.Contains(i.Name)) ? null : new Kept(mask, []);
            kept.Add(formula, of);
        }
        return of;
    }
}
