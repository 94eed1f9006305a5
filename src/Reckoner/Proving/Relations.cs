namespace Reckoner.Proving;

/// <summary>A width, and rounds done.</summary>
internal sealed record Group(int N, int I);

/// <summary>States that were met, by width and rounds done.</summary>
internal sealed class States(IReadOnlyDictionary<Group, List<Instance>> groups)
{
    public IReadOnlyDictionary<Group, List<Instance>> Groups { get; } = groups;

    public IEnumerable<Instance> All => Groups.Values.SelectMany(g => g);
}

/// <summary>
/// Equations that hold in all states that were met: dependences between products of numbers, found by linear algebra modulo a prime
/// for single widths and rounds, with factors that are then read as powers of 2 growing evenly with both.
/// </summary>
internal sealed class Relations(States states)
{
    private const int LeastInGroup = 60;
    private const int GroupsLookedAt = 9;
    private const int CheckedEach = 60;

    private static readonly int[] Signs = [1, -1];

    /// <summary>Nearest first; both signs.</summary>
    private static readonly int[] Slopes = [0, 1, -1, 2, -2];

    private readonly List<Group> looked = Looked(states);

    private static List<Group> Looked(States states)
    {
        var groups = states
            .Groups.Where(g => g.Value.Count >= LeastInGroup)
            .Select(g => g.Key)
            .OrderBy(g => g.N)
            .ThenBy(g => g.I)
            .ToList();
        var last = groups.GroupBy(g => g.N).ToDictionary(g => g.Key, g => g.Max(x => x.I));
        var middle = groups.FindAll(g => g.I >= Math.Min(2, last[g.N]));
        return [.. middle.Skip(Math.Max(0, middle.Count - GroupsLookedAt))];
    }

    /// <summary>Equations between single numbers, then those with products in which no number stands that is 0 already.</summary>
    public List<Form> Find(IReadOnlyList<Monomial> single, IReadOnlyList<Monomial> products)
    {
        var first = Dependences([Monomial.One, .. single]);
        var zero = first.Where(f => f.Parts.Count == 1).SelectMany(f => f.Variables).ToHashSet();
        bool IsLive(Monomial m) => !m.Variables.Any(zero.Contains);
        var left = products.Where(IsLive).ToList();
        if (left.Count > 0)
        {
            first.AddRange(Dependences([Monomial.One, .. single.Where(IsLive), .. left]).Where(f => f.Degree > 1));
        }
        return first;
    }

    private List<Form> Dependences(IReadOnlyList<Monomial> monomials)
    {
        var found = looked.ToDictionary(g => g, g => DependencesIn(states.Groups[g], monomials));
        var forms = new List<Form>();
        for (var last = 0; last < monomials.Count; last++)
        {
            var holding = looked.FindAll(g => found[g][last] is not null);
            if (holding.Count == 0 || holding.Count * 3 < looked.Count * 2)
            {
                continue;
            }
            var alike = holding
                .GroupBy(g => string.Join(',', Standing(found[g][last]!)))
                .OrderByDescending(g => g.Count())
                .First()
                .ToList();
            if (
                alike.Count < Math.Min(3, looked.Count)
                || alike.Select(g => g.N).Distinct().Count() < Math.Min(2, looked.Select(g => g.N).Distinct().Count())
            )
            {
                continue;
            }
            if (Fitted(alike, found, last, monomials) is { } form && IsSoEverywhere(form))
            {
                forms.Add(form);
            }
        }
        return forms;
    }

    /// <summary>The products that stand in a sum.</summary>
    private static IEnumerable<int> Standing(long[] factors) =>
        Enumerable.Range(0, factors.Length).Where(m => factors[m] != 0);

    /// <summary>A factor, modulo the prime, in one group.</summary>
    private sealed record Met(Group Group, long Residue);

    private static Form? Fitted(
        List<Group> groups,
        Dictionary<Group, long[]?[]> found,
        int last,
        IReadOnlyList<Monomial> monomials
    )
    {
        var form = Form.Zero;
        foreach (var m in Standing(found[groups[0]][last]!))
        {
            if (Factor([.. groups.Select(g => new Met(g, found[g][last]![m]))]) is not { } factor)
            {
                return null;
            }
            form += factor.Times(monomials[m], 1);
        }
        return form;
    }

