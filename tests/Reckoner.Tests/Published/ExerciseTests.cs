using Xunit;

namespace Reckoner.Tests;

/// <summary>
/// Operands printed in exercises on shift-and-add multiplication, with their products: the operands are read in course
/// material, the products recomputed (one pair stands in octal there: 62 x 12).
/// </summary>
public class ExerciseTests
{
    [Theory]
    [InlineData(4, 6, 7, 42)]
    [InlineData(4, 10, 10, 100)]
    [InlineData(6, 50, 10, 500)]
    [InlineData(5, 22, 13, 286)]
    [InlineData(4, 10, 3, 30)]
    public void Every_unsigned_multiplier_gives_the_product_of_the_exercise(int width, int a, int b, int product)
    {
        string[] machines =
        [
            "multiply-moving-multiplicand",
            "multiply-still-multiplicand",
            "multiply-shared-register",
            "multiply-in-steps",
            "multiply-early-out",
            "multiply-carry-save",
            "multiply-booth-radix-4-unsigned",
        ];
        Assert.All(
            machines,
            machine => Assert.Equal(product, Walks.Of(Walks.At(machine, width), a, b).Result("product"))
        );
    }

    /// <summary>Quotients and remainders that courses print: 29/3 and 53/7 with their answers, 7/3 and 60/17 recomputed.</summary>
    [Theory]
    [InlineData(7, 96, 11, 8, 8)]
    [InlineData(5, 29, 3, 9, 2)]
    [InlineData(6, 53, 7, 7, 4)]
    [InlineData(4, 7, 3, 2, 1)]
    [InlineData(7, 112, 7, 16, 0)]
    [InlineData(6, 60, 17, 3, 9)]
    public void Every_plain_divider_gives_quotient_and_remainder_of_the_exercise(
        int width,
        int dividend,
        int divisor,
        int quotient,
        int remainder
    ) =>
        Assert.All(
            new[] { "divide-moving-divisor", "divide-still-divisor", "divide-shared-register", "divide-shift-first" },
            machine =>
            {
                var walk = Walks.Of(Walks.At(machine, width), dividend, divisor);
                Assert.Equal(quotient, walk.Result("quotient"));
                Assert.Equal(remainder, walk.Result("remainder"));
            }
        );
}
