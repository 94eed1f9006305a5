using CsCheck;
using Reckoner.Checking;
using Reckoner.Datapaths;
using Xunit;

namespace Reckoner.Tests.Checking;

/// <summary>The smallest failing operands against ranking every case that fails.</summary>
public sealed class SmallestOfStepTests
{
    [Fact]
    public void What_is_found_step_by_step_is_the_smallest_of_all() =>
        Gen.Int[0, int.MaxValue - 1].Sample(seed => Try(new Random(seed)), iter: 60, threads: 1);

    /// <summary>Whoever asks how long so many would take tries a few of them.</summary>
    [Theory]
    [InlineData(63, true)]
    [InlineData(100, false)]
    [InlineData(186, true)]
    public void Operands_wider_than_machine_words_are_ranked_too(int width, bool isSigned)
    {
        List<Operand> operands =
        [
            new("a", null, Numbers.Size.Of(width), isSigned, 0),
            new("b", null, Numbers.Size.Of(63), isSigned, 1),
        ];
        var space = new CaseSpace(operands);
        var failing = Enumerable.Repeat(ulong.MaxValue, PlaneMemory.Words).ToArray();
        var expected = Enumerable
            .Range(0, space.Lanes)
            .Select(lane => FailingCase.Of(space, space.At(3, lane)))
            .Aggregate((FailingCase?)null, FailingCase.Smaller);
        Assert.Equal(Line(expected), Line(new SmallestOfStep(space).Of(3, failing, null)));
    }

    private static void Try(Random random)
    {
        // 13 to 15 bits: two to eight steps.
        var operands = new List<Operand>();
        for (var left = random.Next(13, 16); left > 0; left -= operands[^1].Width)
        {
            var width = Math.Min(left, random.Next(1, 9));
            operands.Add(
                new Operand($"x{operands.Count}", null, Numbers.Size.Of(width), random.Next(2) == 0, operands.Count)
            );
        }
        var space = new CaseSpace(operands);
        var search = new SmallestOfStep(space);
        var (found, expected) = ((FailingCase?)null, (FailingCase?)null);
        for (var step = 0L; step < space.Steps; step++)
        {
            var failing = new ulong[PlaneMemory.Words];
            for (var count = random.Next(4) == 0 ? 0 : random.Next(1, 200); count > 0; count--)
            {
                var lane = random.Next(space.Lanes);
                failing[lane / 64] |= 1UL << (lane % 64);
                var bits = space.At(step, lane);
                expected = FailingCase.Smaller(expected, new FailingCase(bits, Rank.Of(operands, bits)));
            }
            found = search.Of(step, failing, found);
        }
        Assert.Equal(Line(expected), Line(found));
    }

    private static string Line(FailingCase? failing) =>
        failing is null ? "none" : $"{string.Join(" ", failing.Operands)} {failing.Rank}";
}
