namespace Reckoner.Proving;

/// <summary>States that were met, by width and rounds done.</summary>
internal sealed class States(IReadOnlyDictionary<(int N, int I), List<Instance>> groups)
{
    public IReadOnlyDictionary<(int N, int I), List<Instance>> Groups { get; } = groups;

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

    private readonly List<(int N, int I)> looked = Looked(states);

    private static List<(int, int)> Looked(States states)
    {
        var groups = states.Groups.Where(g => g.Value.Count >= LeastInGroup).Select(g => g.Key).Order().ToList();
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
            var holding = looked.FindAll(g => found[g].ContainsKey(last));
            if (holding.Count == 0 || holding.Count * 3 < looked.Count * 2)
            {
                continue;
            }
            var alike = holding
                .GroupBy(g => string.Join(',', found[g][last].Keys.Order()))
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

    private static Form? Fitted(
        List<(int N, int I)> groups,
        Dictionary<(int N, int I), Dictionary<int, Dictionary<int, long>>> found,
        int last,
        IReadOnlyList<Monomial> monomials
    )
    {
        var form = Form.Zero;
        foreach (var m in found[groups[0]][last].Keys.Order())
        {
            if (Factor([.. groups.Select(g => (g, found[g][last][m]))]) is not { } factor)
            {
                return null;
            }
            form += factor.Times(monomials[m], 1);
        }
        return form;
    }

    /// <summary>For each product that depends on those before it: the factors of a sum that is 0, its own being 1.</summary>
    private static Dictionary<int, Dictionary<int, long>> DependencesIn(
        List<Instance> states,
        IReadOnlyList<Monomial> monomials
    )
    {
        var rows = Math.Min(states.Count, monomials.Count + 40);
        var basis = new List<(int Pivot, long[] Column, Dictionary<int, long> Of)>();
        var dependences = new Dictionary<int, Dictionary<int, long>>();
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
            var of = new Dictionary<int, long> { [m] = 1 };
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
                foreach (var (k, f) in from)
                {
                    of[k] = Residue.Minus(of.GetValueOrDefault(k), Residue.Times(factor, f));
                }
            }
            var at = Array.FindIndex(column, c => c != 0);
            if (at < 0)
            {
                dependences[m] = of.Where(o => o.Value != 0).ToDictionary(o => o.Key, o => o.Value);
                continue;
            }
            var inverse = Residue.Inverse(column[at]);
            basis.Add(
                (
                    at,
                    [.. column.Select(c => Residue.Times(c, inverse))],
                    of.ToDictionary(o => o.Key, o => Residue.Times(o.Value, inverse))
                )
            );
        }
        return dependences;
    }

    /// <summary>A factor that has these residues: one power of 2 with a small factor, or two added.</summary>
    private static Form? Factor(List<((int N, int I) Group, long Residue)> found)
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
                            (f.Group, Rest(f.Residue, first.At(f.Group.N, f.Group.I), sign))
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

    private static Form? One(List<((int N, int I) Group, long Residue)> found, int mostConstant)
    {
        var read = found.ConvertAll(f => Residue.Read(f.Residue));
        if (read.Exists(r => r is null || r.Value.Factor != read[0]!.Value.Factor))
        {
            return null;
        }
        var (factor, power) = read[0]!.Value;
        foreach (var n in Slopes)
        {
            foreach (var i in Slopes)
            {
                var constant = power - n * found[0].Group.N - i * found[0].Group.I;
                var extent = new Extent(n, i, constant);
                if (
                    Math.Abs(constant) <= mostConstant
                    && read.Zip(found).All(r => r.First!.Value.Power == extent.At(r.Second.Group.N, r.Second.Group.I))
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
