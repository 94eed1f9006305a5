using System.Globalization;
using System.Numerics;
using Reckoner.Numbers;
using Reckoner.Proving;
using Reckoner.Running;
using Xunit;

namespace Reckoner.Tests.Proving;

/// <summary>What stands beside the rows of a walk as holding in every round does hold, computed from the printed numbers alone.</summary>
public class WalkHoldingTests
{
    [Theory]
    [InlineData("divide-shared-register")]
    [InlineData("divide-still-divisor")]
    [InlineData("multiply-shared-register")]
    [InlineData("root-restoring")]
    public void Its_numbers_hold_in_every_round(string name) => AssertHolds(name);

    [Theory]
    [Trait("Length", "long")]
    [InlineData("divide-non-restoring")]
    [InlineData("multiply-booth")]
    [InlineData("multiply-carry-save")]
    [InlineData("divide-signed-truncating")]
    [InlineData("multiply-in-steps")]
    public void So_they_do_in_these(string name) => AssertHolds(name);

    private static void AssertHolds(string name)
    {
        var report = Proofs.Of(name);
        var (random, seen) = (new Generator(5), 0);
        foreach (var n in new[] { 4, 5, 17, 32, 64 })
        {
            var datapath = Machines.Bound(Machines.Named(name), n);
            for (var run = 0; run < 6; run++)
            {
                var operands = datapath.Operands.Select(o => Traces.Bits(random, o.Width)).ToList();
                if (!datapath.IsGiven(operands))
                {
                    continue;
                }
                var holding = WalkHolding.Of(Walk.Of(datapath, operands), report)!;
                var rounds = datapath.Schedule.Single(s => s.IsLoop).Count;
                Assert.Equal(rounds + 1, holding.Rows.Count);
                foreach (var line in holding.Rows.Values.SelectMany(r => r))
                {
                    Assert.True(IsSo(line), $"{name} at {n}: {line}");
                    seen++;
                }
            }
        }
        Assert.True(seen > 500, $"{seen}");
    }

    /// <summary>The judge is awake.</summary>
    [Theory]
    [InlineData("2 * 3 + 1 = 7", true)]
    [InlineData("2 * 3 + 1 = 8", false)]
    [InlineData("1/2 * (-3) < 2^-1", true)]
    [InlineData("2^65 * 0 + 4 <= 3", false)]
    public void A_line_is_judged_by_its_numbers(string line, bool isSo) => Assert.Equal(isSo, IsSo(line));

    internal static bool IsSo(string line)
    {
        var relation = new[] { " <= ", " < ", " = " }.First(r => line.Contains(r, StringComparison.Ordinal));
        var (left, right) = (Sum(line.Split(relation)[0]), Sum(line.Split(relation)[1]));
        return relation switch
        {
            " <= " => left <= right,
            " < " => left < right,
            _ => left == right,
        };
    }

    private static Rational Sum(string text) =>
        text.Replace(" - ", " + -1 * ", StringComparison.Ordinal)
            .Split(" + ")
            .Select(Product)
            .Aggregate((Rational)0, (a, b) => a + b);

    private static Rational Product(string text) =>
        text.Split(" * ").Select(Number).Aggregate((Rational)1, (a, b) => a * b);

    private static Rational Number(string text)
    {
        var plain = text.Trim('(').Replace(")", "", StringComparison.Ordinal);
        if (plain.Split('^') is [var root, var power])
        {
            return root == "2"
                ? Rational.Power(2, int.Parse(power, CultureInfo.InvariantCulture))
                : Rational.Power(Whole(root), int.Parse(power, CultureInfo.InvariantCulture));
        }
        return plain.Split('/') is [var above, var below] ? Rational.Ratio(Whole(above), Whole(below)) : Whole(plain);
    }

    private static BigInteger Whole(string text) => BigInteger.Parse(text, CultureInfo.InvariantCulture);

    /// <summary>Where nothing is proved, or the operands are of no part that is, there is nothing to show.</summary>
    [Fact]
    public void Nothing_stands_beside_a_walk_of_which_nothing_is_proved()
    {
        var wrong = Machines.Named("multiply-carry-dropped");
        Assert.Null(WalkHolding.Of(Walk.Of(Machines.Bound(wrong, 4), [3, 3]), Proofs.Of(wrong)));
    }

    /// <summary>What holds in the rounds of one loop does not in those of another, so of several nothing is said of every round.</summary>
    [Fact]
    public void Nothing_is_said_of_the_rounds_of_several_loops_as_if_they_were_one()
    {
        const string name = "divide-shared-register";
        var report = Proofs.Of(name);
        var walk = Walk.Of(Machines.Bound(Machines.Named(name), 4), [7, 2]);
        Assert.NotNull(WalkHolding.Of(walk, report));
        var proof = report.Laws.Proofs[0];
        var twice = proof with { Loops = [proof.Loops[0], proof.Loops[0]] };
        Assert.Null(WalkHolding.Of(walk, report with { Laws = report.Laws with { Proofs = [twice] } }));
    }
}
