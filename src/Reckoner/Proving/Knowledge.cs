using Reckoner.Numbers;

namespace Reckoner.Proving;

/// <summary>How far a refutation looks.</summary>
/// <param name="Most">Once there are more products than this, no further ones are made.</param>
internal sealed record Effort(int Rounds, int Most)
{
    public static readonly Effort Choice = new(2, 200);
    public static readonly Effort Goal = new(2, 500);
}

/// <summary>
/// Facts as they are reasoned with: equations are solved for variables that stand in them alone with a power, and those are
/// replaced everywhere. From where every replacement came is kept, so that a refutation can speak of the facts as they were.
/// </summary>
internal sealed partial class Knowledge
{
    /// <summary>Variable - Value is the sum of facts with these factors; no variable of a rule stands in a value.</summary>
    private sealed record Rule(int Variable, Form Value, Dictionary<int, Form> Origin);

    /// <summary>A form that is 0: the sum of facts with these factors.</summary>
    private sealed record Equation(Form Form, Dictionary<int, Form> Origin);

    private readonly IReadOnlyList<Fact> facts;
    private readonly Variables variables;
    private readonly List<Rule> rules = [];
    private readonly Dictionary<int, Form> values = [];
    private readonly List<Equation> unsolved = [];
    private readonly List<Column> known = [];
    private readonly Dictionary<int, int> notNegative = [];
    private readonly Dictionary<int, List<int>> bounds = [];
    private Refutation? plain;

    public Knowledge(IReadOnlyList<Fact> facts, Variables variables)
    {
        this.facts = [.. facts];
        this.variables = variables;
        Solve();
        Replace();
    }

    public int Count => facts.Count;

    /// <summary>The same with the variables replaced that equations say.</summary>
    public Form Reduced(Form form) => form.With(values);

    private void Solve()
    {
        var open = Enumerable
            .Range(0, facts.Count)
            .Where(f => facts[f].IsEquation)
            .OrderBy(f => facts[f].Form.Parts.Count);
        var waiting = open.Select(f => new Equation(facts[f].Form, new() { [f] = Form.One })).ToList();
        for (var isMoving = true; isMoving && waiting.Count > 0; )
        {
            isMoving = false;
            var next = new List<Equation>();
            foreach (var (form, origin) in waiting)
            {
                var (rest, own) = Divided(form, origin);
                if (rest.IsZero)
                {
                    isMoving = true;
                }
                else if (Solvable(rest) is var (variable, power, factor))
                {
                    Add(variable, rest, power, factor, own);
                    isMoving = true;
                }
                else
                {
                    next.Add(new(form, origin));
                }
            }
            waiting = next;
        }
        foreach (var (form, origin) in waiting)
        {
            var (rest, own) = Divided(form, origin);
            if (!rest.IsZero)
            {
                unsolved.Add(new(rest, own));
            }
        }
    }

    /// <summary>A variable that stands once in it, alone but for a power: operands last, then long names first.</summary>
    private (int Variable, Monomial Power, Rational Factor)? Solvable(Form form)
    {
        var found = form
            .Parts.Where(p => p.Product.Degree == 1 && form.Products.Count(m => m.Has(Only(p))) == 1)
            .OrderBy(p => variables.IsOperand(Only(p)))
            .ThenByDescending(p => variables[Only(p)].Length)
            .ThenBy(Only)
            .FirstOrDefault();
        return found is null ? null : (Only(found), found.Product with { Factors = 0 }, found.Factor);

        static int Only(Part part) => part.Product.Variables.First();
    }

    private void Add(int variable, Form form, Monomial power, Rational factor, Dictionary<int, Form> origin)
    {
        var inverse = new Monomial(-power.N, -power.I, 0);
        var scaled = form.Times(inverse, 1 / factor);
        var rule = new Rule(
            variable,
            Form.Variable(variable) - scaled,
            origin.ToDictionary(o => o.Key, o => o.Value.Times(inverse, 1 / factor))
        );
        for (var r = 0; r < rules.Count; r++)
        {
            if (rules[r].Value.Has(variable))
            {
                var own = new Dictionary<int, Form>(rules[r].Origin);
                rules[r] = rules[r] with { Value = Divided(rules[r].Value, rule, own, isBelow: true), Origin = own };
                values[rules[r].Variable] = rules[r].Value;
            }
        }
        rules.Add(rule);
        values[variable] = rule.Value;
    }

    /// <summary>What is left of a form when every rule is used, and where that comes from.</summary>
    private (Form Left, Dictionary<int, Form> Origin) Divided(Form form, IReadOnlyDictionary<int, Form> origin)
    {
        var own = new Dictionary<int, Form>(origin);
        foreach (var rule in rules)
        {
            if (form.Has(rule.Variable))
            {
                form = Divided(form, rule, own, isBelow: false);
            }
        }
        return (form, own);
    }

    /// <param name="isBelow">Whether the origin is that of something less the form.</param>
    private static Form Divided(Form form, Rule rule, Dictionary<int, Form> origin, bool isBelow)
    {
        var quotient = Form.Zero;
        while (form.Has(rule.Variable))
        {
            var (beside, rest) = form.Apart(rule.Variable);
            quotient += beside;
            form = beside * rule.Value + rest;
        }
        foreach (var (fact, factor) in rule.Origin)
        {
            var part = factor * quotient;
            origin[fact] = origin.GetValueOrDefault(fact, Form.Zero) + (isBelow ? part : -part);
        }
        return form;
    }

    private void Replace()
    {
        var seen = new HashSet<Form>();
        for (var f = 0; f < facts.Count; f++)
        {
            var fact = facts[f];
            if (fact.IsEquation)
            {
                continue;
            }
            if (fact.Form is { Degree: 1 } own && own.Variables.Take(2).ToList() is [var variable])
            {
                if (own.Equals(Form.Variable(variable)))
                {
                    notNegative.TryAdd(variable, f);
                }
                (bounds.TryGetValue(variable, out var list) ? list : bounds[variable] = []).Add(f);
            }
            var form = Reduced(fact.Form);
            if (form.IsConstant)
            {
                if (form.Constant.Sign < 0)
                {
                    plain ??= Assembled([new Column(form, Monomial.One, [f], null)], [-1 / form.Constant], []);
                }
            }
            else if (seen.Add(form))
            {
                known.Add(new(form, Monomial.One, [f], null));
            }
        }
        foreach (var (form, origin) in unsolved)
        {
            if (form.IsConstant)
            {
                plain ??= Assembled([new Column(form, Monomial.One, [], origin)], [-1 / form.Constant], []);
            }
        }
    }
}