    /// <summary>For each product that depends on those before it: the factors of a sum that is 0, its own being 1; null for the others.</summary>
    private static long[]?[] DependencesIn(List<Instance> states, IReadOnlyList<Monomial> monomials)
    {
        var rows = Math.Min(states.Count, monomials.Count + 40);
        var basis = new List<Direction>();
        var dependences = new long[]?[monomials.Count];
        for (var m = 0; m < monomials.Count; m++)
        {
            var column = new long[rows];
            for (var r = 0; r < rows; r++)
            {
                var product = 1L;
                foreach (var variable in monomials[m].Variables)
                {
                    product = Residue.Times(product, Residue.Of((long)states[r][variable]));
                }
                column[r] = product;
            }
            var of = new long[m + 1];
            of[m] = 1;
            foreach (var (pivot, known, from) in basis)
            {
                var factor = column[pivot];
                if (factor == 0)
                {
                    continue;
                }
                for (var r = 0; r < rows; r++)
                {
                    column[r] = Residue.Minus(column[r], Residue.Times(factor, known[r]));
                }
                for (var k = 0; k < from.Length; k++)
                {
                    of[k] = Residue.Minus(of[k], Residue.Times(factor, from[k]));
                }
            }
            var at = Array.FindIndex(column, c => c != 0);
            if (at < 0)
            {
                dependences[m] = of;
                continue;
            }
            var inverse = Residue.Inverse(column[at]);
            basis.Add(new(at, Scaled(column, inverse), Scaled(of, inverse)));
        }
        return dependences;
    }

    /// <summary>A column that is 1 at its pivot, and the products that it is the sum of.</summary>
    private sealed record Direction(int Pivot, long[] Column, long[] Of);

    private static long[] Scaled(long[] vector, long factor) => Array.ConvertAll(vector, v => Residue.Times(v, factor));

    /// <summary>A factor that has these residues: one power of 2 with a small factor, or two added.</summary>
    private static Form? Factor(List<Met> found)
    {
        if (One(found, 4) is { } one)
        {
            return one;
        }
        foreach (var n in Slopes)
        {
            foreach (var i in Slopes)
            {
                for (var constant = -1; constant <= 1; constant++)
                {
                    foreach (var sign in Signs)
                    {
                        var first = new Extent(n, i, constant);
                        var rest = found.ConvertAll(f =>
                            f with
                            {
                                Residue = Rest(f.Residue, first.At(f.Group.N, f.Group.I), sign),
                            }
                        );
                        if (One(rest, 2) is { } second)
                        {
                            return Form.Power(first).Times(sign) + second;
                        }
                    }
                }
            }
        }
        return null;
    }

    private static long Rest(long residue, int power, int sign) =>
        Residue.Minus(residue, Residue.Times(Residue.Of(sign), Residue.PowerOfTwo(power)));

    private static Form? One(List<Met> found, int mostConstant)
    {
        var read = found.ConvertAll(f => Residue.Read(f.Residue));
        if (read.Exists(r => r is null || r.Factor != read[0]!.Factor))
        {
            return null;
        }
        var (factor, power) = read[0]!;
        foreach (var n in Slopes)
        {
            foreach (var i in Slopes)
            {
                var constant = power - n * found[0].Group.N - i * found[0].Group.I;
                var extent = new Extent(n, i, constant);
                if (
                    Math.Abs(constant) <= mostConstant
                    && Enumerable
                        .Range(0, read.Count)
                        .All(r => read[r]!.Power == extent.At(found[r].Group.N, found[r].Group.I))
                )
                {
                    return Form.Power(extent).Times(factor);
                }
            }
        }
        return null;
    }

    private bool IsSoEverywhere(Form form) =>
        states.Groups.Values.All(g => g.Take(CheckedEach).All(s => form.At(s) == 0));
}
