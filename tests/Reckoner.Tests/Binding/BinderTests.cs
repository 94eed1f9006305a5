using Reckoner.Diagnostics;
using Xunit;

namespace Reckoner.Tests;

/// <summary>What is said about one line, as a whole: the place, the id, every fact, with widths in the symbol and at the chosen value.</summary>
public class BinderTests
{
    private const string Head = """
        machine test

        width n = 5 in 2..64

        operand word : n

        register A : signed n + 1 loads 0
        register D : n loads word
        register P : 2n loads 0
        part left "the left half" = P[2n-1..n]

        unit alu : adder n + 1


        """;

    /// <summary>The only diagnostic of a text; its line counts from the line behind the head.</summary>
    private static string Only(string line) =>
        Found.Whole(Assert.Single(Machines.Of(Head + line + "\n").At().Diagnostics, d => d.Severity == Severity.Error));

    [Theory]
    [InlineData("left <- 0:D", "‹0:D› width-mismatch: value = 0:D, size = n + 1 = 6, name = left, place = n = 5")]
    [InlineData("P:D <- P", "‹P› width-mismatch: value = P, size = 2n = 10, name = P:D, place = 3n = 15")]
    [InlineData("A:left <- 0", "")]
    [InlineData(
        "D <- P[2n-1..2]",
        "‹P[2n-1..2]› width-mismatch: value = P[2n-1..2], size = 2n - 2 = 8, name = D, place = n = 5"
    )]
    [InlineData("D <- D + P", "‹D + P› sides-differ: left = D, leftsize = n = 5, right = P, rightsize = 2n = 10")]
    [InlineData(
        "D <- A[n..1] + D[0]",
        "‹A[n..1] + D[0]› sides-differ: left = A[n..1], leftsize = n = 5, right = D[0], rightsize = 1"
    )]
    [InlineData("D <- 32", "‹32› does-not-fit: number = 32, size = n = 5, value = 32")]
    [InlineData("D <- 2^n", "‹2^n› does-not-fit: number = 2^n = 32, size = n = 5, value = 2^n")]
    [InlineData("A <- A - 2n^2", "‹2n^› power-unclear: value = 2n, name = n, factor = 2")]
    [InlineData(
        "A <- unsigned(A)",
        "‹unsigned(A)› sign-mismatch: value = unsigned(A), name = A, is = unsigned, say = signed"
    )]
    [InlineData(
        "D <- signed(D)",
        "‹signed(D)› sign-mismatch: value = signed(D), name = D, is = signed, say = unsigned"
    )]
    [InlineData("A <- A + 0:D + P[n..0] * D", "‹P[n..0]› reading-needed: purpose = purpose-multiply, value = P[n..0]")]
    [InlineData("A <- A + unsigned(0:D)", "‹A + unsigned(0:D)› signs-differ: signed = A, unsigned = unsigned(0:D)")]
    [InlineData("D <- extend(P)", "‹extend(P)› extend-cuts: from = 2n = 10, to = n = 5, value = extend(P)")]
    [InlineData("D <- shl(D, P)", "‹shl(D, P)› too-many-enter: entering = 2n = 10, size = n = 5, value = shl(D, P)")]
    [InlineData("D[n] <- 1", "‹n› slice-outside: slice = D[n], name = D, size = n = 5, place = n = 5, top = 4")]
    [InlineData(
        "D <- left[2n-1..n]",
        "‹2n-1..n› slice-outside: slice = left[2n-1..n], name = left, size = n = 5, place = 2n - 1 = 9, top = 4"
    )]
    [InlineData("D[0..1] <- 1", "‹0..1› slice-empty: slice = D[0..1], high = 0, low = 1")]
    [InlineData("D <- D - word", "‹word› operand-after-load: value = word")]
    [InlineData("D <- D + left via alu", "‹alu› via-width: unit = alu, size = n + 1 = 6, operands = n = 5")]
    [InlineData("D <- D and left via alu", "‹alu› via-idle: unit = alu, line = D and left")]
    [InlineData("D <- lefd", "‹lefd› unknown-name: name = lefd, near = left")]
    [InlineData("D <- extent(D)", "‹extent› unknown-function: name = extent, near = extend")]
    [InlineData("word <- D", "‹word› not-writable: name = word, is = a-operand")]
    [InlineData("D <- copies(D, 2)", "‹D› copies-of-word: size = n = 5, value = D")]
    public void Of_a_transfer(string line, string expected)
    {
        if (expected.Length == 0)
        {
            Assert.NotNull(Machines.Bound(Head + $"step s\n  {line}\n"));
        }
        else
        {
            Assert.Equal(expected, Only($"step s\n  {line}"));
        }
    }

