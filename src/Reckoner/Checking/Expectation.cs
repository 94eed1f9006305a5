using System.Numerics;
using Reckoner.Claims;
using Reckoner.Datapaths;
using Reckoner.Numbers;

namespace Reckoner.Checking;

/// <summary>The results that a machine's laws ask for.</summary>
internal static class Expectation
{
    /// <summary>Results of so many bits together are tried one after another.</summary>
    private const int MostBitsTried = 16;

    /// <summary>
    /// The results' bits that satisfy every law for operands inside "given", when there is exactly one such set and it can be
    /// found: an equation that gives a result outright is used, what remains is tried. Null otherwise.
    /// </summary>
    public static IReadOnlyList<BigInteger>? Of(Datapath datapath, IReadOnlyList<BigInteger> operands)
    {
        var known = Solved(datapath, operands);
        var unknown = datapath.Results.Where(r => !known.ContainsKey(r.Name)).ToList();
        var bits = unknown.Sum(r => r.Width);
        if (bits > MostBitsTried || known.Values.Any(v => v is null))
        {
            return null;
        }
        IReadOnlyList<BigInteger>? found = null;
        for (var word = 0; word < 1 << bits; word++)
        {
            BigInteger left = word;
            var results = new List<BigInteger>();
            foreach (var result in datapath.Results)
            {
                if (known.TryGetValue(result.Name, out var value))
                {
                    results.Add(value!.Value);
                }
                else
                {
                    results.Add(Bits.Wrap(left, result.Width));
                    left >>= result.Width;
                }
            }
            if (datapath.Laws.All(l => ClaimJudge.Holds(l, operands, results)))
            {
                if (found is not null)
                {
                    return null;
                }
                found = results;
            }
        }
        return found;
    }

    /// <summary>Results that a law without condition gives outright, from operands and results known before; null where the
    /// number does not fit.</summary>
    private static Dictionary<string, BigInteger?> Solved(Datapath datapath, IReadOnlyList<BigInteger> operands)
    {
        var known = datapath.Operands.ToDictionary(o => o.Variable, o => (Rational)o.Number(operands[o.Index]));
        var exact = new Exact(v => known[v]);
        var definitions = Assertion.Of(datapath.Laws).SelectMany(a => Definitions(a.Truth)).ToList();
        var solved = new Dictionary<string, BigInteger?>();
        for (var more = true; more; )
        {
            more = false;
            foreach (var (result, term) in definitions)
            {
                if (solved.ContainsKey(result.Name) || !term.Variables.All(known.ContainsKey))
                {
                    continue;
                }
                var number = exact.Number(term);
                var fits = number is { IsWhole: true } n && Bits.Fits(n.Numerator, result.Width, result.IsSigned);
                solved[result.Name] = fits ? Bits.Wrap(number!.Value.Numerator, result.Width) : null;
                if (fits)
                {
                    known[result] = number!.Value;
                }
                more = true;
            }
        }
        return solved;
    }

    /// <summary>result = term, in both orders.</summary>
    private static IEnumerable<(Variable Result, Term Term)> Definitions(Truth truth)
    {
        var sides = truth is { Relations: [Relation.Equal], Terms: [var left, var right] }
            ? new[] { (left, right), (right, left) }
            : [];
        foreach (var (side, term) in sides)
        {
            if (Bare(side).Variable is { Kind: VariableKind.Result } result)
            {
                yield return (result, term);
            }
        }
    }

    private static Term Bare(Term term) => term.Kind == TermKind.Bracketed ? Bare(term.Inputs[0]) : term;
}
