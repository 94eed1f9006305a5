using System.Text.RegularExpressions;
using Xunit;

namespace Reckoner.Cli.Tests;

/// <summary>What was set by hand, and what lies in the folder already, is neither lost nor read as somebody's work.</summary>
public sealed partial class MarkTests
{
    private void ChangeMarks(Func<string, string> change) =>
        File.WriteAllText(At("marks/marks.csv"), change(File.ReadAllText(At("marks/marks.csv"))));

    [Fact]
    public void Marks_set_by_hand_outlive_a_question_that_is_withdrawn_and_columns_that_move()
    {
        HandIn("s001", "html");
        Assert.Equal(0, Mark().Status);
        ChangeMarks(t => t.Replace(",18,18,6,3,", ",18,18,6,2.5,", StringComparison.Ordinal));
        Assert.Equal(0, Mark("--withdrawn", "2").Status);
        Assert.Equal(0, Mark().Status);
        Assert.Equal("17.5 18 6 2.5 2 1 2 2 2", Marks()["s001"]);
        // The first two columns behind the identifier change places.
        ChangeMarks(t => Regex.Replace(t, "(?m)^([^,\r\n]*),([^,\r\n]*),([^,\r\n]*),", "$1,$3,$2,"));
        Assert.Equal(0, Mark().Status);
        Assert.Equal("17.5 18 6 2.5 2 1 2 2 2", Marks()["s001"]);
        var kept = File.ReadAllText(At("marks/marks.csv"));
        foreach (
            var (from, to, said) in new[]
            {
                ("\r\ns001,", "\r\n1,", "line 2: the first cell is nobody's of this class"),
                ("s001,", "s001,\"", "line 2: a quote is open from here on."),
                ("Question 3", "Rest", "line 1: the heads are not those that were written there."),
            }
        )
        {
            File.WriteAllText(At("marks/marks.csv"), kept.Replace(from, to, StringComparison.Ordinal));
            var refused = Mark();
            Assert.Equal(2, refused.Status);
            Assert.Contains(said, Regex.Replace(refused.Errors, @"\s+", " "), StringComparison.Ordinal);
            Assert.DoesNotContain("Ada", refused.Errors, StringComparison.Ordinal);
        }
    }

    [Fact]
    public void A_folder_of_marks_is_nobodys_work()
    {
        HandIn("s001", "html");
        Assert.Equal(0, Mark().Status);
        Directory.Move(At("marks"), At("earlier"));
        Assert.Equal(0, Mark().Status);
        Assert.Equal(Full, Marks()["s001"]);
        Assert.Contains("(earlier)", Page("teacher.html"), StringComparison.Ordinal);
        var refused = Command.Run(
            "mark",
            folder,
            "--answers",
            made.At("out/keep/answers.json"),
            "-o",
            folder,
            "--overwrite"
        );
        Assert.Equal(2, refused.Status);
        Assert.Contains(
            "it is the folder that was handed in.",
            Regex.Replace(refused.Errors, @"\s+", " "),
            StringComparison.Ordinal
        );
    }
}
