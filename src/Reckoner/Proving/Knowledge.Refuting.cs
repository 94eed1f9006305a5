using Reckoner.Numbers;

namespace Reckoner.Proving;

internal sealed partial class Knowledge
{
    /// <summary>
    /// What may be added up: facts that are 0 or more multiplied with each other and with a power, or an equation times a power.
    /// </summary>
    /// <param name="Origin">Of an equation, the facts that it comes from.</param>
    private sealed record Column(Form Form, Monomial Power, IReadOnlyList<int> Facts, Dictionary<int, Form>? Origin)
    {
        public Column Times(Monomial power) => this with { Form = Form.Times(power, 1), Power = Power * power };
    }

    /// <summary>More powers than these are not tried for one fact in one round; the nearest come first.</summary>
    private const int MostPowers = 12;

    /// <summary>
    /// Why these, each 0 or more, cannot be so; null where nothing was found. Most is found without powers, which are many.
    /// </summary>
    public Refutation? Refuted(IReadOnlyList<Fact> assumed, Effort effort)
    {
        if (plain is not null)
        {
            return plain;
        }
        var goals = new List<Column>();
        for (var a = 0; a < assumed.Count; a++)
        {
            var column = new Column(Reduced(assumed[a].Form), Monomial.One, [Count + a], null);
            if (!column.Form.IsConstant)
            {
                goals.Add(column);
            }
            else if (column.Form.Constant.Sign < 0)
            {
                return Assembled([column], [-1 / column.Form.Constant], assumed);
            }
        }
        for (var rounds = 0; rounds <= effort.Rounds; rounds++)
        {
            var columns = Columns(goals, effort with { Rounds = rounds });
            var factors = Combination.Of(
                [.. columns.Select(c => c.Form)],
                [.. columns.Select(c => c.Origin is not null)]
            );
            if (factors is not null)
            {
                return Assembled(columns, factors, assumed);
            }
        }
        return null;
    }

    private List<Column> Columns(List<Column> goals, Effort effort)
    {
        var powers = known.FindAll(c => c.Form.Degree == 0);
        var plainly = goals.Concat(known.Where(c => c.Form.Degree > 0)).ToList();
        var equations = unsolved.ConvertAll(u => new Column(u.Form, Monomial.One, [], u.Origin));
        var products = plainly.Concat(equations).SelectMany(c => c.Form.Products).Where(m => m.Degree > 1);
        var wanted = products.Select(m => m.Factors).ToHashSet();
        plainly.AddRange(Products(plainly, wanted));

        var reach = new Dictionary<ulong, HashSet<Monomial>>();
        Reach(goals.Count > 0 ? goals : plainly);
        var (bounding, equal) = (new HashSet<Form>(), new HashSet<Form>());
        bool IsNew(Column column) => (column.Origin is null ? bounding : equal).Add(column.Form);
        var columns = plainly.Concat(equations).Where(IsNew).ToList();
        var sources = plainly.Concat(equations).Concat(powers).ToList();
        if (plainly.Exists(c => c.Form.Products.Any(m => m.N != 0 || m.I != 0)))
        {
            for (var round = 0; round < effort.Rounds && columns.Count <= effort.Most; round++)
            {
                var added = new List<Column>();
                foreach (var source in sources)
                {
                    foreach (var power in Matching(source.Form))
                    {
                        var column = source.Times(power);
                        if (IsNew(column))
                        {
                            added.Add(column);
                        }
                    }
                }
                columns.AddRange(added);
                Reach(added);
            }
        }
        var terms = columns.SelectMany(c => c.Form.Products).Distinct().ToList();
        foreach (var term in terms.Where(m => m.Factors != 0 && m.Variables.All(notNegative.ContainsKey)))
        {
            columns.Add(
                new Column(
                    Form.Of(term, 1),
                    term with
                    {
                        Factors = 0,
                    },
                    [.. term.Variables.Select(v => notNegative[v])],
                    null
                )
            );
        }
        return columns;

        void Reach(IEnumerable<Column> of)
        {
            foreach (var monomial in of.SelectMany(c => c.Form.Products))
            {
                (reach.TryGetValue(monomial.Factors, out var set) ? set : reach[monomial.Factors] = []).Add(
                    monomial with
                    {
                        Factors = 0,
                    }
                );
            }
        }

        List<Monomial> Matching(Form form)
        {
            var found = new HashSet<Monomial>();
            foreach (var monomial in form.Products)
            {
                if (reach.TryGetValue(monomial.Factors, out var powersThere))
                {
                    found.UnionWith(powersThere.Select(p => new Monomial(p.N - monomial.N, p.I - monomial.I, 0)));
                }
            }
            return
            [
                .. found.OrderBy(m => Math.Abs(m.N) + Math.Abs(m.I)).ThenBy(m => m.N).ThenBy(m => m.I).Take(MostPowers),
            ];
        }
    }

    /// <summary>Bounds of single variables times facts, where only products come out that stand somewhere already.</summary>
    private IEnumerable<Column> Products(IReadOnlyList<Column> of, HashSet<ulong> wanted)
    {
        var seen = of.Select(c => c.Form).ToHashSet();
        var linear = of.Where(c => c.Form.Degree <= 1).ToList();
        var multiplied = wanted.SelectMany(f => new Monomial(0, 0, f).Variables).Distinct().Where(bounds.ContainsKey);
        foreach (var bound in multiplied.SelectMany(v => bounds[v]))
        {
            var by = Reduced(facts[bound].Form);
            foreach (var column in linear)
            {
                if (column.Form.Products.Count(m => m.Degree > 0) is 0 or > 4 || by.Degree != 1)
                {
                    continue;
                }
                var product = by * column.Form;
                var high = product.Products.Where(m => m.Degree > 1).ToList();
                if (high.Count > 0 && high.TrueForAll(m => wanted.Contains(m.Factors)) && seen.Add(product))
                {
                    yield return new Column(product, Monomial.One, [bound, .. column.Facts], null);
                }
            }
        }
    }

    /// <summary>The combination in terms of the facts as they are, not as they were reduced.</summary>
    private Refutation Assembled(
        IReadOnlyList<Column> columns,
        IReadOnlyList<Rational> factors,
        IReadOnlyList<Fact> assumed
    )
    {
        var addends = new List<Addend>();
        var open = -Form.One;
        var origin = new Dictionary<int, Form>();
        for (var c = 0; c < columns.Count; c++)
        {
            if (factors[c].Sign == 0)
            {
                continue;
            }
            var column = columns[c];
            if (column.Origin is not null)
            {
                foreach (var (fact, factor) in column.Origin)
                {
                    Add(fact, factor.Times(column.Power, factors[c]));
                }
                continue;
            }
            addends.Add(Addend.Of(column.Power, factors[c], column.Facts));
            var product = Form.Of(column.Power, factors[c]);
            foreach (var fact in column.Facts)
            {
                product *= fact < Count ? facts[fact].Form : assumed[fact - Count].Form;
            }
            open -= product;
        }
        // What is open is a sum of equations: dividing by the rules finds it.
        foreach (var rule in rules)
        {
            var quotient = new Dictionary<int, Form>();
            open = Divided(open, rule, quotient, isBelow: true);
            foreach (var (fact, factor) in quotient)
            {
                Add(fact, factor);
            }
        }
        addends.AddRange(origin.Where(o => !o.Value.IsZero).Select(o => new Addend(o.Value, [o.Key])));
        return new Refutation(addends);

        void Add(int fact, Form factor) => origin[fact] = origin.GetValueOrDefault(fact, Form.Zero) + factor;
    }
}
