using System.Numerics;
using Reckoner.Checking;
using Reckoner.Datapaths;
using Xunit;

namespace Reckoner.Tests;

/// <summary>Which expectation a check takes.</summary>
public class FewestGatesTests
{
    [Theory]
    [InlineData("divide-shared-register", true)]
    [InlineData("multiply-booth", true)]
    [InlineData("multiply-shared-register", false)]
    [InlineData("divide-signed-truncating", false)]
    [InlineData("divide-srt-radix-4", true)]
    public void The_expectation_is_stepped_along_where_that_takes_fewer_gates(string machine, bool isStepped)
    {
        var datapath = Walks.At(machine, 8);
        var taken = CheckProgram.OfFewestGates(datapath, null)!;
        Assert.Equal(isStepped, taken.Oracle is not null);
        var fewest = Enum.GetValues<OracleUse>().Min(use => Gates(CheckProgram.Of(datapath, null, use)));
        Assert.Equal(fewest, Gates(taken));
    }

    private static int Gates(CheckProgram program) => program.Program.Instructions.Count;

    [Fact]
    public void Where_a_claim_cannot_become_gates_there_is_none()
    {
        var machine = Machines.Of(
            """
            machine powers

            width n = 8 in 2..16

            operand word : n

            register A : n loads word

            step keep
              hold

            result same = A

            law 3^same = 3^word
            """
        );
        Assert.Null(CheckProgram.OfFewestGates(Machines.Bound(machine, 8), null));
        Assert.NotNull(CheckProgram.OfFewestGates(Machines.Bound(machine, 3), null));
    }

    /// <summary>Divides 2^places times the dividend, which nothing keeps from being 0 or the quotient from being too long.</summary>
    private static Datapath Scaled(int quotient, int places, string equation, int width = 7)
    {
        var machine = Machines.Of(
            $"""
            machine scaled

            width n = 4 in 2..16
            parameter q = {quotient} in 1..32

            operand dividend : n
            operand divisor : n

            register R : n + 1 loads 0
            register A : n + {places} loads dividend:copies(0, {places})
            register D : n loads divisor
            register Q : q loads 0

            repeat n + {places}
              let up = shl(R, A[n+{places}-1])
              let less, borrow = up - extend(D, n + 1)
              R <- up when borrow else less
              Q <- shl(Q, not borrow)
              A <- shl(A, 0)
            end

            result quotient = Q
            result remainder = R[n-1..0]:0b00

            law {equation}
            law remainder < divisor * 2^2
            """
        );
        return Machines.Bound(machine, width);
    }

    /// <summary>From one step to the next the quotient grows by less than it is wide, by more, and by as much; what is left is further up.</summary>
    [Theory]
    [InlineData(7, 3)]
    [InlineData(2, 3)]
    [InlineData(4, 3)]
    [InlineData(10, 3)]
    [InlineData(13, 3)]
    [InlineData(4, 5)]
    public void A_scaled_division_stepped_along_fails_where_it_fails_as_written(int quotient, int places)
    {
        var datapath = Scaled(quotient, places, $"dividend * 2^{places + 2} = quotient * divisor * 2^2 + remainder");
        var stepped = CheckProgram.Of(datapath, null, OracleUse.Stepped);
        Assert.IsType<ScaledQuotientOracle>(stepped.Oracle);
        var written = Counts(CheckProgram.Of(datapath, null, OracleUse.Written));
        Assert.Equal(written, Counts(stepped));
        Assert.InRange(written.Failures, 1, written.Cases - 1);
    }

    private static (BigInteger Cases, BigInteger Failures, string Smallest) Counts(CheckProgram program)
    {
        Assert.True(program.Space.Steps > 1);
        var run = new CheckRun(program, InterpretedEngine.Widest);
        run.Run(0, program.Space.Steps);
        var count = run.Counts[0];
        return (count.Cases, count.Failures, string.Join(' ', count.Smallest!.Operands));
    }

    private static CheckProgram? Far(int places) =>
        CheckProgram.OfFewestGates(Scaled(7, 3, $"dividend * 2^{places} = quotient * divisor * 2^2 + remainder"), null);

    /// <summary>Scaled so far that each first step would run many thousands of gates; as it is written the product is a shift.</summary>
    [Fact]
    public void Where_it_would_be_too_long_a_scaled_division_is_not_stepped_along()
    {
        Assert.IsType<ScaledQuotientOracle>(Far(1_000)!.Oracle);
        Assert.Null(Far(10_000)!.Oracle);
        Assert.Null(Far(40_000)!.Oracle);
    }

    /// <summary>A number beyond all bounds is none, in gates as word by word: what is said with it is never so.</summary>
    [Fact]
    public void What_has_no_value_fails_for_every_operand()
    {
        var (cases, failures, _) = Counts(Far(200_000)!);
        Assert.Equal(cases, failures);
        var datapath = Scaled(7, 3, "dividend * 2^200000 = quotient");
        var words = new WordCheck(datapath, null);
        var (_, counts) = words.Run(0, 1, null, TestContext.Current.CancellationToken);
        Assert.Equal(counts[0].Cases, counts[0].Failures);
    }
}
