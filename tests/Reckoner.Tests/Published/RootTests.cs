using System.Numerics;
using Xunit;

namespace Reckoner.Tests;

/// <summary>Roots that were published without their rows. Those with rows are tables in tests/cases/published.</summary>
public class RootTests
{
    private static readonly string[] Roots = ["root-restoring", "root-non-restoring"];

    /// <summary>118: Parhami's example (from memory, recomputed); the others as in the tables.</summary>
    [Theory]
    [InlineData(4, 118, 10, 18)]
    [InlineData(4, 100, 10, 0)]
    [InlineData(4, 127, 11, 6)]
    [InlineData(3, 26, 5, 1)]
    [InlineData(5, 405, 20, 5)]
    public void Every_machine_gives_root_and_remainder(int width, int radicand, int root, int remainder) =>
        Assert.All(
            Roots,
            machine =>
            {
                var walk = Walks.Of(Walks.At(machine, width), radicand);
                Assert.Equal((root, remainder), (walk.Result("root"), walk.Result("remainder")));
            }
        );

    /// <summary>
    /// 405 has the root 20.125 to three places behind the point (a worked example of the duplex method; truly 20.1246): rounded, that
    /// is. Cut off instead, the three places would be 20.000.
    /// </summary>
    [Fact]
    public void A_root_with_three_places_behind_the_point_is_that_of_64_times_as_much()
    {
        Assert.Equal(161, 8 * 20.125);
        Assert.Equal(161, Walks.Of(Walks.At("root-rounded", 8), 405 * 64).Result("root"));
        Assert.Equal(160, Walks.Of(Walks.At("root-restoring", 8), 405 * 64).Result("root"));
    }

    /// <summary>Li and Chu, FCCM 1997 (abstract): a root of single precision without restoring takes 25 cycles one after another.</summary>
    [Fact]
    public void A_root_of_24_bits_without_restoring_takes_25_cycles() =>
        Assert.Equal(25, Walks.Of(Walks.At("root-non-restoring", 24), (BigInteger.One << 47) + 1).Cycles);
}
