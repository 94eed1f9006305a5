namespace Reckoner.Verifier;

/// <summary>What "given" and claims say, on one path.</summary>
/// <param name="numbers">The polynomials of operands and results.</param>
internal sealed class Formulas(Machine machine, Path path, IReadOnlyDictionary<string, Poly> numbers)
{
    /// <summary>What has to be shown for a claim.</summary>
    public IReadOnlyList<Fact> Goals(Tree claim) =>
        claim.Text switch
        {
            "always" => Parts(claim[0]),
            "when" => Holds(claim[1]) ? Parts(claim[0]) : [],
            "exactly when" => Holds(claim[1]) == Holds(claim[0]) ? [] : Never,
            _ => throw new RefusedException(Refusal.NotKnown, claim.Text),
        };

    private static IReadOnlyList<Fact> Never => [Fact.NotNegative(-1)];

    private IReadOnlyList<Fact> Parts(Tree formula) =>
        formula.Kind switch
        {
            "and" => [.. Parts(formula[0]), .. Parts(formula[1])],
            "or" => Holds(formula[0]) ? [] : Parts(formula[1]),
            "compare" when !formula.Text.Contains("<>", StringComparison.Ordinal) => Compared(
                formula.Inside,
                formula.Text.Split(' ')
            ),
            "within" => Compared([formula[1], formula[0], formula[2]], ["<=", "<="]),
            _ => Holds(formula) ? [] : Never,
        };

    private List<Fact> Compared(IReadOnlyList<Tree> terms, IReadOnlyList<string> relations)
    {
        var polys = terms.Select(Number).ToList();
        return
        [
            .. relations.Select(
                (relation, r) =>
                {
                    var difference = polys[r] - polys[r + 1];
                    return relation switch
                    {
                        "=" => Fact.Zero(difference),
                        "<" => Fact.Negative(difference),
                        "<=" => Fact.NotNegative(-difference),
                        ">" => Fact.NotNegative(difference - 1),
                        ">=" => Fact.NotNegative(difference),
                        _ => throw new RefusedException(Refusal.NotKnown, relation),
                    };
                }
            ),
        ];
    }

    public bool Holds(Tree formula) =>
        formula.Kind switch
        {
            "and" => Holds(formula[0]) && Holds(formula[1]),
            "or" => Holds(formula[0]) || Holds(formula[1]),
            "xor" => Holds(formula[0]) != Holds(formula[1]),
            "not" => !Holds(formula[0]),
            "compare" => formula
                .Text.Split(' ')
                .Select((r, i) => (r, i))
                .All(x => Holds(formula[x.i], x.r, formula[x.i + 1])),
            "within" => Holds(formula[0], ">=", formula[1]) && Holds(formula[0], "<=", formula[2]),
            _ => throw new RefusedException(Refusal.NotKnown, formula.Kind),
        };

    /// <summary>That a number is below 0 or not is a question only where it is whole.</summary>
    private bool Holds(Tree left, string relation, Tree right)
    {
        var difference = Number(left) - Number(right);
        if (!difference.IsWhole(path.Region))
        {
            throw new RefusedException(Refusal.NotWhole, relation);
        }
        return relation switch
        {
            "=" => path.IsZero(difference),
            "<>" => !path.IsZero(difference),
            "<" => path.IsNegative(difference),
            ">=" => !path.IsNegative(difference),
            ">" => path.IsNegative(-difference),
            "<=" => !path.IsNegative(-difference),
            _ => throw new RefusedException(Refusal.NotKnown, relation),
        };
    }

    private Poly Number(Tree e) =>
        e.Kind switch
        {
            "number" => Poly.Of(Machine.Whole(e)),
            "name" when numbers.TryGetValue(e.Text, out var known) => path.Plain(known),
            "name" when machine.Size(e) is { IsNumber: true } number => number.K,
            "neg" => -Number(e[0]),
            "+" => Number(e[0]) + Number(e[1]),
            "-" => Number(e[0]) - Number(e[1]),
            "*" => Number(e[0]) * Number(e[1]),
            "^" => Power(e),
            "call" when e.Text == "abs" => Magnitude(Number(e[0])),
            "call" when e.Text is "trunc" or "floor" && e[0].Kind == "/" => Rounded(e),
            _ => throw new RefusedException(Refusal.NotKnown, e.Text.Length > 0 ? e.Text : e.Kind),
        };

    /// <summary>A quotient of whole numbers, rounded; where the divisor may be 0 it has no value.</summary>
    private Poly Rounded(Tree e)
    {
        var (dividend, divisor) = (path.Plain(Number(e[0][0])), path.Plain(Number(e[0][1])));
        if (!dividend.IsWhole(path.Region) || !divisor.IsWhole(path.Region))
        {
            throw new RefusedException(Refusal.NotWhole, e.Text);
        }
        return path.IsZero(divisor)
            ? throw new RefusedException(Refusal.NotKnown, e.Text)
            : path.Quotient(dividend, divisor, e.Text == "floor");
    }

    private Poly Magnitude(Poly poly)
    {
        if (!poly.IsWhole(path.Region))
        {
            throw new RefusedException(Refusal.NotWhole, "abs");
        }
        return path.IsNegative(poly) ? -poly : poly;
    }

    private Poly Power(Tree e)
    {
        var (root, power) = (Number(e[0]), machine.Size(e[1]));
        return root.Whole == 2 ? Poly.Power(power)
            : power is { IsNumber: true, K: >= 0 and <= 4 }
                ? Enumerable.Repeat(root, power.K).Aggregate((Poly)1, (a, b) => a * b)
            : throw new RefusedException(Refusal.NotKnown, "^");
    }
}
