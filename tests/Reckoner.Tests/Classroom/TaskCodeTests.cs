using Reckoner.Classroom;
using Reckoner.Reporting;
using Reckoner.Running;
using Reckoner.Words;
using Xunit;

namespace Reckoner.Tests.Classroom;

/// <summary>Tasks in links, operands from a number, and the code that comes back.</summary>
public class TaskCodeTests
{
    private const string Link = "https://example.org/page/#machine=divide-still-divisor&width.n=4&task=all&sums=2";

    private static readonly AssignedSums Task = TaskLink.Read(Link)!;

    private static readonly SumDone[] Done = [new(2, 1, 3, CauseKind.Decision), new(0, 0, 0, null)];

    [Fact]
    public void A_code_says_what_was_written_into_it()
    {
        var read = TaskCode.Read(Task, TaskCode.Of(Task, "AB4711", Done));
        Assert.Equal("AB4711", read.Number);
        Assert.Equal(Done, read.Sums);
    }

    [Fact]
    public void Letters_that_are_taken_for_others_and_small_ones_count_alike()
    {
        var code = TaskCode.Of(Task, "4711", Done);
        var typed = " " + code.ToLowerInvariant().Replace('0', 'o').Replace("1", "l", StringComparison.Ordinal) + " ";
        // The number is what it is; only the groups behind it are spelled.
        typed = "4711" + typed.Trim()["4711".Length..];
        Assert.Equal(Done, TaskCode.Read(Task, typed).Sums);
    }

    /// <summary>Of a million changes one may fit by chance; every single letter that is mistyped must be found here.</summary>
    [Fact]
    public void Every_single_letter_that_is_mistyped_is_found()
    {
        var code = TaskCode.Of(Task, "4711", Done);
        for (var i = 0; i < code.Length; i++)
        {
            foreach (var letter in "0123456789ABCDEFGHJKMNPQRSTVWXYZ".Where(c => c != code[i] && code[i] != '-'))
            {
                var mistyped = code[..i] + letter + code[(i + 1)..];
                Assert.True(TaskCode.Read(Task, mistyped).Sums is null, mistyped);
            }
            Assert.Null(TaskCode.Read(Task, code[..i]).Sums);
        }
    }

    [Theory]
    [InlineData("machine=divide-still-divisor&width.n=5&task=all&sums=2")]
    [InlineData("machine=divide-still-divisor&width.n=4&task=bits&sums=2")]
    [InlineData("machine=divide-still-divisor&width.n=4&task=all&sums=2&hints=no")]
    [InlineData("machine=divide-shared-register&width.n=4&task=all&sums=2")]
    public void The_code_of_another_task_does_not_fit(string other) =>
        Assert.Null(TaskCode.Read(TaskLink.Read(other)!, TaskCode.Of(Task, "4711", Done)).Sums);

    [Fact]
    public void Operands_come_from_the_number_alone_and_are_worth_a_walk()
    {
        var numbers = Enumerable.Range(1000, 60).Select(n => $"{n}").ToList();
        var drawn = numbers.Select(n => Task.For(n)!).ToList();
        Assert.Equal(drawn, numbers.Select(n => TaskLink.Read("#" + Link.Split('#')[1])!.For(n)!));
        foreach (var sums in drawn)
        {
            Assert.Equal(2, sums.Count);
            Assert.NotEqual(sums[0], sums[1]);
            Assert.All(sums, o => Assert.True(Task.Datapath.IsGiven(o)));
            var walk = Walk.Of(Task.Datapath, sums[0]);
            Assert.InRange((int)walk.Results[0], 1, 14);
        }
        Assert.True(drawn.Select(d => string.Join(',', d[0])).Distinct().Count() > 30);
    }

    [Theory]
    [InlineData("")]
    [InlineData("#machine=divide-still-divisor")]
    [InlineData("#machine=divide-still-divisor&task=everything")]
    [InlineData("#machine=divide-still-divisor&task=all&sums=9")]
    [InlineData("#machine=nobody&task=all")]
    [InlineData("#machine=divide-still-divisor&width.n=1&task=all")]
    [InlineData("#text=xx&task=all")]
    public void What_sets_no_task_is_none(string link) => Assert.Null(TaskLink.Read(link));

    [Fact]
    public void Where_no_code_fits_the_table_says_so()
    {
        var document = CodesDocument.Of(Task, ["4711-0000-0000-0000"], Vocabulary.English);
        Assert.Equal("does not fit", $"{document.Grids.Single().Rows.Single().Cells[^1]}");
        Assert.Contains("does not fit", DocumentText.Of(document, 80), StringComparison.Ordinal);
    }

    [Fact]
    public void Codes_are_told_with_their_operands_and_those_that_misfit_or_come_twice()
    {
        var code = TaskCode.Of(Task, "4711", Done);
        var document = CodesDocument.Of(Task, [code, "4711-0000-0000-0000", code], Vocabulary.English);
        var grid = document.Grids.Single();
        Assert.Equal(5, grid.Rows.Count);
        Assert.Equal(
            ["4711", .. Task.For("4711")![0].Select(o => $"{o}"), "5", "3", "1", "3", "a decision"],
            grid.Rows[0].Cells.Select(c => $"{c}")
        );
        var said = string.Join('\n', document.Blocks.OfType<Tables.Paragraph>().Select(p => $"{p.Text}"));
        Assert.Contains("another version of the page: 4711-0000-0000-0000.", said, StringComparison.Ordinal);
        Assert.Contains("Several codes have this number: 4711.", said, StringComparison.Ordinal);
    }
}
