using Xunit;

namespace Reckoner.Cli.Tests;

/// <summary>refine on the command line: what it writes is read again, and what cannot be is said in one sentence.</summary>
public class RefineCommandTests
{
    [Fact]
    public void What_is_taken_is_a_description_without_remark_that_holds_and_follows()
    {
        var file = WorkFolder.At("refined-multiplier.machine");
        File.Delete(file);
        var taken = Command.Run("refine", "multiply-moving-multiplicand", "--take", "1", "-o", file);
        Assert.Equal((0, "", ""), (taken.Status, taken.Output, taken.Errors));
        var shown = Command.Run("show", file);
        Assert.Equal(0, shown.Status);
        // Of a register that stands still it is said that nothing writes it, as of those of the catalogue.
        Assert.Equal(
            ["never-written"],
            shown
                .Errors.Split('\n')
                .Where(l => l.StartsWith("line ", StringComparison.Ordinal))
                .Select(l => l.Split(' ')[^1])
        );
        Assert.Equal(File.ReadAllText(file), shown.Output);
        var check = Command.Run("check", file, "--width", "5");
        Assert.Equal(0, check.Status);
        Assert.Contains(
            "each with the results of multiply-moving-multiplicand",
            check.Output,
            StringComparison.Ordinal
        );
    }

    [Theory]
    [InlineData("divide-moving-divisor divide-still-divisor", 0, "One step leads from the one to the other.")]
    [InlineData("divide-still-divisor divide-moving-divisor", 1, "no steps were")]
    [InlineData("multiply-moving-multiplicand multiply-carry-dropped", 1, "multiplicand = 3, multiplier = 3")]
    public void Two_machines_are_led_from_one_to_the_other_or_part(string words, int status, string said)
    {
        var led = Command.Run(["refine", .. words.Split(' ')]);
        Assert.Equal((status, ""), (led.Status, led.Errors));
        Assert.Contains(said, led.Output, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("multiply-moving-multiplicand --take 99", "multiply-moving-multiplicand has no version of number 99")]
    [InlineData("multiply-moving-multiplicand --take two", "--take cannot be two")]
    [InlineData("multiply-carry-dropped", "multiply-carry-dropped does not keep its laws: at n = 2")]
    [InlineData("divide-signed-floored", "divide-signed-floored has its hardware from")]
    [InlineData("divide-moving-divisor divide-still-divisor --all", "--all needs one machine, and two are named")]
    [InlineData("divide-moving-divisor multiply-in-steps", "have not the same")]
    public void What_cannot_be_refined_is_refused_in_a_sentence(string words, string said)
    {
        var refused = Command.Run(["refine", .. words.Split(' ')]);
        Assert.Equal((2, ""), (refused.Status, refused.Output));
        Assert.Contains(said, refused.Errors, StringComparison.Ordinal);
    }
}
