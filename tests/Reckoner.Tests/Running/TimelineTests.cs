using System.Numerics;
using Reckoner.Timelines;
using Xunit;

namespace Reckoner.Tests;

public class TimelineTests
{
    private const int Tuples = 12;

    public static TheoryData<string> Catalogue => [.. Machines.Catalogue];

    /// <summary>Outside "given" too: the hardware does something there as well.</summary>
    [Theory]
    [MemberData(nameof(Catalogue))]
    public void Timeline_and_walk_agree(string name) => Agree(name, upTo: 3, 8, 33);

    [Theory]
    [Trait("Length", "long")]
    [MemberData(nameof(Catalogue))]
    public void They_do_at_every_width(string name) => Agree(name, upTo: 12, 16, 32, 33, 64);

    private static void Agree(string name, int upTo, params int[] others)
    {
        var seed = Seeds.Next();
        var random = new Random(seed);
        var machine = Machines.Named(name);
        foreach (var width in Machines.Widths(machine, upTo, others))
        {
            var timeline = Timeline.Of(Machines.Bound(machine, width));
            foreach (var operands in SampleOperands.Of(timeline.Datapath, random).Take(Tuples))
            {
                Seeds.Told(
                    seed,
                    $"width {width}, operands {Text(operands)}",
                    () => Agreement.Check(timeline, operands)
                );
            }
        }
    }

    private static string Text(BigInteger[] operands) => string.Join(' ', operands);
}
