using System.Numerics;
using Reckoner.Binding;
using Reckoner.Datapaths;
using Reckoner.Notation;
using Reckoner.Numbers;

namespace Reckoner.Checking;

/// <summary>The results that a machine's laws ask for.</summary>
public static class Expectation
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
        var judge = new ClaimJudge(datapath);
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
            if (datapath.Laws.All(l => judge.Holds(l, operands, results)))
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
        var names = new Dictionary<string, Rational>(datapath.Numbers, StringComparer.Ordinal);
        foreach (var operand in datapath.Operands)
        {
            names[operand.Name] = Evaluator.Number(operand, operands[operand.Index]);
        }
        var formulas = new Formulas(names);
        var solved = new Dictionary<string, BigInteger?>();
        for (var more = true; more; )
        {
            more = false;
            foreach (var (name, formula) in datapath.Laws.SelectMany(Definitions))
            {
                var result = datapath.Results.FirstOrDefault(r => r.Name == name);
                if (result is null || solved.ContainsKey(name) || !Formulas.Mentioned(formula).All(names.ContainsKey))
                {
                    continue;
                }
                var number = formulas.Number(formula);
                var isSigned = result.Value.Reading == Reading.Signed;
                var fits = number is { IsWhole: true } n && Bits.Fits(n.Numerator, result.Width, isSigned);
                solved[name] = fits ? Bits.Wrap(number!.Value.Numerator, result.Width) : null;
                if (fits)
                {
                    names[name] = number!.Value;
                }
                more = true;
            }
        }
        return solved;
    }

    /// <summary>name = formula, also as part of a conjunction.</summary>
    private static IEnumerable<(string Name, Expression Formula)> Definitions(Claim law) =>
        law.Line.Kind == ClaimCondition.Always ? Definitions(law.Line.Formula) : [];

    private static IEnumerable<(string Name, Expression Formula)> Definitions(Expression e)
    {
        switch (e)
        {
            case Bracketed b:
                return Definitions(b.Inner);
            case Binary { Operator: BinaryOperator.And } and:
                return Definitions(and.Left).Concat(Definitions(and.Right));
            case Comparison { Relations: [Relation.Equal], Terms: [var left, var right] }:
                var both = new[] { (left, right), (right, left) };
                return both.Where(x => x.Item1 is NameReference).Select(x => (((NameReference)x.Item1).Name, x.Item2));
            default:
                return [];
        }
    }
}
