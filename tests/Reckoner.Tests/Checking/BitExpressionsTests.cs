using Reckoner.Checking;
using Xunit;

namespace Reckoner.Tests.Checking;

public sealed class BitExpressionsTests
{
    [Fact]
    public void Every_formula_gives_its_function_row_by_row_at_its_cost()
    {
        for (var function = 0; function < 256; function++)
        {
            var formulas = BitExpressions.Of((byte)function);
            Assert.NotEmpty(formulas);
            foreach (var formula in formulas)
            {
                Assert.Equal(BitExpressions.Cost((byte)function), Operations(formula));
                for (var row = 0; row < 8; row++)
                {
                    Assert.Equal(((function >> row) & 1) != 0, Value(formula, row));
                }
            }
        }
    }

    private static int Operations(BitExpression formula) =>
        formula is BitPair pair ? 1 + Operations(pair.Left) + Operations(pair.Right) : 0;

    private static bool Value(BitExpression formula, int row) =>
        formula switch
        {
            BitConstant constant => constant.IsOne,
            BitInput input => ((row >> (2 - input.Index)) & 1) != 0,
            BitPair { Operation: BitOperation.And } p => Value(p.Left, row) && Value(p.Right, row),
            BitPair { Operation: BitOperation.Or } p => Value(p.Left, row) || Value(p.Right, row),
            BitPair { Operation: BitOperation.Xor } p => Value(p.Left, row) != Value(p.Right, row),
            BitPair { Operation: BitOperation.AndNot } p => Value(p.Left, row) && !Value(p.Right, row),
            _ => throw new InvalidOperationException(formula.ToString()),
        };

    /// <summary>
    /// Chains of operations may use a part twice. Those of up to three are all tried; a function of cost four that none of them
    /// gives is then no cheaper as a chain either, and no gate costs more.
    /// </summary>
    [Fact]
    public void No_chain_of_operations_is_cheaper_than_the_formula_of_a_gate()
    {
        var cheapest = new int[256];
        Array.Fill(cheapest, 4);
        Chain([0xF0, 0xCC, 0xAA, 0xFF], 0, cheapest);
        for (var gate = 2; gate < 256; gate += 2)
        {
            if (gate is not (0xF0 or 0xCC or 0xAA))
            {
                Assert.Equal(cheapest[gate], BitExpressions.Cost((byte)gate));
            }
        }
    }

    private static void Chain(List<byte> values, int length, int[] cheapest)
    {
        for (var i = 0; i < values.Count && length < 3; i++)
        {
            for (var j = 0; j < values.Count; j++)
            {
                byte[] made =
                [
                    (byte)(values[i] & values[j]),
                    (byte)(values[i] | values[j]),
                    (byte)(values[i] ^ values[j]),
                    (byte)(values[i] & ~values[j]),
                ];
                foreach (var function in made.Where(f => !values.Contains(f)))
                {
                    cheapest[function] = Math.Min(cheapest[function], length + 1);
                    Chain([.. values, function], length + 1, cheapest);
                }
            }
        }
    }

    [Theory]
    [InlineData(0x96, 2)] // a ^ b ^ c
    [InlineData(0xE8, 4)] // the carry
    [InlineData(0xCA, 3)] // a choice
    [InlineData(0xF6, 2)] // or differ
    [InlineData(0x0F, 1)] // not
    [InlineData(0xF0, 0)]
    public void What_adders_and_choices_cost(byte function, int cost) =>
        Assert.Equal(cost, BitExpressions.Cost(function));
}
