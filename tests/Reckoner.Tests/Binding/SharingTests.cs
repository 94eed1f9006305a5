using Reckoner.Datapaths;
using Xunit;

namespace Reckoner.Tests;

/// <summary>The sharing rule: operations of one kind and width that never act in the same cycle on the same path are one unit.</summary>
public class SharingTests
{
    private const string Head = """
        machine test

        width n = 4 in 2..64

        operand word : n

        register A : n loads word
        register B : n loads word
        register C : 2n loads 0


        """;

    /// <summary>"adder 4 x2": every unit with its width and the number of operations it serves, in the order they are met.</summary>
    private static string Units(string lines) =>
        string.Join(", ", Machines.Bound(Head + lines + "\n").Units.Where(u => u.Uses.Count > 0).Select(Text));

    private static string Text(Unit unit)
    {
        var kind = unit.Kind switch
        {
            UnitKind.Adder => "adder",
            UnitKind.Multiplier => "multiplier",
            UnitKind.Comparator => "comparator",
            UnitKind.CarrySaveAdder => "csa",
        };
        var name = unit.Name is null ? kind : $"{unit.Name} ({kind})";
        return $"{name} {unit.Size.Count} x{unit.Uses.Count}";
    }

    [Theory]
    [InlineData("step s\n  A <- A + B\n  B <- B - 1", "same path", "adder 4 x1, adder 4 x1")]
    [InlineData("step s\n  A <- A + B\n  then\n  B <- B - A", "two moments of one cycle", "adder 4 x1, adder 4 x1")]
    [InlineData("step s\n  A <- A + B\nstep t\n  B <- B - A", "two steps", "adder 4 x2")]
    [InlineData("repeat n\n  step s\n    A <- A + B\n  step t\n    B <- -B\nend", "two steps of a loop", "adder 4 x2")]
    [InlineData("step s\n  if A[0]\n    A <- A + B\n  else\n    A <- A - B\n  end", "two branches", "adder 4 x2")]
    [InlineData(
        "step s\n  if A[0]\n    A <- A + B\n  end\n  B <- B + 1",
        "a branch and what is always done",
        "adder 4 x1, adder 4 x1"
    )]
    [InlineData(
        "step s\n  if A[0]\n    A <- A + B\n  end\n  if B[0]\n    B <- B + 1\n  end",
        "two ifs that may both act",
        "adder 4 x1, adder 4 x1"
    )]
    [InlineData(
        "step s\n  case A[1..0]\n    0b00: A <- A + B\n    0b01: A <- A - B\n    0b10: B <- -B\n    else: hold\n  end",
        "three arms",
        "adder 4 x3"
    )]
    [InlineData(
        "step s\n  if A[0]\n    if A[1]\n      A <- A + 1\n    else\n      A <- A + 2\n    end\n  else\n    A <- A + 3\n  end",
        "branches of branches",
        "adder 4 x3"
    )]
    [InlineData(
        "step s\n  let x = A + 1 when B[0] else A - 1\n  A <- x",
        "both sides of a choice of values",
        "adder 4 x1, adder 4 x1"
    )]
    [InlineData("step s\n  A <- A + B\nstep t\n  C <- C + 1", "two widths", "adder 4 x1, adder 8 x1")]
    [InlineData("step s\n  C <- A * B\nstep t\n  A <- A + B", "two kinds", "multiplier 4 x1, adder 4 x1")]
    [InlineData("step s\n  B[0] <- A < B\nstep t\n  A[0] <- A >= B", "comparators", "comparator 4 x2")]
    [InlineData("step s\n  B[0] <- signed(A) < 0", "a sign", "")]
    [InlineData("step s\n  B[0] <- A = 3", "a decoding", "")]
    [InlineData("step s\n  let sum, carry = csa(A, B, A)\n  A <- sum\n  B <- carry", "full adders", "csa 4 x1")]
    [InlineData(
        "register D : n loads word + 1\nregister E : n loads word - 1\nstep s\n  A <- A + 1",
        "at the load, and after it",
        "adder 4 x2, adder 4 x1"
    )]
    [InlineData(
        "repeat at most n while A < B\n  A[0] <- A < C[n-1..0]\nend",
        "a loop's condition and its first step",
        "comparator 4 x1, comparator 4 x1"
    )]
    [InlineData(
        "repeat at most n while A + 1 <> 0\n  A <- B\nend\nstep s\n  B <- B + 1\nstep t\n  B <- B + 2",
        "a loop's condition and the first step behind it",
        "adder 4 x2, adder 4 x1"
    )]
    [InlineData(
        "repeat at most n while A + 1 <> 0\n  A <- B\nend\nrepeat at most n while B + 1 <> 0\n  B <- A\nend",
        "conditions of loops that may both be left at once",
        "adder 4 x1, adder 4 x1"
    )]
    [InlineData(
        "repeat at most n while A + 1 <> 0\n  A <- B\nend\nrepeat 2\n  B <- A\nend\n"
            + "repeat at most n while B + 1 <> 0\n  B <- A\nend",
        "conditions of loops between which another is always gone round",
        "adder 4 x2"
    )]
    [InlineData(
        "repeat at most n while A + 1 <> 0\n  A <- B\nend\nrepeat n - 4\n  B <- A + 1\nend\n"
            + "repeat at most n - 4 while B + 1 <> 0\n  B <- A\nend\nstep s\n  B <- B + 2",
        "a loop's condition and a step behind loops that are never gone round",
        "adder 4 x3, adder 4 x1"
    )]
    public void Unnamed_operations_share_what_is_free(string lines, string between, string expected) =>
        Assert.Equal((between, expected), (between, Units(lines)));

