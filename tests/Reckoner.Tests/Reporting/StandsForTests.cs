using System.Text.Json;
using Reckoner.Diagnostics;
using Reckoner.Reporting;
using Reckoner.Words;
using Xunit;

namespace Reckoner.Tests;

/// <summary>What registers stand for, beside them in every output.</summary>
public class StandsForTests
{
    private static string Text(string meanings, string operand = "n") =>
        $"""
            machine stand-for
            width n = 4 in 2..64
            operand a : {operand}
            operand b : n
            register A : {operand} loads a
            register B : n loads b
            {meanings}
            step keep
              A <- A
            step turn
              B <- not B
            result c = A
            result d = B
            """;

    private static JsonElement Rows(string text, int a, int b)
    {
        var walk = Walks.Of(Machines.Bound(text), a, b);
        using var document = JsonDocument.Parse(WalkJson.Of(walk, Vocabulary.English));
        return document.RootElement.GetProperty("rows").Clone();
    }

    private static string Said(string meaning, int a, int b, string operand = "n")
    {
        var said = Rows(Text($"meaning m = {meaning}", operand), a, b)[0].GetProperty("meanings").GetProperty("m");
        return $"{said.GetProperty("number")}: {said.GetProperty("text")}";
    }

    [Theory]
    [InlineData("A", 5, 0, "5: 5")]
    [InlineData("A point 4", 5, 0, "5/16: 0.3125")]
    [InlineData("A point 0", 5, 0, "5: 5")]
    [InlineData("A point 1", 6, 0, "3: 3")]
    [InlineData("A:B point 8", 0, 1, "1/256: 0.003906…")]
    [InlineData("A + B", 9, 9, "2: 2")]
    [InlineData("signed(A + B) point 2", 9, 5, "-1/2: -0.5")]
    [InlineData("signed(A:B) point 8", 15, 15, "-1/256: -0.003906…")]
    [InlineData("digits(A, B)", 9, 4, "5: +1 -1  0 +1")]
    [InlineData("digits(A, B)", 3, 6, "-3:  0 -1  0 +1")]
    [InlineData("digits(A, B) point 2", 9, 4, "5/4: +1 -1 .  0 +1")]
    public void Fractions_sums_of_words_and_signed_digits_are_said_exactly_and_shown(
        string meaning,
        int a,
        int b,
        string said
    ) => Assert.Equal(said, Said(meaning, a, b));

    [Fact]
    public void A_register_with_a_sign_stands_for_a_number_with_one() =>
        Assert.Equal("-3/4: -0.75", Said("A point 2", -3, 0, "signed n"));

    /// <summary>Nothing is shown from the step on that is named, in text and JSON.</summary>
    [Fact]
    public void It_ends_where_the_description_says()
    {
        var rows = Rows(Text("meaning m = A until turn"), 5, 1);
        Assert.Equal(["5", "5", null], Enumerable.Range(0, 3).Select(r => Number(rows[r])));
        Assert.Equal("5", Number(rows[1].GetProperty("moments")[0]));
        var datapath = Machines.Bound(Text("meaning m \"the number\" = A until turn"));
        var text = WalkText.Of(Walks.Of(datapath, 5, 1), Vocabulary.English, 40, Styles.ReasonForm.Full);
        Assert.Contains("   m  the number: A\n", text, StringComparison.Ordinal);
        Assert.Contains("    1 keep  0101  0001  5\n", text, StringComparison.Ordinal);
        Assert.Contains("    2 turn  0101  1110\n", text, StringComparison.Ordinal);

        static string? Number(JsonElement row) =>
            row.GetProperty("meanings").TryGetProperty("m", out var m) ? m.GetProperty("number").GetString() : null;
    }

    [Theory]
    [InlineData("meaning m = A until never", "unknown-name")]
    [InlineData("meaning c = A", "declared-twice")]
    [InlineData("meaning A = B", "declared-twice")]
    [InlineData("meaning m = A point 5", "point-outside")]
    [InlineData("meaning m = A point 0 - 1", "point-outside")]
    [InlineData("meaning m = digits(A)", "argument-count")]
    [InlineData("meaning m = digits(A, A:B)", "sides-differ")]
    [InlineData("meaning m = 5", "width-unknown")]
    [InlineData("meaning m = a", "operand-after-load")]
    [InlineData("meaning m = A\nlaw m = 3", "meaning-as-value")]
    [InlineData("meaning m = A\nstep more\n  m <- B", "not-writable")]
    [InlineData("meaning m = digits(A, B) + A", "unknown-function")]
    public void One_slip_in_it_is_one_diagnostic(string lines, string id)
    {
        var found = Machines.Of(Text(lines)).At(4).Diagnostics;
        Assert.Equal([id], found.Where(d => d.Severity == Severity.Error).Select(d => d.Id.Name));
    }

    /// <summary>What only a meaning reads is of no use to the hardware.</summary>
    [Fact]
    public void It_builds_no_adder_and_makes_no_register_useful()
    {
        Assert.Empty(Machines.Bound(Text("meaning m = A + B")).Units);
        var text = Text("register E : n loads 0\nmeaning m = A + E");
        Assert.Contains(Machines.Of(text).At(4).Diagnostics, d => d.Id.Name == "never-used");
    }

    [Fact]
    public void An_arm_that_only_holds_says_what_stays()
    {
        var walk = Walks.Of(
            Machines.Bound(
                """
                machine hold-it
                width n = 4 in 2..8
                operand a : n
                register A "the number" : n loads a
                step maybe
                  if A[0]
                    hold
                  else
                    A <- not A
                  end
                result b = A
                """
            ),
            3
        );
        Assert.Equal("A[0] = 1, so the number: unchanged", Spoken.Of(walk.Rows[1].Moments[0].Happenings));
    }
}
