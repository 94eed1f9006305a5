using System.Numerics;
using Reckoner.Numbers;

namespace Reckoner.Proving;

/// <summary>One state at a width, after so many rounds, with the exact number of every variable that is asked for.</summary>
internal sealed class ExactState(int n, int i)
{
    private readonly Dictionary<int, BigInteger> values = [];

    public int N { get; } = n;
    public int I { get; } = i;

    public BigInteger this[int variable]
    {
        get => values[variable];
        set => values[variable] = value;
    }

    /// <summary>The exact value of a form of which every variable has a number.</summary>
    public Rational Of(Form form) =>
        form.Parts.Aggregate(
            (Rational)0,
            (sum, part) =>
                sum
                + part.Product.Variables.Aggregate(
                    part.Factor * Rational.Power(2, part.Product.N * N + part.Product.I * I),
                    (product, variable) => product * values[variable]
                )
        );

    public bool IsSo(Fact fact) => fact.IsEquation ? Of(fact.Form).Sign == 0 : Of(fact.Form).Sign >= 0;

    /// <summary>The operands with their signs and sizes, and the pieces of the registers.</summary>
    public static ExactState Of(
        int n,
        int i,
        Variables variables,
        Datapaths.Datapath datapath,
        IReadOnlyList<BigInteger> operands,
        IReadOnlyList<Piece> pieces,
        IReadOnlyList<BigInteger> registers
    )
    {
        var state = new ExactState(n, i);
        foreach (var operand in datapath.Operands)
        {
            var number = operand.Number(operands[operand.Index]);
            state[variables.Operand(operand.Name)] = number;
            state[variables.Sign(operand.Name)] = number.Sign < 0 ? 1 : 0;
            state[variables.Magnitude(operand.Name)] = BigInteger.Abs(number);
        }
        foreach (var piece in pieces)
        {
            var number = piece.Number(registers[piece.Register.Index], n, i);
            state[piece.Variable] = number;
            if (piece.IsSigned)
            {
                state[variables.Sign(piece.Name)] = number.Sign < 0 ? 1 : 0;
            }
        }
        return state;
    }
}
