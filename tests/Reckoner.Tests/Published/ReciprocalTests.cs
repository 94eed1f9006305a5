using System.Numerics;
using Reckoner.Numbers;
using Reckoner.Running;
using Xunit;

namespace Reckoner.Tests;

/// <summary>
/// Reciprocals by iteration. The seed 48/17 - 32/17 D is off by 1/17 at most (an encyclopaedia's article on division algorithms), a
/// round squares the error; numbers of rounds by ceil(log2((P + 1) / log2 17)) (from memory, recomputed).
/// </summary>
public class ReciprocalTests
{
    private const string Machine = "divide-newton-raphson";

    [Theory]
    [InlineData(24, 3)]
    [InlineData(53, 4)]
    [InlineData(64, 4)]
    public void As_many_rounds_as_the_formula_says(int width, int rounds)
    {
        var walk = Walks.Of(Walks.At(Machine, width), 1, BigInteger.One << (width - 1));
        Assert.Equal(rounds, walk.Rows.Count(r => r.Step?.Name == "improve"));
        Assert.True(walk.Holds);
    }

    /// <summary>
    /// Oberman and Flynn 1997, p. 842: 53 bits take 6 rounds from a guess of 1 bit, 3 from 8 bits and 2 from 14. By the formula of a
    /// description, with its exact logarithm.
    /// </summary>
    [Theory]
    [InlineData(1, 6)]
    [InlineData(8, 3)]
    [InlineData(14, 2)]
    public void Each_round_doubles_the_bits_of_the_first_guess(int bits, int rounds)
    {
        var datapath = Machines.Bound(
            $"""
            machine rounds
            width n = 53 in 1..64
            constant rounds = ceil(log2(n / {bits}))
            operand a : n
            register A : n loads a
            repeat rounds
              A <- shr(A, 0)
            end
            result b = A
            """
        );
        Assert.Equal(rounds, datapath.Schedule[0].Count);
    }

    /// <summary>1/17 at 1/2, at 3/4 with the other sign, and at 1; nowhere more. What rounding adds is less than 2 in the last place.</summary>
    [Theory]
    [InlineData(8)]
    [InlineData(12)]
    public void The_first_guess_is_off_by_a_seventeenth_at_most(int width)
    {
        var datapath = Walks.At(Machine, width);
        var errors = new List<Rational>();
        for (var divisor = 1 << (width - 1); divisor < 1 << width; divisor++)
        {
            errors.Add(Errors(Walks.Of(datapath, 1, divisor))[0]);
        }
        var seventeenth = Rational.Ratio(1, 17);
        var places = Rational.Power(2, 1 - (width + 3));
        Assert.All(errors, e => Assert.True(Rational.Abs(e) <= seventeenth + places, e.ToString()));
        Near(seventeenth, errors[0], places);
        Near(-seventeenth, errors[errors.Count / 2], places);
        // The largest divisor is one place short of 1.
        Near(seventeenth, errors[^1], places + Rational.Power(2, 2 - width));
    }

    /// <summary>(1/17)^(2^k) after k rounds: 1/289, 1/83521, 1.434e-10, 2.055e-20 (recomputed).</summary>
    [Fact]
    public void Every_round_squares_the_error()
    {
        var errors = Errors(Walks.Of(Walks.At(Machine, 64), 1, BigInteger.One << 63));
        Assert.Equal(5, errors.Count);
        var places = Rational.Power(2, 3 - (64 + 3));
        for (var k = 0; k < errors.Count; k++)
        {
            Near(Rational.Power(Rational.Ratio(1, 17), 1 << k), errors[k], places);
            if (k > 0)
            {
                Near(errors[k - 1] * errors[k - 1], errors[k], places);
            }
        }
    }

    private static void Near(Rational expected, Rational found, Rational places) =>
        Assert.True(Rational.Abs(found - expected) <= places, $"{found} is not {expected} within {places}");

    /// <summary>1 - DX after the seed and after each round, from the registers.</summary>
    private static List<Rational> Errors(Walk walk)
    {
        var width = walk.Datapath.Operands[0].Width;
        BigInteger Word(Row row, string name) =>
            row.Registers[walk.Datapath.Registers.Single(r => r.Name == name).Index];
        return
        [
            .. walk
                .Rows.Where(r => r.Step?.Name is "seed" or "improve")
                .Select(r => 1 - Rational.Ratio(Word(r, "D") * Word(r, "X"), BigInteger.One << (width + width + 3))),
        ];
    }
}
