using Reckoner.Numbers;
using Xunit;

namespace Reckoner.Tests.Choosing;

public class GeneratorTests
{
    /// <summary>Rosetta Code, task "Pseudo-random numbers/Splitmix64": the first five numbers from the seed 1234567.</summary>
    [Fact]
    public void The_numbers_are_those_of_SplitMix64()
    {
        var generator = new Generator(1234567);
        Assert.Equal(
            [6457827717110365317, 3203168211198807973, 9817491932198370423, 4593380528125082431, 16408922859458223821],
            Enumerable.Range(0, 5).Select(_ => generator.Next())
        );
    }

    [Fact]
    public void Numbers_below_a_bound_stay_below_it_and_each_comes_up()
    {
        var generator = new Generator(1);
        var counts = new int[7];
        for (var i = 0; i < 7000; i++)
        {
            counts[generator.Below(7)]++;
        }
        // A thousand each are expected; five standard deviations are 146.
        Assert.All(counts, c => Assert.InRange(c, 854, 1146));
        Assert.Equal(0, generator.Below(1));
    }

    [Fact]
    public void What_is_drawn_is_different_and_all_of_it_in_the_end()
    {
        var drawn = new Generator(5).Drawn([.. Enumerable.Range(0, 50)], 50);
        Assert.Equal(Enumerable.Range(0, 50), drawn.Order());
        Assert.NotEqual(Enumerable.Range(0, 50), drawn);
        Assert.Equal(drawn, new Generator(5).Drawn([.. Enumerable.Range(0, 50)], 50));
        Assert.NotEqual(drawn, new Generator(6).Drawn([.. Enumerable.Range(0, 50)], 50));
    }
}
