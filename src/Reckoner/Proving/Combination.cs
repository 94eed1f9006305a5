using Reckoner.Numbers;

namespace Reckoner.Proving;

/// <summary>
/// Adds forms up to -1: which of them, and with which factors, is proposed by least squares over factors that are not negative
/// (Lawson and Hanson, "Solving Least Squares Problems", 1974, chapter 23) in floating point, and then solved exactly. What is not
/// exactly -1 is no answer.
/// </summary>
internal static class Combination
{
    /// <param name="isEquation">Which of them may have a factor below 0.</param>
    /// <returns>A factor for each; null where none are found.</returns>
    public static Rational[]? Of(IReadOnlyList<Form> forms, IReadOnlyList<bool> isEquation)
    {
        var rows = new Dictionary<Monomial, int> { [Monomial.One] = 0 };
        var columns = new List<SparseColumn>();
        for (var f = 0; f < forms.Count; f++)
        {
            var parts = forms[f].Parts;
            var (own, values, square) = (new int[parts.Count], new double[parts.Count], 0.0);
            for (var p = 0; p < own.Length; p++)
            {
                if (!rows.TryGetValue(parts[p].Product, out own[p]))
                {
                    own[p] = rows[parts[p].Product] = rows.Count;
                }
                values[p] = parts[p].Rough;
                square += values[p] * values[p];
            }
            var scale = 1 / Math.Sqrt(square);
            columns.Add(new(f, own, Array.ConvertAll(values, v => v * scale)));
            if (isEquation[f])
            {
                columns.Add(new(f, own, Array.ConvertAll(values, v => -v * scale)));
            }
        }
        var target = new double[rows.Count];
        target[0] = -1;
        var taken = LeastSquares.NotNegative(columns, target);
        return taken is null ? null : Exactly(forms, isEquation, [.. taken.Select(t => columns[t].Of).Distinct()]);
    }

    private static Rational[]? Exactly(
        IReadOnlyList<Form> forms,
        IReadOnlyList<bool> isEquation,
        IReadOnlyList<int> taken
    )
    {
        var monomials = taken.SelectMany(t => forms[t].Products).Append(Monomial.One).Distinct().ToList();
        var rows = monomials
            .Select(m =>
            {
                var row = new Rational[taken.Count + 1];
                for (var t = 0; t < taken.Count; t++)
                {
                    row[t] = forms[taken[t]].FactorOf(m);
                }
                row[^1] = m == Monomial.One ? -1 : 0;
                return row;
            })
            .ToList();
        var pivots = new List<int>();
        for (var t = 0; t < taken.Count; t++)
        {
            var at = rows.FindIndex(pivots.Count, r => r[t].Sign != 0);
            if (at < 0)
            {
                continue;
            }
            var own = pivots.Count;
            (rows[own], rows[at]) = (rows[at], rows[own]);
            var inverse = 1 / rows[own][t];
            rows[own] = [.. rows[own].Select(x => x.Sign == 0 ? x : x * inverse)];
            for (var r = 0; r < rows.Count; r++)
            {
                if (r != own && rows[r][t].Sign != 0)
                {
                    var factor = rows[r][t];
                    for (var k = 0; k <= taken.Count; k++)
                    {
                        if (rows[own][k].Sign != 0)
                        {
                            rows[r][k] -= factor * rows[own][k];
                        }
                    }
                }
            }
            pivots.Add(t);
        }
        if (rows.Skip(pivots.Count).Any(r => r[^1].Sign != 0))
        {
            return null;
        }
        var factors = new Rational[forms.Count];
        Array.Fill(factors, 0);
        for (var p = 0; p < pivots.Count; p++)
        {
            factors[taken[pivots[p]]] = rows[p][^1];
        }
        return taken.All(t => isEquation[t] || factors[t].Sign >= 0) ? factors : null;
    }
}
