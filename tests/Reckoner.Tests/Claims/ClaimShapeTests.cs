using Reckoner.Checking;
using Reckoner.Claims;
using Reckoner.Datapaths;
using Reckoner.Drawing;
using Reckoner.Running;
using Xunit;

namespace Reckoner.Tests;

/// <summary>What laws say is seen however they are written: every spelling against the machine as it comes.</summary>
public class ClaimShapeTests
{
    private const int Width = 4;

    private static readonly string[] Bounds =
    [
        "remainder < divisor",
        "divisor > remainder",
        "(remainder) < (divisor)",
        "0 <= remainder < divisor",
        "remainder <= divisor - 1",
        "remainder in 0..divisor - 1",
        "2 * remainder + 1 < 2divisor",
    ];

    /// <summary>Both sides, exchanged or not.</summary>
    private static IEnumerable<string> Equations(string left, string right) =>
        [$"{left} = {right}", $"{right} = {left}", $"({right}) = {left}"];

    private static IEnumerable<string> Products(string a, string b) => [$"{a} * {b}", $"{b} * {a}", $"({a} * ({b}))"];

    private static IEnumerable<string> Divisions()
    {
        foreach (var product in Products("quotient", "divisor"))
        {
            foreach (
                var sum in new[] { $"{product} + remainder", $"remainder + {product}", $"({product}) + remainder" }
            )
            {
                foreach (var equation in Equations("dividend", sum))
                {
                    yield return equation;
                }
            }
            foreach (var equation in Equations("dividend - remainder", product))
            {
                yield return equation;
            }
            yield return $"remainder = dividend - {product}";
        }
    }

    private static IEnumerable<string> Roots() =>
        from square in new[] { "root^2", "root * root", "(root)^2" }
        from sum in new[] { $"{square} + remainder", $"remainder + {square}", $"({square}) + remainder" }
        from equation in Equations("radicand", sum)
        select equation;

    /// <summary>A machine and its laws, one to a line.</summary>
    public static IEnumerable<(string Machine, string Laws)> Spellings()
    {
        foreach (var machine in new[] { "divide-moving-divisor", "divide-still-divisor", "divide-shared-register" })
        {
            var equations = Divisions().ToList();
            for (var i = 0; i < equations.Count; i++)
            {
                var (equation, bound) = (equations[i], Bounds[i % Bounds.Length]);
                string[] both =
                [
                    $"law {equation}\nlaw {bound}",
                    $"law {bound}\nlaw {equation}",
                    $"law {equation} and {bound}",
                    $"law ({bound}) and ({equation})",
                ];
                yield return (machine, both[i % both.Length]);
            }
        }
        foreach (
            var machine in new[]
            {
                "multiply-moving-multiplicand",
                "multiply-still-multiplicand",
                "multiply-shared-register",
            }
        )
        {
            foreach (var equation in Products("multiplicand", "multiplier").SelectMany(p => Equations("product", p)))
            {
                yield return (machine, $"law {equation}");
            }
        }
        foreach (var equation in Roots())
        {
            yield return ("root-restoring", $"law remainder <= 2 * root and {equation}");
        }
        foreach (var bound in new[] { "root^2 <= radicand", "radicand >= root * root", "0 <= root^2 <= radicand" })
        {
            yield return ("root-restoring", $"law {bound}");
        }
    }

    public static TheoryData<string> Names => [.. Spellings().Select(s => s.Machine).Distinct()];

    [Theory]
    [MemberData(nameof(Names))]
    public void Laws_say_the_same_in_every_spelling(string machine)
    {
        var usual = Walks.At(machine, Width);
        var laws = Spellings().Where(s => s.Machine == machine).Select(s => s.Laws).ToList();
        Assert.True(laws.Count >= 9);
        foreach (var spelt in laws)
        {
            var datapath = With(machine, spelt);
            Assert.Equal((spelt, Shown(usual)), (spelt, Shown(datapath)));
            Assert.Equal((spelt, Sum(usual)), (spelt, Sum(datapath)));
            var (before, after) = (Stepped(usual), Stepped(datapath));
            Assert.Equal((spelt, before.Oracle is null), (spelt, after.Oracle is null));
            Assert.Equal((spelt, before.Oracle?.StateBits), (spelt, after.Oracle?.StateBits));
            Assert.Equal((spelt, Failures(before)), (spelt, Failures(after)));
        }
    }

