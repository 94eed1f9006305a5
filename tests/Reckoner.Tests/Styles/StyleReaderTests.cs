using Reckoner.Diagnostics;
using Reckoner.Reporting;
using Reckoner.Styles;
using Reckoner.Tables;
using Reckoner.Words;
using Xunit;

namespace Reckoner.Tests;

/// <summary>House styles: what is read, and what is said of each way to get one wrong.</summary>
public class StyleReaderTests
{
    public static TheoryData<string> Examples => [.. Styled.Examples];

    [Theory]
    [MemberData(nameof(Examples))]
    public void Every_worked_style_is_read_without_a_word_and_has_a_title(string name) =>
        Assert.NotNull(Styled.Example(name).Title);

    [Fact]
    public void There_are_at_least_five_worked_styles() => Assert.True(Styled.Examples.Count >= 5);

    [Fact]
    public void Every_kind_of_line_is_read()
    {
        var style = Styled.Read(
            """
            -- a comment, and a blank line

            style "Ours -- with hyphens"  -- behind it too
            language en
            rows per moment that write
            base 16
            group 2
            subtraction by complement
            paper a5 landscape
            sums with colon
            label load "at first"
            label step add "{round} +"
            label moment 2 "{cycle}b"
            label "{cycle}"
            column label
            column A or left if there "AC" base 10 group none
            column moves A "shift A"
            """
        );
        Assert.Equal("Ours -- with hyphens", style.Title);
        Assert.Equal("en", style.Language);
        Assert.Equal((RowUnit.Moment, true), (style.Rows, style.LeavesOutIdle));
        Assert.Equal(new Digits(16, 2), style.Digits);
        Assert.True(style.ByComplement);
        Assert.Equal(new Paper("a5", IsLandscape: true), style.Paper);
        Assert.Equal(HandLayout.Colon, style.Sums);
        Assert.Equal(
            [
                new LabelRule(LabelCondition.Load, null, 0, null, "at first"),
                new LabelRule(LabelCondition.Step, "add", 0, null, "{round} +"),
                new LabelRule(LabelCondition.Moment, null, 2, null, "{cycle}b"),
                new LabelRule(LabelCondition.Always, null, 0, null, "{cycle}"),
            ],
            style.Labels
        );
        Assert.Equal([ColumnKind.Label, ColumnKind.Named, ColumnKind.Moves], style.Columns.Select(c => c.Kind));
        var column = style.Columns[1];
        Assert.Equal(["A", "left"], column.Names);
        Assert.Equal((true, "AC", 10, 0), (column.IsOptional, column.Heading, column.Base, column.Group));
    }

    [Fact]
    public void Carriage_returns_and_an_empty_text_are_no_matter()
    {
        Assert.Equal(RowUnit.Round, Styled.Read("rows per round\r\nbase 2\r\n").Rows);
        Assert.Empty(Styled.Read("").Columns);
    }

    /// <summary>A message for each slip, whole.</summary>
    [Fact]
    public void What_is_wrong_is_said_like_this()
    {
        string[] slips =
        [
            "colum A",
            "\"column\" A",
            "base 7",
            "base",
            "rows per cyle",
            "rows cycle",
            "rows per cycle that change",
            "group 0",
            "group 65",
            "language xx",
            "paper a4 upright",
            "style Title",
            "style \"open",
            "subtraction by carry",
            "label \"{cylce}\"",
            "label moment \"x\"",
            "column",
            "column \"A\"",
            "column A or",
            "column A if",
            "column A \"one\" \"two\"",
            "column A base 3",
            "base 2\nbase 8",
        ];
        var said = slips.Select(slip =>
        {
            var found = Styled.Found(slip);
            Assert.Single(found);
            return DiagnosticText.Of(found, Vocabulary.English, 80);
        });
        Snapshot.Match(nameof(What_is_wrong_is_said_like_this), string.Concat(said));
    }

    [Fact]
    public void Every_line_that_is_wrong_is_told_once() =>
        Assert.Equal(
            [("style-word", 1), ("style-value", 3), ("unclosed-quote", 4)],
            Styled.Found("colum A B C\nbase 2\nrows per x y\nstyle \"").Select(d => (d.Id.Name, d.Line))
        );

    [Fact]
    public void A_column_that_the_machine_does_not_have_is_told_with_its_line_unless_it_is_optional()
    {
        var walk = Walks.Of(Walks.At("divide-still-divisor", 4), 13, 3);
        var (document, found) = WalkDocument.Of(
            walk,
            Styled.Read("column cycle\ncolumn Rr \"Rem\"\ncolumn X if there\n"),
            Vocabulary.English,
            oneByOne: false
        );
        Assert.Null(document);
        Assert.Equal(
            """
            line 2 of test.style                                                style-column
                  column ‹Rr› "Rem"
               divide-still-divisor has nothing called Rr to make a column of.
               It has: R, left, D, Q, difference, borrow, dividend, divisor. With "if there"
               behind its name the column is left out where there is none.


            """,
            DiagnosticText.Of(found, Vocabulary.English, 80)
        );
    }

    [Theory]
    [InlineData("column X if there\ncolumn Y if there\n")]
    [InlineData("column X if there\nrows per round\n")]
    public void A_style_of_whose_columns_the_machine_has_none_is_refused(string style)
    {
        var walk = Walks.Of(Walks.At("divide-still-divisor", 4), 13, 3);
        var (document, found) = WalkDocument.Of(walk, Styled.Read(style), Vocabulary.English, oneByOne: false);
        Assert.Null(document);
        var one = Assert.Single(found);
        Assert.Equal(("style-without-columns", 1), (one.Id.Name, one.Line));
    }

    [Fact]
    public void Whatever_the_text_is_reading_it_never_throws()
    {
        const string Alphabet = "column label base group rows per style \"-- {}\n 16 or if there A Q \"x\" moment load";
        var words = Alphabet.Split(' ');
        var seed = Seeds.Next();
        var random = new Random(seed);
        for (var i = 0; i < 3000; i++)
        {
            var text = string.Join(
                " ",
                Enumerable.Range(0, random.Next(12)).Select(_ => words[random.Next(words.Length)])
            );
            Seeds.Told(
                seed,
                text,
                () =>
                {
                    var (style, found) = StyleReader.Read(new Source("x.style", text));
                    Assert.Equal(style is null, found.Count > 0);
                }
            );
        }
    }
}