    [Theory]
    [InlineData("register X : n - 5 loads 0", "‹n - 5› no-bits: name = X, size = n - 5 = 0")]
    [InlineData("register X : 3 - n loads 0", "‹3 - n› no-bits: name = X, size = 3 - n = -2")]
    [InlineData("register X : 2^4n loads 0", "‹2^4n› too-many-bits: name = X, size = 2^4n = 1,048,576, limit = 65536")]
    [InlineData("register X : n / 2 loads 0", "‹n / 2› not-whole: formula = n/2, value = 5/2, at =  (n = 5)")]
    [InlineData(
        "constant X = n / (n - 5)",
        "‹n / (n - 5)› division-by-zero: formula = n / (n - 5), limit = 262144, at =  (n = 5)"
    )]
    [InlineData("repeat n - 6\nend", "‹n - 6› count-negative: count = n - 6 = -1")]
    [InlineData("step s\n  D <- 0\n  P <- 0:D:left[3..0]", "‹D› read-after-write: name = D, line = 15, value = D")]
    [InlineData("step s\n  P <- 0\n  left[0] <- 0", "‹left[0]› written-twice: name = left[0], line = 15")]
    [InlineData("step s\n  if D\n    P <- 0\n  end", "‹D› condition-width: size = n = 5, value = D")]
    [InlineData(
        "step s\n  case D[1..0]\n    0b1: hold\n    else: hold\n  end",
        "‹0b1› label-length: label = 0b1, digits = 1, value = D[1..0], size = 2"
    )]
    [InlineData(
        "step s\n  case A\n    -1: hold\n    3, -1: hold\n    else: hold\n  end",
        "‹-1› arms-overlap: label = -1, line = 16"
    )]
    [InlineData(
        "step s\n  case D[1..0]\n    0bx1: hold\n    0b00: hold\n  end",
        "‹D[1..0]› arm-missing: value = D[1..0], missing = 10"
    )]
    [InlineData("step s\n  let a, b = D + left\nstep t\n  D <- a", "‹a› unknown-name: name = a, near = A")]
    [InlineData("unit alu : adder n", "‹alu› declared-twice: name = alu, line = 12")]
    [InlineData(
        "follows multiply-in-step",
        "‹multiply-in-step› unknown-machine: machine = multiply-in-step, near = multiply-in-steps"
    )]
    public void Of_other_lines(string lines, string expected) => Assert.Equal(expected, Only(lines));

    [Fact]
    public void Of_a_width_outside_its_range()
    {
        var found = Machines.Of(Head).At(65).Diagnostics;
        Assert.Equal(
            "‹n› width-out-of-range: name = n, value = 65, low = 2, high = 64, machine = test, way = way.in-range-or-widen",
            Found.Whole(Assert.Single(found))
        );
    }

    /// <summary>A text that says nothing wrong at one width may do so at another.</summary>
    [Fact]
    public void What_is_wrong_depends_on_the_width()
    {
        var machine = Machines.Of(Head + "step s\n  D <- P[9..5] + 17\n");
        Assert.NotNull(machine.At().Datapath);
        Assert.Equal(["slice-outside on line 15", "does-not-fit on line 15"], Found.Errors(machine.At(4).Diagnostics));
    }
}
