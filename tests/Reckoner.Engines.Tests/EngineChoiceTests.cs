using Reckoner.Checking;
using Xunit;

namespace Reckoner.Engines.Tests;

public sealed class EngineChoiceTests
{
    [Fact]
    public void Without_a_wish_the_widest_vectors_are_taken()
    {
        var choice = EngineChoice.Of(null);
        var widest = EngineChoice.Widths.First(EngineChoice.IsHere);
        Assert.Equal(VectorWish.Granted, choice.Wish);
        Assert.Equal(EmittedEngine.IsHere(widest), choice.Engine is EmittedEngine);
        Assert.Contains($" {widest} bits", choice.Engine!.Name);
    }

    [Theory]
    [InlineData(512)]
    [InlineData(256)]
    [InlineData(128)]
    [InlineData(64)]
    public void A_width_that_is_asked_for_is_taken_or_nothing_is(int bits)
    {
        var choice = EngineChoice.Of($"{bits}");
        if (EngineChoice.IsHere(bits))
        {
            Assert.Equal(VectorWish.Granted, choice.Wish);
            Assert.EndsWith($" {bits} bits", choice.Engine!.Name);
        }
        else
        {
            Assert.Equal(VectorWish.NotHere, choice.Wish);
            Assert.Null(choice.Engine);
        }
    }

    [Theory]
    [InlineData("0")]
    [InlineData("1024")]
    [InlineData("wide")]
    public void What_is_no_width_is_told(string asked) =>
        Assert.Equal(new EngineChoice(null, VectorWish.NoWidth, asked), EngineChoice.Of(asked));

    [Fact]
    public void Code_is_made_only_where_there_is_much_to_do()
    {
        Assert.SkipUnless(EmittedEngine.IsHere(128), "not applicable: 128-bit vectors");
        var program = CheckProgram.Of(Machines.At("divide-shared-register", 8), null, OracleUse.Stepped).Program;
        var choice = EngineChoice.Of("128");
        Assert.IsType<InterpretedEngine>(choice.For(program, 16));
        Assert.IsType<EmittedEngine>(choice.For(program, 1 << 20));
    }
}
