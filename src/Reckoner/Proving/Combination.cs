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
        var columns = new List<(int Form, double Scale, (int Row, double Value)[] Entries)>();
        for (var f = 0; f < forms.Count; f++)
        {
            var entries = forms[f]
                .Parts.Select(p =>
                {
                    if (!rows.TryGetValue(p.Key, out var row))
                    {
                        row = rows[p.Key] = rows.Count;
                    }
                    return (row, (double)p.Value.Numerator / (double)p.Value.Denominator);
                })
                .ToArray();
            var scale = 1 / Math.Sqrt(entries.Sum(e => e.Item2 * e.Item2));
            columns.Add((f, scale, [.. entries.Select(e => (e.row, e.Item2 * scale))]));
            if (isEquation[f])
            {
                columns.Add((f, -scale, [.. entries.Select(e => (e.row, -e.Item2 * scale))]));
            }
        }
        var target = new double[rows.Count];
        target[0] = -1;
        var taken = LeastSquares.NotNegative([.. columns.Select(c => c.Entries)], target);
        return taken is null ? null : Exactly(forms, isEquation, [.. taken.Select(t => columns[t].Form).Distinct()]);
    }

    private static Rational[]? Exactly(
        IReadOnlyList<Form> forms,
        IReadOnlyList<bool> isEquation,
        IReadOnlyList<int> taken
    )
    {
        var monomials = taken.SelectMany(t => forms[t].Parts.Keys).Append(Monomial.One).Distinct().ToList();
        var rows = monomials
            .Select(m =>
            {
                var row = new Rational[taken.Count + 1];
                for (var t = 0; t < taken.Count; t++)
                {
                    row[t] = forms[taken[t]].Parts.TryGetValue(m, out var factor) ? factor : 0;
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