    /// <summary>Where it is stepped along, nothing of the product is left among the gates, whatever the law looks like.</summary>
    [Theory]
    [InlineData("divide-shared-register", "law (remainder) + (divisor * quotient) = dividend and divisor > remainder")]
    [InlineData("multiply-booth", "law (multiplier) * multiplicand = product")]
    public void Another_spelling_takes_the_same_gates(string machine, string laws) =>
        Assert.Equal(Gates(Stepped(Walks.At(machine, 8))), Gates(Stepped(With(machine, laws, 8))));

    [Theory]
    [InlineData("dividend = quotient * divisor + remainder", "remainder < divisor", true, true)]
    [InlineData("dividend = quotient * divisor - remainder", "remainder < divisor", false, false)]
    [InlineData("dividend + remainder = quotient * divisor", "remainder < divisor", false, false)]
    [InlineData("dividend = quotient * dividend + remainder", "remainder < divisor", false, false)]
    [InlineData("divisor = quotient * dividend + remainder", "remainder < dividend", false, true)]
    [InlineData("dividend = quotient * divisor + quotient", "quotient < divisor", false, false)]
    [InlineData("dividend = 2 * quotient * divisor + remainder", "remainder < divisor", false, false)]
    [InlineData("dividend = quotient * divisor + remainder + 1", "remainder < divisor", false, false)]
    [InlineData("dividend <= quotient * divisor + remainder", "remainder < divisor", false, false)]
    [InlineData("dividend = quotient * divisor + remainder when divisor > 0", "remainder < divisor", false, false)]
    [InlineData(
        "dividend = quotient * divisor + remainder exactly when divisor > 0",
        "remainder < divisor",
        false,
        false
    )]
    [InlineData("dividend = quotient * divisor + remainder or quotient = 0", "remainder < divisor", false, false)]
    [InlineData("not (dividend = quotient * divisor + remainder)", "remainder < divisor", false, false)]
    [InlineData("dividend = quotient * divisor + remainder", "remainder <= divisor", false, true)]
    [InlineData("dividend = quotient * divisor + remainder", "remainder < dividend", false, true)]
    [InlineData("dividend = quotient * divisor + remainder", "divisor < remainder", false, true)]
    [InlineData("dividend = quotient * divisor + remainder", "quotient < divisor", false, true)]
    [InlineData("dividend = quotient * divisor + remainder", "remainder < divisor when divisor > 1", false, true)]
    public void What_is_only_like_a_division_is_none(string equation, string bound, bool isStepped, bool isDoneByHand)
    {
        var datapath = With("divide-shared-register", $"law {equation}\nlaw {bound}");
        Assert.Equal(isStepped, Oracle.For(datapath) is not null);
        Assert.Equal(isDoneByHand, HandSum.Of(datapath) is not null);
    }

    /// <summary>Low is by how many places the remainder stands further up than the quotient's product says.</summary>
    [Theory]
    [InlineData("dividend * 2^5 = quotient * divisor * 2^2 + remainder", "remainder < divisor * 2^2", 3, 2)]
    [InlineData("remainder + 4 * divisor * quotient = 32dividend", "4divisor > remainder", 3, 2)]
    [InlineData("8 * dividend - remainder = quotient * divisor", "remainder < divisor", 3, 0)]
    [InlineData("dividend = quotient * divisor + remainder / 8", "remainder < 8 * divisor", 0, 3)]
    [InlineData("dividend * 4 = quotient * divisor * 4 + remainder", "remainder <= 4 * divisor - 1", 0, 2)]
    [InlineData("dividend * 2^5 = quotient * divisor * 2^2 + remainder", "remainder < divisor", null, 2)]
    [InlineData("dividend * 3 = quotient * divisor + remainder", "remainder < divisor", null, null)]
    [InlineData("dividend = 2 * quotient * divisor + remainder", "remainder < 2 * divisor", null, null)]
    [InlineData("dividend * 8 = quotient * divisor - remainder", "remainder < divisor", null, null)]
    [InlineData("divisor * 8 = quotient * dividend + remainder", "remainder < dividend", null, 0)]
    public void A_scaled_division_is_seen_with_its_places(string equation, string bound, int? k, int? low)
    {
        var datapath = With("divide-shared-register", $"law {equation}\nlaw {bound}");
        var shape = ClaimShape.Of(datapath.Laws).SingleOrDefault(s => s.Kind == ShapeKind.ScaledDivision);
        Assert.Equal(low, shape?.Places.Low);
        var oracle = Oracle.For(datapath);
        Assert.Equal(k is not null, oracle is ScaledQuotientOracle);
        Assert.True(k is null || shape!.Places.K == k);
    }

