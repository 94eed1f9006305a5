using System.Numerics;
using Reckoner.Checking;
using Reckoner.Datapaths;
using Xunit;

namespace Reckoner.Tests;

/// <summary>The check that goes word by word, against the gates where there are some, and by hand where there are none.</summary>
public class WordCheckTests
{
    public static TheoryData<string> Names => [.. Machines.Catalogue];

    [Theory]
    [MemberData(nameof(Names))]
    public void It_counts_what_the_gates_count(string name) => Compare(name, bits => bits <= QuickBits);

    [Theory]
    [Trait("Length", "long")]
    [MemberData(nameof(Names))]
    public void It_counts_what_the_gates_count_of_more_operands(string name) =>
        Compare(name, bits => bits is > QuickBits and <= MostBits);

    private const int QuickBits = 8;
    private const int MostBits = 12;

    private static void Compare(string name, Predicate<int> isDone)
    {
        var machine = Machines.Named(name);
        foreach (var width in Machines.Widths(machine, 5))
        {
            var datapath = Machines.Bound(machine, width);
            if (!isDone(datapath.Operands.Sum(o => o.Width)))
            {
                continue;
            }
            var followed = machine.Followed is null ? null : Machines.Bound(machine.Followed, width);
            Assert.Equal(ByGates(datapath, followed), Lines(ByWords(datapath, followed)));
        }
    }

    [Theory]
    [InlineData("when not borrow else", "when borrow else")]
    [InlineData("= left - D", "= left - shl(D, 0)")]
    [InlineData("right[0] <- not borrow", "right[0] <- borrow")]
    public void It_finds_the_failures_that_the_gates_find(string stretch, string replacement)
    {
        const string Text = """
            machine divide

            width n = 4 in 2..8

            operand dividend : n
            operand divisor : n
            given divisor > 0

            register R : 2n loads extend(dividend)
            register D : n loads divisor
            part left = R[2n-1..n]
            part right = R[n-1..0]

            repeat n
              R <- shl(R, 0)
              then
              let difference, borrow = left - D
              left <- difference when not borrow else left
              right[0] <- not borrow
            end

            result quotient = right
            result remainder = left

            law dividend = quotient * divisor + remainder
            law remainder < divisor
            outside quotient = 2^n - 1 and remainder = dividend
            """;
        Assert.Contains(stretch, Text, StringComparison.Ordinal);
        var wrong = Machines.Bound(Text.Replace(stretch, replacement, StringComparison.Ordinal));
        var counts = ByWords(wrong, Machines.Bound(Text));
        Assert.NotNull(counts[0].Smallest);
        Assert.NotNull(counts[2].Smallest);
        Assert.Equal(ByGates(wrong, Machines.Bound(Text)), Lines(counts));
    }

    private const string Powers = """
        machine powers

        width n = 8 in 2..16

        operand word : n
        given 3^word < 3^200

        register A : n loads word

        step keep
          A[0] <- A[0]

        result same = A

        law 3^same = 3^word
        outside 3^same >= 3^200
        """;

    /// <summary>Bit 0 turned over breaks the law everywhere; 200 turned over becomes 201, and 201 becomes 200.</summary>
    [Fact]
    public void Powers_by_the_case_are_judged_although_no_gates_can_be_made()
    {
        var right = Machines.Bound(Powers);
        Assert.Null(CheckProgram.IfGates(right, null, OracleUse.Written));
        Assert.Equal(["laws 200 0 -", "outside 56 0 -"], Lines(ByWords(right, null)));
        var wrong = Machines.Bound(Powers.Replace("A[0] <- A[0]", "A[0] <- not A[0]", StringComparison.Ordinal));
        Assert.Equal(["laws 200 200 0", "outside 56 0 -"], Lines(ByWords(wrong, null)));
    }

    /// <summary>Gates for it would take gigabytes.</summary>
    [Fact]
    public void Numbers_too_long_for_gates_are_judged_word_by_word()
    {
        var text = Powers
            .Replace("3^word < 3^200", "word < 200", StringComparison.Ordinal)
            .Replace("3^same = 3^word", "same^1000 = word^1000", StringComparison.Ordinal)
            .Replace("outside 3^same >= 3^200\n", "", StringComparison.Ordinal)
            .ReplaceLineEndings("\n");
        var datapath = Machines.Bound(text[..text.LastIndexOf("outside", StringComparison.Ordinal)]);
        Assert.Null(CheckProgram.IfGates(datapath, null, OracleUse.Written));
        Assert.Equal(["laws 200 0 -"], Lines(ByWords(datapath, null)));
    }

    [Fact]
    public void A_stop_leaves_whole_steps()
    {
        var datapath = Walks.At("divide-still-divisor", 8);
        var check = new WordCheck(datapath, null);
        using var stop = new CancellationTokenSource();
        var (to, counts) = check.Run(0, check.Space.Steps, done => Stop(done), stop.Token);
        Assert.Equal(2, to);
        Assert.Equal(2 * check.Space.Lanes, counts.Aggregate(BigInteger.Zero, (sum, c) => sum + c.Cases));

        void Stop(long done)
        {
            if (done == 2)
            {
                stop.Cancel();
            }
        }
    }

    private static IReadOnlyList<SectionCount> ByWords(Datapath datapath, Datapath? followed)
    {
        var check = new WordCheck(datapath, followed);
        return check.Run(0, check.Space.Steps).Counts;
    }

    private static List<string> ByGates(Datapath datapath, Datapath? followed)
    {
        var program = CheckProgram.Of(datapath, followed, OracleUse.Written);
        var run = new CheckRun(program, InterpretedEngine.Widest);
        run.Run(0, program.Space.Steps);
        return Lines(run.Counts);
    }

    private static List<string> Lines(IReadOnlyList<SectionCount> counts) =>
        [
            .. counts.Select(c =>
                $"{c.Name} {c.Cases} {c.Failures} {(c.Smallest is { } s ? string.Join(' ', s.Operands) : "-")}"
            ),
        ];
}
