using Reckoner.Running;
using Xunit;

namespace Reckoner.Tests;

/// <summary>What is told to follow from what was looked at, and what comes about in any case.</summary>
public class ConsequenceTests
{
    private const string Text = """
        machine follows-or-not
        width n = 4 in 3..8
        operand word : n
        register A : n loads word
        register B : n loads 0
        register C : 4 loads 0
        register D : n loads 0
        step one
          let three = A = 3
          let big = A > 4
          let chosen = A when not big else 0
          let sum = A + 1
          B <- chosen
          C[0] <- three
          C[1] <- A > 4
          C[2] <- big and three
          C[3] <- not A[0]
          D <- shl(sum, 0)
        step two
          let sum = A + 1
          then
          D <- sum
          B <- B + 1
        result same = A
        law same = word
        """;

    [Fact]
    public void Only_what_comes_from_what_was_told_is_said_to_follow()
    {
        var walk = Walk.Of(Machines.Of(Text).At(4).Datapath!, [5]);
        string Told(int row) =>
            string.Join(
                ", ",
                walk.Rows[row]
                    .Moments.SelectMany(m => m.Happenings)
                    .Where(h => h.Written.Count > 0)
                    .Select(h => $"{h.Written[0].Register.Name}{h.Written[0].Low} {h.Follows}")
            );
        Assert.Equal("B0 True, C0 False, C1 True, C2 True, C3 False, D0 True", Told(1));
        // A sum of an earlier moment was told in that cycle; one that is stored as it is was not told before.
        Assert.Equal("D0 True, B0 False", Told(2));
    }
}
