using Reckoner.Catalogue;
using Reckoner.Notation;
using Xunit;

namespace Reckoner.Tests;

public class NotationTests
{
    /// <summary>The words of the grammar that begin a line or stand between values.</summary>
    private const string Reserved =
        "machine title note follows width parameter constant operand given register part unit table core repeat step result law "
        + "outside let if case hold then else end in loads at most while says via when exactly and or xor not signed unsigned last";

    public static TheoryData<string> ReservedWords => [.. Reserved.Split(' ')];

    public static TheoryData<string> FreeWords =>
        [.. "multiplier adder divisor quotient remainder carry borrow digit count by floor shl abs log2".Split(' ')];

    public static TheoryData<string> Catalogue => [.. Machines.Catalogue];

    [Theory]
    [MemberData(nameof(ReservedWords))]
    public void A_reserved_word_is_no_name(string word)
    {
        foreach (var text in Declaring(word))
        {
            var found = Parser.Read(new Source("test", text)).Diagnostics;
            Assert.Equal(["reserved-word"], found.Select(d => d.Id.Name));
            Assert.Equal(word, found[0].Source![found[0].Span]);
        }
    }

    [Theory]
    [MemberData(nameof(FreeWords))]
    public void The_nouns_of_the_field_are_free(string word) =>
        Assert.All(Declaring(word), text => Assert.Empty(Parser.Read(new Source("test", text)).Diagnostics));

    /// <summary>A text for every place where a name is declared.</summary>
    private static IEnumerable<string> Declaring(string name) =>
        from line in new[]
        {
            "width ? = 4 in 1..8",
            "parameter ? = 4 in 1..8",
            "constant ? = 4",
            "operand ? : n",
            "register ? : n loads 0",
            "part ? = R[0]",
            "unit ? : adder n",
            "table ?(i : n) : n\n  else: 0\nend",
            "table t(? : n) : n\n  else: 0\nend",
            "result ? = R",
            "step ?",
            "step s\n  let ? = R",
            "step s\n  let a, ? = R + R",
        }
        select "machine test\n" + line.Replace("?", name) + "\n";

    [Theory]
    [InlineData("regster A : n loads 0", "unknown-declaration", "register")]
    [InlineData("opperand x : n", "unknown-declaration", "operand")]
    [InlineData("Register A : n loads 0", "unknown-declaration", "register")]
    [InlineData("folows titles", "unknown-declaration", "follows")]
    [InlineData("rezult r = A", "unknown-declaration", "result")]
    [InlineData("frobnicate the word", "unknown-declaration", "")]
    [InlineData("step s\n  iff A", "no-statement", "if")]
    [InlineData("step s\n  lte x = A", "no-statement", "let")]
    [InlineData("step s\n  hodl", "no-statement", "hold")]
    public void A_misspelt_word_is_told_with_those_near_it(string line, string id, string near)
    {
        var found = Parser.Read(new Source("test", $"machine test\n{line}\n")).Diagnostics;
        var first = Assert.Single(found, d => d.Id.Name == id);
        Assert.Equal(near, Found.Text(first.Facts.Single(f => f.Name == "near").Value));
    }

    /// <summary>The place of every node is where its words stand: nothing else is printed for it than what is written there.</summary>
    [Theory]
    [MemberData(nameof(Catalogue))]
    public void Every_node_knows_its_place(string name)
    {
        var source = MachineCatalogue.Find(name)!;
        var (description, _) = Parser.Read(source);
        foreach (var node in TreeText.Nodes(description))
        {
            switch (node)
            {
                case Expression e:
                    Assert.Equal(Unspaced(Printer.Text(e)), Unspaced(source[e.Span]));
                    break;
                case Declared d:
                    Assert.Equal(d.Text, source[d.Span]);
                    break;
                case Phrase p:
                    Assert.Equal(Printer.Text(p), source[p.Span]);
                    break;
                case Line line:
                    Assert.Equal(FirstWords(line), source[line.Span][..FirstWords(line).Length]);
                    break;
            }
        }
    }

    private static string Unspaced(string text) =>
        string.Concat(text.Split([' ', '\n', '\t'], StringSplitOptions.RemoveEmptyEntries));

    private static string FirstWords(Line line) =>
        line switch
        {
            WidthLine w => (w.IsParameter ? "parameter " : "width ") + w.Name,
            RegisterLine r => "register " + r.Name,
            StepBlock { Name: { } step } => "step " + step,
            RepeatBlock => "repeat ",
            LetLine l => "let " + l.Name,
            LetCase l => "let " + l.Name,
            TransferLine t => Printer.Text(t.Targets[0]),
            IfBlock i => "if " + Printer.Text(i.Condition),
            CaseBlock c => "case " + Printer.Text(c.Subject),
            ClaimLine c => c.IsOutside ? "outside " : "law ",
            TableRow { Condition: { } condition } => Printer.Text(condition),
            _ => "",
        };

    [Theory]
    [InlineData("\r\n")]
    [InlineData("\r")]
    public void Line_ends_of_every_system_are_read(string end)
    {
        var source = NotationCases.Source("comments-everywhere");
        var other = new Source(source.Name, source.Text.Replace("\n", end));
        Assert.Equal(TreeText.Of(Parser.Read(source)), TreeText.Of(Parser.Read(other)));
    }

    [Fact]
    public void A_byte_order_mark_is_passed_over()
    {
        var source = NotationCases.Source("comments-everywhere");
        var (description, found) = Parser.Read(new Source(source.Name, "\uFEFF" + source.Text));
        Assert.Empty(found);
        Assert.Equal(source.Text, Printer.Text(description));
    }

    [Fact]
    public void A_phrase_is_said_in_its_language_and_else_in_its_own()
    {
        var title = NotationCases.Machine("titles").Title!;
        Assert.Equal("What goes in comes out", title.In("en"));
        Assert.Equal("Was hineingeht, kommt heraus", title.In("de"));
        Assert.Equal("Ce qui entre ressort", title.In("fr"));
        Assert.Equal("What goes in comes out", title.In("el"));
    }
}
