using Reckoner.Binding;
using Reckoner.Diagnostics;
using Xunit;

namespace Reckoner.Tests;

/// <summary>Formulas that name each other: what is wrong is said once, however many build on it.</summary>
public class NamedFormulaTests
{
    private static string Text(IEnumerable<string> formulas, string law) =>
        $"""
            machine keep

            width n = 4 in 2..8

            operand number : n

            register A : n loads number

            step keep
              hold

            result same = A

            {string.Join('\n', formulas)}

            law {law}
            """.ReplaceLineEndings("\n");

    private static List<string> Found(IEnumerable<string> formulas, string law) =>
        [
            .. Machines
                .Of(Text(formulas, law))
                .At()
                .Diagnostics.Where(d => d.Severity == Severity.Error)
                .Select(d => $"{d.Id.Name} {d.Source!.Text[d.Span.Start..d.Span.End]}"),
        ];

    private static IEnumerable<string> Chain(int count) =>
        Enumerable.Range(1, count).Select(i => i == 1 ? "formula f1(x) = x" : $"formula f{i}(x) = f{i - 1}(x) + 1");

    [Fact]
    public void Sixty_formulas_in_a_row_are_taken() => Assert.Empty(Found(Chain(60), "f60(same) = number + 59"));

    [Fact]
    public void A_thousand_in_a_row_are_told_once_where_it_gets_too_deep() =>
        Assert.Equal(["formula-too-deep f936"], Found(Chain(1000), "f1000(same) = number"));

    /// <summary>What a core asks of what it is fed is asked, also by a name for it and of a part of an operand.</summary>
    [Theory]
    [InlineData("given y > 0")]
    [InlineData("formula fits = y > 0\ngiven fits")]
    [InlineData("part low = y[n-1..0]\ngiven low > 0")]
    public void What_a_core_is_given_is_looked_at(string given)
    {
        var inner =
            $"machine inner\nwidth n = 4 in 2..8\noperand x : n\noperand y : n\n{given}\nregister A : n loads x\nregister B : n loads y\nstep s\n  A <- A - B\nresult r = A\nlaw r = mod(x - y, 2^n)\n";
        var outer =
            "machine outer\nwidth n = 4 in 2..8\noperand p : n\noperand q : n\ncore inner\n  x = p\n  y = q\nend\nresult r = A\nlaw r = mod(p - q, 2^n)\n";
        var machine = Machine.Read(new Source("outer", outer), n => n == "inner" ? new Source(n, inner) : null);
        Assert.Contains("core-given", machine.At().Diagnostics.Select(d => d.Id.Name));
    }

    /// <summary>Few in a row can be deep, brackets and all, before any of them is known to be.</summary>
    [Fact]
    public void Sixty_of_many_brackets_are_too_deep()
    {
        var (open, close) = (new string('(', 180), new string(')', 180));
        var chain = Enumerable
            .Range(1, 60)
            .Select(i => i == 1 ? "formula f1(x) = x" : $"formula f{i}(x) = {open}f{i - 1}(x) + 1{close}");
        Assert.StartsWith("formula-too-deep", Assert.Single(Found(chain.Reverse(), "f60(same) = number")));
    }

    /// <summary>A range need mean nothing at 0 where it begins further up.</summary>
    [Theory]
    [InlineData("sum i in 1..4 of (sum j in 0..floor(8 / i) of j)")]
    [InlineData("sum i in 1..4 of (sum j in 0..2^(i-1) - 1 of j)")]
    public void What_a_range_says_is_asked_of_its_numbers_alone(string formula) =>
        Assert.Empty(Found([$"formula f(x) = x + ({formula})"], "f(same) = number"));

    [Fact]
    public void A_constant_is_no_sum_that_was_cut_off() =>
        Assert.Equal(
            ["formula-too-large sum i in 0..4095 of (sum j in 0..31 of 1)"],
            Found(["constant c = sum i in 0..4095 of (sum j in 0..31 of 1)"], "same = c")
        );

    /// <summary>Each of them is written out twice for the one around it, though nothing is added up.</summary>
    [Fact]
    public void Ranges_over_nothing_inside_each_other_are_counted_too()
    {
        var ranges = string.Concat(Enumerable.Range(0, 20).Select(i => $"sum a{i} in 0..1 of (sum b{i} in 1..0 of ("));
        var found = Found([$"formula f(x) = {ranges}x{new string(')', 40)}"], "f(same) = 0");
        Assert.StartsWith("formula-too-large", Assert.Single(found));
    }

    [Fact]
    public void So_they_are_in_the_other_order() =>
        Assert.Equal(["formula-too-deep f936"], Found(Chain(1000).Reverse(), "f1000(same) = number"));

    [Theory]
    [InlineData("formula f(x) = f(x) + 1", "formula-circle f")]
    [InlineData("formula f(x) = g(x)\nformula g(x) = h(x)\nformula h(x) = f(x)", "formula-circle f")]
    [InlineData("formula f(x) = sum i in 0..999999 of x", "range-too-long sum i in 0..999999 of x")]
    [InlineData(
        "formula f(x) = sum i in 0..4095 of (sum j in 0..4095 of i * j * x)",
        "formula-too-large sum i in 0..4095 of (sum j in 0..4095 of i * j * x)"
    )]
    [InlineData("formula f(x) = sum i in 0..x of i", "range-varies f(same)")]
    [InlineData("formula f(x) = x = 1", "number-needed f(same)")]
    [InlineData("formula f(x, y) = x + y", "argument-count f(same)")]
    [InlineData("formula f(x) = A", "register-in-law A")]
    [InlineData("formula f(x) = y", "unknown-name y")]
    [InlineData("formula f(x) = abs(x, 1)", "argument-count abs(x, 1)")]
    [InlineData("formula f(x) = mod(x)", "argument-count mod(x)")]
    public void What_is_wrong_is_said_once_where_it_stands(string formulas, string expected) =>
        Assert.Equal([expected], Found(formulas.Split("\n"), "f(same) = number"));

    /// <summary>What a name stands for does not depend on the order of the lines.</summary>
    [Fact]
    public void A_truth_may_be_named_before_it_is_said()
    {
        string[] formulas = ["formula good = even", "formula even = not odd(same)", "formula odd(x) = mod(x, 2) = 1"];
        Assert.Empty(Found(formulas, "good exactly when mod(number, 2) = 0"));
    }

    /// <summary>Names that are free elsewhere: a parameter hides an operand, an index a parameter.</summary>
    [Fact]
    public void The_nearest_name_counts()
    {
        var formulas = new[] { "formula f(number) = number + (sum number in 1..3 of number)", "formula sum = f(1)" };
        Assert.Empty(Found(formulas, "f(same) - sum = number - 1"));
        var walk = Walks.Of(Machines.Bound(Text(formulas, "f(same) - sum = number - 1")), [5]);
        Assert.True(walk.Holds);
    }
}