    [Theory]
    [InlineData("unit alu : adder n\nstep s\n  A <- A + B", "alu (adder) 4 x1")]
    [InlineData(
        "unit alu : adder n\nunit bus : adder n\nstep s\n  A <- A + B via bus\n  B <- B + 1",
        "alu (adder) 4 x1, bus (adder) 4 x1"
    )]
    [InlineData("unit alu : adder n\nstep s\n  B <- B + 1\n  A <- A + 1 via alu", "alu (adder) 4 x1, adder 4 x1")]
    [InlineData("unit alu : adder 2n\nstep s\n  A <- A + B", "adder 4 x1")]
    [InlineData(
        "unit mul : multiplier n by 2n\nstep s\n  C <- unsigned((A * C)[2n-1..0]) via mul",
        "mul (multiplier) 4 x1"
    )]
    public void Named_units_are_respected_first(string lines, string expected) => Assert.Equal(expected, Units(lines));

    [Theory]
    [InlineData("unit alu : adder n\nstep s\n  A <- A + 1 via alu\n  B <- B + 1 via alu", "unit-busy on line 14")]
    [InlineData(
        "unit alu : adder n\nstep s\n  A <- A + 1 via alu\n  then\n  B <- B + 1 via alu",
        "unit-busy on line 15"
    )]
    [InlineData(
        "unit alu : adder n\nstep s\n  if A[0]\n    A <- A + 1 via alu\n  end\n  B <- B + 1 via alu",
        "unit-busy on line 16"
    )]
    [InlineData(
        "unit alu : adder n\nstep s\n  if A[0]\n    A <- A + 1 via alu\n  else\n    B <- B + 1 via alu\n  end",
        ""
    )]
    [InlineData("unit alu : adder n\nstep s\n  A <- A + 1 via alu\nstep t\n  B <- B + 1 via alu", "")]
    public void A_named_unit_works_once_in_a_cycle_on_a_path(string lines, string expected) =>
        Assert.Equal(expected, string.Join("; ", Found.Errors(Machines.Of(Head + lines + "\n").At().Diagnostics)));
}
