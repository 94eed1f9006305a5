using System.Globalization;
using System.Numerics;
using Reckoner.Binding;
using Reckoner.Claims;
using Reckoner.Datapaths;
using Reckoner.Proving;
using Xunit;

namespace Reckoner.Tests.Proving;

/// <summary>Machines that are right up to some width, or at every other one: none is proved, and the first wrong width is shown.</summary>
public class RightUpToTests
{
    private static readonly (string Name, string Loop, string Spoilt, bool IsDivider)[] Made =
    [
        ("divide-moving-divisor", "repeat n + 1", "D", true),
        ("divide-still-divisor", "repeat n + 1", "D", true),
        ("divide-shared-register", "repeat n + 1", "D", true),
        ("multiply-moving-multiplicand", "repeat n", "M", false),
        ("multiply-still-multiplicand", "repeat n", "M", false),
        ("multiply-shared-register", "repeat n", "M", false),
    ];

    private static readonly int[] FirstWrong = [7, 8, 9, 17, 33, 65];

    /// <summary>A counter of so many bits as it takes spoils a register in one round, if n is large enough for that round.</summary>
    private static Machine Counting((string Name, string Loop, string Spoilt, bool IsDivider) made, int firstWrong)
    {
        var round = made.IsDivider ? firstWrong : firstWrong - 1;
        var bits = 1 + BitOperations.Log2((uint)round);
        return Spoilt(
            made,
            string.Create(CultureInfo.InvariantCulture, $"register K : {bits} loads 0"),
            string.Create(CultureInfo.InvariantCulture, $"K = {round}"),
            "K <- K + 1"
        );
    }

    /// <summary>A multiplier that is wrong from this width on.</summary>
    internal static Machine RightBefore(int firstWrong) => Counting(Made[^1], firstWrong);

    /// <summary>A bit that changes in every round spoils the last round where n is odd.</summary>
    private static Machine Odd((string Name, string Loop, string Spoilt, bool IsDivider) made) =>
        Spoilt(made, "register T : 1 loads 0", made.IsDivider ? "last and T" : "last and not T", "T <- not T");

    private static Machine Spoilt(
        (string Name, string Loop, string Spoilt, bool IsDivider) made,
        string register,
        string condition,
        string step
    ) =>
        Proofs.Changed(
            made.Name,
            ("\nunit alu", $"\n{register}\n\nunit alu"),
            ($"\n{made.Loop}\n", $"\n{made.Loop}\n  if {condition}\n    {made.Spoilt} <- 0\n  end\n  {step}\n  then\n")
        );

    public static TheoryData<int, int> OfAFew => [(1, 7), (3, 8), (5, 9), (0, 0), (4, 0)];

    public static TheoryData<int, int> OfAll =>
        [.. Enumerable.Range(0, Made.Length).SelectMany(m => FirstWrong.Append(0), (m, first) => (m, first))];

    [Theory]
    [MemberData(nameof(OfAFew))]
    public void It_is_not_proved(int made, int firstWrong) => AssertFound(made, firstWrong);

    /// <summary>Two and forty machines.</summary>
    [Theory]
    [Trait("Length", "long")]
    [MemberData(nameof(OfAll))]
    public void None_of_them_is_proved(int made, int firstWrong) => AssertFound(made, firstWrong);

    /// <param name="firstWrong">0 for: where n is odd.</param>
    private static void AssertFound(int made, int firstWrong)
    {
        var machine = firstWrong == 0 ? Odd(Made[made]) : Counting(Made[made], firstWrong);
        int[] right = firstWrong == 0 ? [2, 4, 6, 8] : [2, 3, 4, firstWrong - 2, firstWrong - 1];
        int[] wrong = firstWrong == 0 ? [3, 5, 7] : [firstWrong];
        Assert.All(right.Where(n => n >= 2), n => Assert.True(HoldsAt(machine, n), $"it should be right at {n}"));
        Assert.All(wrong, n => Assert.False(HoldsAt(machine, n), $"it should be wrong at {n}"));
        var report = Proofs.Of(machine, Screening.None);
        Assert.Contains(report.Laws.Claims, c => !c.IsProved);
        var fails = report.Laws.Claims.Select(c => c.Fails).OfType<Failing>().ToList();
        Assert.NotEmpty(fails);
        Assert.Equal(wrong[0], fails.Min(f => f.Width));
        Assert.All(fails, f => Assert.False(HoldsFor(f.Datapath, f.Operands)));
    }

    private static bool HoldsAt(Machine machine, int width)
    {
        var datapath = Machines.Bound(machine, width);
        var all = BigInteger.One << width;
        BigInteger[] numbers = [0, 1, 2, 3, all / 2 - 1, all / 2, all - 2, all - 1];
        return numbers
            .SelectMany(a => numbers.Select(b => (BigInteger[])[a, b]))
            .Where(datapath.IsGiven)
            .All(o => HoldsFor(datapath, o));
    }

    private static bool HoldsFor(Datapath datapath, IReadOnlyList<BigInteger> operands) =>
        datapath.Laws.All(l => ClaimJudge.Holds(l, operands, Trials.Results(datapath, operands)));
}
