namespace Reckoner.Proving;

/// <summary>A column of length 1, of which few rows are not 0.</summary>
/// <param name="Of">What it stands for.</param>
internal sealed record SparseColumn(int Of, int[] Rows, double[] Values);

/// <summary>Least squares with factors that are not negative, over sparse columns of length 1.</summary>
internal static class LeastSquares
{
    private const double Small = 1e-9;

    /// <summary>The columns whose combination meets the target; null where none does, or none is found.</summary>
    public static IReadOnlyList<int>? NotNegative(List<SparseColumn> columns, double[] target)
    {
        var basis = new OrthogonalBasis(target.Length);
        var taken = new List<int>();
        var factors = new List<double>();
        var isBarred = new bool[columns.Count];
        var open = (double[])target.Clone();
        for (var steps = 0; steps < 3 * target.Length + 50; steps++)
        {
            if (Norm(open) < Small)
            {
                return taken;
            }
            if (Steepest(columns, open, isBarred) is not (>= 0 and var best))
            {
                return null;
            }
            isBarred[best] = true;
            if (!basis.TryAdd(columns[best]))
            {
                continue;
            }
            taken.Add(best);
            factors.Add(0);
            Settle(columns, target, basis, taken, factors);
            open = basis.Rest(target);
            for (var c = 0; c < isBarred.Length; c++)
            {
                isBarred[c] = false;
            }
            foreach (var t in taken)
            {
                isBarred[t] = true;
            }
        }
        return null;
    }

    /// <summary>Goes towards the best factors of the taken columns, and lets go of those that would become negative.</summary>
    private static void Settle(
        List<SparseColumn> columns,
        double[] target,
        OrthogonalBasis basis,
        List<int> taken,
        List<double> factors
    )
    {
        while (true)
        {
            var best = basis.Factors(target);
            var step = 1.0;
            for (var t = 0; t < taken.Count; t++)
            {
                if (best[t] <= 0 && factors[t] - best[t] > 0)
                {
                    step = Math.Min(step, factors[t] / (factors[t] - best[t]));
                }
            }
            var isWhole = Array.TrueForAll(best, b => b > 0);
            for (var t = taken.Count - 1; t >= 0; t--)
            {
                factors[t] = isWhole ? best[t] : factors[t] + step * (best[t] - factors[t]);
                if (!isWhole && factors[t] <= 1e-12 && best[t] <= 0)
                {
                    taken.RemoveAt(t);
                    factors.RemoveAt(t);
                }
            }
            if (isWhole)
            {
                return;
            }
            basis.Clear();
            foreach (var t in taken)
            {
                basis.TryAdd(columns[t]);
            }
            if (taken.Count == 0)
            {
                return;
            }
        }
    }

    private static int Steepest(List<SparseColumn> columns, double[] open, bool[] isBarred)
    {
        var (best, steepest) = (-1, 1e-10);
        for (var c = 0; c < columns.Count; c++)
        {
            if (isBarred[c])
            {
                continue;
            }
            var slope = 0.0;
            var (rows, values) = (columns[c].Rows, columns[c].Values);
            for (var k = 0; k < rows.Length; k++)
            {
                slope += values[k] * open[rows[k]];
            }
            if (slope > steepest)
            {
                (best, steepest) = (c, slope);
            }
        }
        return best;
    }

    private static double Norm(double[] vector)
    {
        var sum = 0.0;
        foreach (var value in vector)
        {
            sum += value * value;
        }
        return Math.Sqrt(sum);
    }
}

/// <summary>Columns as an orthogonal matrix times a triangular one, made by the modified Gram-Schmidt process, twice.</summary>
internal sealed class OrthogonalBasis(int rows)
{
    private readonly List<double[]> directions = [];
    private readonly List<double[]> triangle = [];

    public void Clear()
    {
        directions.Clear();
        triangle.Clear();
    }

    /// <summary>False, and nothing is added, where the column depends on the others.</summary>
    public bool TryAdd(SparseColumn column)
    {
        var rest = new double[rows];
        for (var k = 0; k < column.Rows.Length; k++)
        {
            rest[column.Rows[k]] = column.Values[k];
        }
        var parts = new double[directions.Count + 1];
        for (var pass = 0; pass < 2; pass++)
        {
            for (var d = 0; d < directions.Count; d++)
            {
                var part = Along(directions[d], rest);
                parts[d] += part;
                Subtract(rest, directions[d], part);
            }
        }
        var norm = Math.Sqrt(Along(rest, rest));
        if (norm < 1e-8)
        {
            return false;
        }
        for (var r = 0; r < rows; r++)
        {
            rest[r] /= norm;
        }
        parts[^1] = norm;
        directions.Add(rest);
        triangle.Add(parts);
        return true;
    }

    /// <summary>The factors of the columns that come nearest to a target.</summary>
    public double[] Factors(double[] target)
    {
        var factors = new double[directions.Count];
        for (var d = 0; d < factors.Length; d++)
        {
            factors[d] = Along(directions[d], target);
        }
        for (var d = factors.Length - 1; d >= 0; d--)
        {
            factors[d] /= triangle[d][d];
            for (var above = 0; above < d; above++)
            {
                factors[above] -= factors[d] * triangle[d][above];
            }
        }
        return factors;
    }

    /// <summary>What is left of a target.</summary>
    public double[] Rest(double[] target)
    {
        var rest = (double[])target.Clone();
        foreach (var direction in directions)
        {
            Subtract(rest, direction, Along(direction, rest));
        }
        return rest;
    }

    private static double Along(double[] a, double[] b)
    {
        var sum = 0.0;
        for (var r = 0; r < a.Length; r++)
        {
            sum += a[r] * b[r];
        }
        return sum;
    }

    private static void Subtract(double[] from, double[] direction, double part)
    {
        for (var r = 0; r < from.Length; r++)
        {
            from[r] -= part * direction[r];
        }
    }
}
