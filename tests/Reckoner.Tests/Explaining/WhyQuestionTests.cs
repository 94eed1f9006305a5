using Reckoner.Diagnostics;
using Reckoner.Explaining;
using Reckoner.Questions;
using Reckoner.Reporting;
using Reckoner.Running;
using Reckoner.Words;
using Xunit;

namespace Reckoner.Tests.Explaining;

/// <summary>What was got, as it is told, and what is refused.</summary>
public class WhyQuestionTests
{
    private const string Machine = "divide-still-divisor";

    /// <summary>Of 29 / 6 at 5 bits.</summary>
    private static readonly string Right = Table(29, 6);

    private static string Table(int dividend, int divisor)
    {
        var datapath = Machines.Bound(Machines.Named(Machine), 5);
        return string.Join(
            '\n',
            Walk.Of(datapath, [dividend, divisor])
                .Rows.Select(r =>
                    $"{r.Cycle},{string.Join(',', r.Registers.Zip(datapath.Registers, (b, g) => Bits(b, g.Width)))}"
                )
                .Prepend($"cycle,{string.Join(',', datapath.Registers.Select(r => r.Name))}")
        );

        static string Bits(System.Numerics.BigInteger bits, int width) => ((int)bits).ToString($"b{width}", null);
    }

    private static Answer<Verdict> Asked(string? got, string? table, string operands = "29 6") =>
        new WhyQuestion(new AskedMachine(Machines.Named(Machine)) { Widths = 5 })
        {
            Operands = [.. operands.Split(' ').Select(AskedOperand.Read)],
            Got = got,
            Table = table,
        }.Ask();

    private static Id[] Refused(string? got, string? table, string operands = "29 6") =>
        [.. Errors(Asked(got, table, operands)).Select(d => d.Id)];

    private static IEnumerable<Diagnostic> Errors(Answer<Verdict> answer) =>
        answer.Found.Select(f => f.Diagnostic).Where(d => d.Severity == Severity.Error);

    private static VerdictKind Kind(string? got, string? table)
    {
        var answer = Asked(got, table);
        Assert.True(answer.IsGiven, string.Join("; ", answer.Found.Select(f => f.Diagnostic)));
        return answer.Data.Kind;
    }

    [Fact]
    public void What_is_right_is_right()
    {
        Assert.Equal(VerdictKind.Right, Kind(null, Right));
        Assert.Equal(VerdictKind.Right, Kind("remainder=5", Right));
        Assert.Equal(VerdictKind.Right, Kind("quotient = 4, remainder =5", null));
        Assert.Equal(VerdictKind.Right, Kind("R=00101?????", null));
    }

    [Theory]
    [InlineData("R=")]
    [InlineData("R=??")]
    [InlineData("cycle 3: R=? Q=")]
    public void What_says_nothing_is_refused(string got) => Assert.Equal([Id.GotForm], Refused(got, null));

    [Theory]
    [InlineData("cycle,R,D,Q\n1,?,?,?")]
    [InlineData("cycle,R,D,Q\n")]
    public void A_table_that_says_nothing_is_refused(string table)
    {
        Assert.Equal([Id.TableEmpty], Refused(null, table));
        Assert.Equal([Id.TableEmpty], Refused("remainder=5", table));
    }

    [Fact]
    public void Bits_that_are_not_known_are_not_zeros() =>
        Assert.Equal(VerdictKind.Right, Kind("cycle 1: R=????0", null));

    /// <summary>Nothing is asked for here with operands of which nothing is said to be right.</summary>
    [Fact]
    public void Operands_that_the_machine_is_not_for_are_refused()
    {
        var diagnostic = Assert.Single(Errors(Asked("quotient=1", null, "29 0")));
        Assert.Equal(Id.OperandsOutsideGiven, diagnostic.Id);
        Assert.Equal(
            "Choose other operands.",
            Vocabulary.English.Say("diagnostic.operands-outside-given.try", diagnostic.Facts)
        );
    }

    [Fact]
    public void Registers_stand_over_the_table()
    {
        Assert.NotEqual(VerdictKind.Right, Kind("cycle 3: Q=11111", Right));
        var table = Right.Split('\n');
        table[4] = "3,,,";
        var open = string.Join('\n', table);
        Assert.Equal(VerdictKind.Right, Kind(null, open));
        Assert.NotEqual(VerdictKind.Right, Kind("cycle 3: Q=11111", open));
    }

    [Fact]
    public void Results_beside_a_part_of_a_table_count() =>
        Assert.NotEqual(VerdictKind.Right, Kind("load: D=00110; remainder=4", null));

    [Fact]
    public void Behind_a_cycle_registers_are_offered_alone()
    {
        var diagnostic = Assert.Single(Errors(Asked("cycle 3: remainder=5", null)));
        Assert.Equal(Id.GotName, diagnostic.Id);
        var said = Vocabulary.English.Say("diagnostic.got-name.try", diagnostic.Facts);
        Assert.Equal("It has R, D, Q; results have no cycle.", said);
    }

    [Fact]
    public void A_right_table_with_a_wrong_result_has_its_cause_named()
    {
        var verdict = Asked("remainder=4", Right).Data!;
        Assert.Equal((VerdictKind.Perhaps, 1), (verdict.Kind, verdict.Causes));
        Assert.IsType<ResultOff>(Assert.Single(verdict.Explanations[0].Mishaps));
    }

    [Theory]
    [InlineData("en", "Where digits are missing in front, zeros were read.")]
    [InlineData("de", "Wo vorn Ziffern fehlen, wurden Nullen gelesen.")]
    public void What_was_taken_for_granted_is_noted(string language, string note)
    {
        var verdict = Asked(null, Right.Replace(",0", ",", StringComparison.Ordinal)).Data!;
        var text = DocumentText.Of(WhyDocument.Of(verdict, Vocabulary.Of(language)!), 200);
        Assert.Contains(note, text);
    }
}
