using Reckoner.Binding;
using Reckoner.Claims;
using Reckoner.Diagnostics;
using Reckoner.Notation;
using Reckoner.Reporting;
using Reckoner.Words;
using Xunit;

namespace Reckoner.Tests;

/// <summary>A bound formula is written as the printer writes what it was bound from.</summary>
public class FormulaTextTests
{
    private static readonly FormulaBinding Binding = new(
        new Report(null),
        name => Claims.Term.Of(name.Span, new Variable(VariableKind.Operand, name.Name, 0, 8, false))
    );

    [Fact]
    public void Random_formulas_are_written_as_the_printer_writes_them()
    {
        var seed = Seeds.Next();
        var expressions = new RandomExpressions(new Random(seed), ["a", "bc", "n"]);
        for (var i = 0; i < 2000; i++)
        {
            var truth = expressions.Truth(3);
            Seeds.Told(seed, $"{truth}", () => Assert.Equal(Printer.Text(truth), $"{Binding.Truth(truth)}"));
        }
    }

    [Theory]
    [InlineData("dividend = quotient * divisor + remainder", "29 = 4 * 6 + -5")]
    [InlineData("2remainder >= -2quotient", "2 * -5 >= -(2 * 4)")]
    [InlineData("remainder^2 = (remainder)^2", "(-5)^2 = (-5)^2")]
    [InlineData("quotient^remainder <> 2^-remainder", "4^-5 <> 2^- -5")]
    [InlineData("dividend / divisor = dividend / remainder", "29/6 = 29 / -5")]
    [InlineData("-remainder in -quotient..quotient", "- -5 in -4..4")]
    [InlineData("floor(log2(divisor)) = 2 xor not (dividend = 1_000)", "floor(log2(6)) = 2 xor not (29 = 1_000)")]
    [InlineData("other = 0 when dividend = 0", "other = 0")]
    [InlineData("other = 0 exactly when dividend = 0", "other = 0 exactly when 29 = 0")]
    public void Numbers_take_the_place_of_names(string law, string expected)
    {
        var (description, found) = Parser.Read(new Source("", $"machine m\nlaw {law}\n"));
        Assert.Empty(found);
        var line = description.Declarations.OfType<ClaimLine>().Single();
        var condition = line.Condition is null ? null : Binding.Truth(line.Condition);
        var mode = Enum.Parse<ClaimMode>($"{line.Kind}");
        var claim = new Claim(ClaimSection.Law, mode, Binding.Truth(line.Formula)!, condition, line.Span);
        Assert.Equal(law, claim.Text);
        var numbers = new Dictionary<string, System.Numerics.BigInteger>
        {
            ["dividend"] = 29,
            ["divisor"] = 6,
            ["quotient"] = 4,
            ["remainder"] = -5,
        };
        Assert.Equal(expected, ClaimText.WithNumbers(claim, numbers, FormulaWords.Notation, Vocabulary.English));
    }
}
