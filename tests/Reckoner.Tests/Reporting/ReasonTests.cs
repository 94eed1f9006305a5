using Reckoner.Reporting;
using Reckoner.Styles;
using Reckoner.Words;
using Xunit;

namespace Reckoner.Tests;

/// <summary>What is said beside a row, short and full.</summary>
public class ReasonTests
{
    private static string Text(string statements) =>
        $"""
            machine reasons

            width n = 4 in 2..8

            operand a : n
            operand b : n

            register A : n loads a
            register B : n loads b

            step only
            {statements}

            result x = A
            result y = B

            law x >= 0
            """;

    private static string Said(string statements, ReasonForm form, int a, int b, string language = "en")
    {
        var walk = Walks.Of(Machines.Bound(Text(statements)), a, b);
        var speech = Speech.Of(walk.Datapath, Vocabulary.Of(language)!, HouseStyle.None with { Reasons = form });
        return string.Join(" / ", Reasons.Of(walk.Rows[1], speech));
    }

    private const string Spoken = "  if A < B says \"less\" de \"kleiner\" else \"not less\"\n    A <- B\n  end";
    private const string Choice = "  let c = A when A[0] else B says \"odd\" else \"even\"\n  B <- c";
    private const string Arms =
        "  case A[1..0]\n    0b00 says \"none\": hold\n    0b1x says \"two\" de \"zwei\": A <- B\n    else: B <- A\n  end";
    private const string Joined = "  if A[0] and (B[0] or A < B)\n    A <- B\n  end";

    [Theory]
    [InlineData(Spoken, 1, 2, "less")]
    [InlineData(Spoken, 2, 1, "not less")]
    [InlineData(Choice, 1, 2, "odd")]
    [InlineData(Choice, 2, 2, "even")]
    [InlineData(Arms, 0, 2, "none")]
    [InlineData(Arms, 3, 2, "two")]
    [InlineData(Joined, 1, 3, "A[0] and (B[0] or A < B) (1 and (1 or 1)): yes, so A: 0011")]
    [InlineData(Joined, 3, 2, "A[0] and (B[0] or A < B) (1 and (0 or 0)): no")]
    [InlineData("  A <- A + B", 1, 2, "A: 0001 + 0010 = 0011")]
    [InlineData("  if A[0]\n    A <- A + B\n  end", 1, 2, "A[0] = 1, so A: 0001 + 0010 = 0011")]
    [InlineData("  if A[0]\n    A <- A + B\n  end", 2, 2, "A[0] = 0")]
    [InlineData("  note \"so it is\"\n  A <- B", 2, 2, "A: 0010")]
    public void Short_is_one_clause(string statements, int a, int b, string said) =>
        Assert.Equal(said, Said(statements, ReasonForm.Short, a, b));

    [Theory]
    [InlineData(Spoken, 1, 2, "less (A < B (0001 < 0010): yes), so A: 0010")]
    [InlineData(Choice, 2, 2, "even (A[0] = 0), so B: 0010")]
    [InlineData(Arms, 1, 2, "A[1..0] = 01, so B: 0001; A: unchanged")]
    [InlineData(
        "  let d = A[0] xor B[0] says \"they differ\" else \"they agree\"\n  A <- A when d else B",
        1,
        2,
        "they differ (1 xor 0), so A: 0001"
    )]
    [InlineData("  A[0] <- A[0] or B[0]", 1, 2, "A, place 0: 1 or 0 = 1")]
    public void Full_says_what_the_words_are_about(string statements, int a, int b, string said) =>
        Assert.Equal(said, Said(statements, ReasonForm.Full, a, b));

    [Theory]
    [InlineData(Spoken, 1, 2, "kleiner")]
    [InlineData(Spoken, 2, 1, "not less")]
    [InlineData(Arms, 3, 2, "zwei")]
    public void Words_are_those_of_the_reader(string statements, int a, int b, string said) =>
        Assert.Equal(said, Said(statements, ReasonForm.Short, a, b, "de"));

    /// <summary>The words were written for the machine without it.</summary>
    [Fact]
    public void A_machine_with_a_slip_is_told_without_its_words()
    {
        var slips = Reckoner.Slips.Slip.Of(Machines.Of(Text(Spoken)));
        var turned = slips.Single(s => s.Name.StartsWith("guard-turned", StringComparison.Ordinal));
        var walk = Walks.Of(Machines.Bound(turned.Machine, 4), 1, 2);
        var speech = Speech.Of(walk.Datapath, Vocabulary.English, HouseStyle.None);
        Assert.Equal(["not (A < B) (0001 < 0010): no"], Reasons.Of(walk.Rows[1], speech).Select(r => $"{r}"));
    }
}
