using System.Numerics;
using Reckoner.Claims;
using Reckoner.Datapaths;
using Reckoner.Diagnostics;
using Reckoner.Numbers;
using Term = Reckoner.Claims.Term;

namespace Reckoner.Binding;

/// <summary>
/// Formulas of a table's rows. What does not mention every index is computed once for each combination of those it mentions:
/// the bound that a row compares with is often one of a column alone, and a table has thousands of cells.
/// </summary>
internal sealed class IndexedExact : Exact
{
    /// <summary>Of a term: which bits of the cell's number it depends on, and its values for them.</summary>
    private sealed record Kept(int Mask, Dictionary<int, Rational> Values);

    private readonly IReadOnlyList<TableIndexAt> indices;
    private readonly BigInteger[] numbers;
    private readonly Variable[] variables;
    private readonly Dictionary<Term, Kept?> kept = new(ReferenceEqualityComparer.Instance);
    private int cell;

    public IndexedExact(IReadOnlyList<TableIndexAt> indices, Report report)
        : this(indices, new BigInteger[indices.Count], report) { }

    private IndexedExact(IReadOnlyList<TableIndexAt> indices, BigInteger[] numbers, Report report)
        : base(v => numbers[v.Index], report)
    {
        this.indices = indices;
        this.numbers = numbers;
        variables = [.. indices.Select((index, i) => index.Variable(i))];
    }

    /// <summary>The indices with their numbers: "row = 3, column = -1".</summary>
    public string Spoken => string.Join(", ", indices.Select((index, i) => $"{index.Name} = {numbers[i]}"));

    /// <summary>Gives the indices their values; the last runs fastest.</summary>
    public void At(int number)
    {
        cell = number;
        for (var i = indices.Count - 1; i >= 0; i--)
        {
            numbers[i] = variables[i].Number(number & ((1 << variables[i].Width) - 1));
            number >>= variables[i].Width;
        }
    }

    public override Rational? Number(Term term)
    {
        if (term.Inputs.Count == 0 || term.Constant is not null || Of(term) is not { } of)
        {
            return base.Number(term);
        }
        if (!of.Values.TryGetValue(cell & of.Mask, out var value))
        {
            if (base.Number(term) is not { } found)
            {
                return null;
            }
            of.Values.Add(cell & of.Mask, value = found);
        }
        return value;
    }

    /// <summary>Null for a term of every index.</summary>
    private Kept? Of(Term term)
    {
        if (!kept.TryGetValue(term, out var of))
        {
            var mentioned = term.Variables.Select(v => v.Index).ToHashSet();
            var (mask, low) = (0, 0);
            for (var i = indices.Count - 1; i >= 0; i--)
            {
                mask |= mentioned.Contains(i) ? ((1 << indices[i].Size.Count) - 1) << low : 0;
                low += indices[i].Size.Count;
            }
            of = mentioned.Count == indices.Count ? null : new Kept(mask, []);
            kept.Add(term, of);
        }
        return of;
    }
}