    [Theory]
    [InlineData("product = multiplicand * multiplier", true, true)]
    [InlineData("product = -multiplicand * multiplier", false, false)]
    [InlineData("product = multiplicand + multiplier", false, false)]
    [InlineData("product = multiplicand * multiplier * 2", false, false)]
    [InlineData("product = multiplicand * multiplier + 1", false, false)]
    [InlineData("product = multiplicand * multiplicand", false, true)]
    [InlineData("product >= multiplicand * multiplier", false, false)]
    [InlineData("product = multiplicand * multiplier when multiplier > 0", false, false)]
    public void What_is_only_like_a_product_is_none(string equation, bool isStepped, bool isDoneByHand)
    {
        var datapath = With("multiply-shared-register", $"law {equation}");
        Assert.Equal(isStepped, Oracle.For(datapath) is not null);
        Assert.Equal(isDoneByHand, HandSum.Of(datapath) is not null);
    }

    [Theory]
    [InlineData("radicand = root^2 - remainder")]
    [InlineData("radicand = root^3 + remainder")]
    [InlineData("radicand = remainder^2 + remainder")]
    [InlineData("root^2 >= radicand")]
    [InlineData("root^2 < radicand")]
    [InlineData("root^2 <= radicand + 1")]
    [InlineData("radicand = root^2 + remainder when root > 0")]
    public void What_is_only_like_a_root_is_none(string law) =>
        Assert.Null(HandSum.Of(With("root-restoring", $"law {law}")));

    /// <summary>A law of which a part is stepped along still says the rest: here something false.</summary>
    [Fact]
    public void What_is_joined_to_a_known_shape_is_checked_too()
    {
        const string Laws =
            "law dividend = quotient * divisor + remainder and remainder < divisor and quotient < divisor";
        var datapath = With("divide-shared-register", Laws);
        Assert.NotNull(Stepped(datapath).Oracle);
        var stepped = Failures(Stepped(datapath));
        Assert.Equal(Failures(CheckProgram.Of(datapath, null, OracleUse.Written)), stepped);
        Assert.NotEqual(Failures(Stepped(Walks.At("divide-shared-register", Width))), stepped);
    }

    private static Datapath With(string machine, string laws, int width = Width)
    {
        var source = Walks.Text(machine);
        var lines = source.Text.Split('\n').Where(l => !l.StartsWith("law ", StringComparison.Ordinal));
        var text = string.Join('\n', lines) + "\n" + laws + "\n";
        return Machines.Bound(Walks.Read(new Source(source.Name, text)), width);
    }

    private static string Shown(Datapath datapath)
    {
        var shape = ClaimShape.Of(datapath.Laws).MinBy(s => s.Kind);
        // Whether a root has a remainder is told by some of its laws only.
        var remainder = shape?.Kind == ShapeKind.Root ? null : shape?.Remainder;
        return $"{shape?.Kind} {shape?.First.Name} {shape?.Second?.Name} {shape?.Result.Name} {remainder?.Name} {shape?.Below is null}";
    }

    private static string Sum(Datapath datapath)
    {
        var sum = HandSum.Of(datapath)!;
        var walk = Walk.Of(datapath, [.. datapath.Operands.Select(o => (System.Numerics.BigInteger)3)]);
        return $"{sum.Kind} {sum.First.Name} {sum.Second?.Name} {sum.Result.Name} {PaperView.Suits(walk)}";
    }

    private static CheckProgram Stepped(Datapath datapath) => CheckProgram.Of(datapath, null, OracleUse.Stepped);

    private static int Gates(CheckProgram program) => program.Program.Instructions.Count;

    private static string Failures(CheckProgram program)
    {
        var run = new CheckRun(program, InterpretedEngine.Widest);
        run.Run(0, program.Space.Steps);
        return $"{run.Counts[0].Cases} {run.Counts[0].Failures}";
    }
}
