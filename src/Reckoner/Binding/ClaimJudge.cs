using System.Numerics;
using Reckoner.Datapaths;
using Reckoner.Notation;
using Reckoner.Numbers;

namespace Reckoner.Binding;

/// <summary>Judges "given", laws and outside statements on numbers. A formula without a value does not hold.</summary>
public sealed class ClaimJudge
{
    private readonly Datapath datapath;
    private readonly Dictionary<string, Rational> names;
    private readonly Formulas formulas;

    public ClaimJudge(Datapath datapath)
    {
        this.datapath = datapath;
        names = new Dictionary<string, Rational>(datapath.Numbers, StringComparer.Ordinal);
        formulas = new Formulas(names);
    }

    /// <summary>Whether operands (bits, in the order of the text) lie inside "given".</summary>
    public bool IsGiven(IReadOnlyList<BigInteger> operands)
    {
        SetOperands(operands);
        return datapath.Given.All(f => formulas.Truth(f) == true);
    }

    /// <summary>The first formula of "given" that does not hold.</summary>
    public Expression? NotGiven(IReadOnlyList<BigInteger> operands)
    {
        SetOperands(operands);
        return datapath.Given.FirstOrDefault(f => formulas.Truth(f) != true);
    }

    /// <summary>Whether a claim says anything about operands and results (bits): its "when" is so, or it has none.</summary>
    public bool Applies(Claim claim, IReadOnlyList<BigInteger> operands, IReadOnlyList<BigInteger> results)
    {
        Set(operands, results);
        return claim.Line.Kind != ClaimCondition.When || formulas.Truth(claim.Line.Condition!) == true;
    }

    /// <summary>Whether a claim holds for operands and results (bits).</summary>
    public bool Holds(Claim claim, IReadOnlyList<BigInteger> operands, IReadOnlyList<BigInteger> results)
    {
        Set(operands, results);
        var line = claim.Line;
        return line.Kind switch
        {
            ClaimCondition.Always => formulas.Truth(line.Formula) == true,
            ClaimCondition.When => formulas.Truth(line.Condition!) == false || formulas.Truth(line.Formula) == true,
            ClaimCondition.ExactlyWhen => formulas.Truth(line.Formula) is { } f
                && formulas.Truth(line.Condition!) is { } c
                && f == c,
        };
    }

    private void Set(IReadOnlyList<BigInteger> operands, IReadOnlyList<BigInteger> results)
    {
        SetOperands(operands);
        for (var i = 0; i < datapath.Results.Count; i++)
        {
            names[datapath.Results[i].Name] = datapath.Results[i].Number(results[i]);
        }
    }

    private void SetOperands(IReadOnlyList<BigInteger> operands)
    {
        foreach (var operand in datapath.Operands)
        {
            names[operand.Name] = Evaluator.Number(operand, operands[operand.Index]);
        }
    }
}
