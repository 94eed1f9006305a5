using Xunit;

namespace Reckoner.Cli.Tests;

public class SlipCommandTests
{
    private static (int Status, string Output, string Errors) Run(params string[] arguments)
    {
        using var output = new StringWriter();
        using var errors = new StringWriter();
        using var session = new Session(output, errors);
        return (session.Run(arguments), output.ToString(), errors.ToString());
    }

    [Fact]
    public void A_slip_behind_a_machine_is_that_machine_with_the_slip()
    {
        var (status, output, errors) = Run(
            "walk",
            "divide-shared-register",
            "--slip",
            "guard-never-last",
            "--width",
            "4",
            "1",
            "2"
        );

        Assert.Equal(1, status);
        Assert.Contains("remainder = 2 = 0010", output, StringComparison.Ordinal);
        Assert.Contains("does NOT hold", output, StringComparison.Ordinal);
        Assert.Empty(errors);
    }

    [Fact]
    public void A_misspelt_slip_gets_near_names()
    {
        var (status, output, errors) = Run("check", "divide-shared-register", "--slip", "guard-nevr-last");

        Assert.Equal(2, status);
        Assert.Empty(output);
        Assert.Contains("guard-never-last", errors, StringComparison.Ordinal);
    }

    [Fact]
    public void A_wrong_machine_is_found_wrong_with_its_smallest_operands()
    {
        var (status, output, _) = Run("check", "divide-shared-register", "--slip", "guard-never-last", "--width", "4");

        output = string.Join(' ', output.Split((char[])[], StringSplitOptions.RemoveEmptyEntries));
        Assert.Equal(1, status);
        Assert.Contains("do NOT hold in 180 of 240 cases", output, StringComparison.Ordinal);
        Assert.Contains(
            "smallest: dividend = 1, divisor = 2 gives quotient = 0, remainder = 2",
            output,
            StringComparison.Ordinal
        );
        Assert.Contains("expected: quotient = 0, remainder = 1", output, StringComparison.Ordinal);
    }
}
