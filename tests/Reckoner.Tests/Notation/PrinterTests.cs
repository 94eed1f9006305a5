using Reckoner.Catalogue;
using Reckoner.Notation;
using Xunit;

namespace Reckoner.Tests;

/// <summary>What is printed reads back as the same description, its comments with it.</summary>
public class PrinterTests
{
    private const int Trees = 600;
    private const int ManyTrees = 20_000;

    public static TheoryData<string> Texts =>
        [
            .. MachineCatalogue.Entries.Select(e => "catalogue " + e.Name),
            .. NotationCases.Names.Select(n => "case " + n),
        ];

    private static Source Text(string name) =>
        name.Split(' ') is ["catalogue", var machine]
            ? MachineCatalogue.Find(machine)!
            : NotationCases.Source(name.Split(' ')[1]);

    [Theory]
    [MemberData(nameof(Texts))]
    public void Printing_keeps_the_tree_and_every_comment(string name)
    {
        var source = Text(name);
        var description = Read(source);
        var printed = Printer.Text(description);
        var again = Read(new Source(name, printed));
        Assert.Equal(TreeText.Of(description), TreeText.Of(again));
        Assert.Equal(CommentTexts.Of(source.Text), CommentTexts.Of(printed));
        Assert.Equal(printed, Printer.Text(again));
    }

    [Theory]
    [MemberData(nameof(Texts))]
    public void Without_comments_the_tree_is_the_same_and_no_comment_is_left(string name)
    {
        var description = Read(Text(name));
        var printed = Printer.Text(description, comments: false);
        var again = Read(new Source(name, printed));
        Assert.Equal(TreeText.Of(description, comments: false), TreeText.Of(again, comments: false));
        Assert.Empty(CommentTexts.Of(printed));
    }

    /// <summary>The printer adds the brackets that a tree needs, so brackets are not compared.</summary>
    [Fact]
    public void A_tree_that_nobody_wrote_reads_back_as_it_was_made() => ReadBack(Trees);

    [Fact]
    [Trait("Length", "long")]
    public void So_do_many_trees() => ReadBack(ManyTrees);

    private static void ReadBack(int count)
    {
        var seed = Seeds.Next();
        var trees = new RandomTrees(new Random(seed));
        for (var i = 0; i < count; i++)
        {
            var tree = trees.Next();
            var printed = Printer.Text(tree);
            Seeds.Told(
                seed,
                $"tree {i}:\n{printed}",
                () =>
                {
                    var again = Read(new Source("tree", printed));
                    Assert.Equal(TreeText.Of(tree, brackets: false), TreeText.Of(again, brackets: false));
                    Assert.Equal(printed, Printer.Text(again));
                }
            );
        }
    }

    /// <summary>So that the comparison above is known to notice.</summary>
    [Fact]
    public void A_changed_word_or_comment_changes_the_tree()
    {
        var source = NotationCases.Source("comments-everywhere");
        var before = TreeText.Of(Read(source));
        foreach (var (word, other) in new[] { ("else if K = 0", "else if K = 1"), ("beside labels", "beside label") })
        {
            Assert.NotEqual(before, TreeText.Of(Read(new Source("changed", source.Text.Replace(word, other)))));
        }
    }

    private static Description Read(Source source)
    {
        var (description, found) = Parser.Read(source);
        Assert.Equal([], found.Select(d => $"{d.Id} on line {d.Line}"));
        return description;
    }
}
