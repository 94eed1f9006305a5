using System.Numerics;
using System.Text;
using Reckoner.Binding;
using Reckoner.Catalogue;
using Reckoner.Measuring;
using Reckoner.Numbers;
using Reckoner.Reporting;
using Reckoner.Running;
using Reckoner.Styles;
using Reckoner.Tables;
using Reckoner.Words;
using Xunit;

namespace Reckoner.Documents.Tests;

/// <summary>What we write as LaTeX, compiled by pdflatex and read back by pdftotext.</summary>
public class LatexTests
{
    private static Walk Walk(string name, int width, params IReadOnlyList<BigInteger> operands)
    {
        var machine = Machine.Read(MachineCatalogue.Find(name)!, MachineCatalogue.Find);
        var datapath = machine
            .At(new Dictionary<string, BigInteger> { [machine.Widths.First().Name.Text] = width })
            .Datapath!;
        return Running.Walk.Of(datapath, [.. datapath.Operands.Select(o => Bits.Wrap(operands[o.Index], o.Width))]);
    }

    private static Document Document(Walk walk, string language = "en") =>
        WalkDocument.Of(walk, HouseStyle.None, Vocabulary.Of(language)!, oneByOne: false).Document!;

    private static string[] Compiled(params (string Name, string Text)[] files)
    {
        using var folder = new Folder();
        foreach (var (name, text) in files)
        {
            folder.Write(name, Encoding.UTF8.GetBytes(text));
        }
        Program.Run(folder.Path, "pdflatex", "-interaction=nonstopmode", "-halt-on-error", files[0].Name);
        var log = File.ReadAllText(Path.Combine(folder.Path, Path.ChangeExtension(files[0].Name, ".log")));
        Assert.DoesNotContain("incomplete", log, StringComparison.Ordinal);
        return Program
            .Run(folder.Path, "pdftotext", "-layout", Path.ChangeExtension(files[0].Name, ".pdf"), "-")
            .Split('\n');
    }

    /// <summary>Each row's registers stand in one line, in order, with all their zeros.</summary>
    private static void HoldsEveryRegister(Walk walk, string[] lines)
    {
        var shown = lines.Select(l => string.Join(' ', l.Split(' ', StringSplitOptions.RemoveEmptyEntries))).ToList();
        foreach (var row in walk.Rows)
        {
            var registers = string.Join(
                ' ',
                walk.Datapath.Registers.Select(r => Columns.Text(r, row.Registers[r.Index]))
            );
            Assert.Contains(shown, line => line.Contains(registers, StringComparison.Ordinal));
        }
    }

    [Theory]
    [InlineData("divide-still-divisor", 4)]
    [InlineData("multiply-in-steps", 8)]
    [InlineData("divide-adding-back", 16)]
    public void A_walk_compiles_alone_and_its_text_holds_every_register(string machine, int width)
    {
        var walk = Walk(machine, width, 13, 3);
        HoldsEveryRegister(walk, Compiled(("walk.tex", Latex.Of(Document(walk)))));
    }

    [Fact]
    public void It_compiles_inside_another_document()
    {
        var walk = Walk("divide-shared-register", 5, 29, 6);
        const string Outer = """
            \documentclass{article}
            \usepackage[T1]{fontenc}
            \usepackage{array,booktabs,longtable}
            \begin{document}
            before
            \input{walk}
            after
            \end{document}
            """;
        var lines = Compiled(("outer.tex", Outer), ("walk.tex", Latex.Of(Document(walk))));
        HoldsEveryRegister(walk, lines);
        Assert.Contains(lines, l => l.Contains("after", StringComparison.Ordinal));
    }

    /// <summary>Registers too wide for a line are broken; put together again, the digits are all there.</summary>
    [Fact]
    public void A_walk_of_64_bits_compiles()
    {
        var walk = Walk("multiply-shared-register", 64, ulong.MaxValue, 5);
        var text = string.Concat(Compiled(("walk.tex", Latex.Of(Document(walk)))));
        Assert.Contains("64 cycles", text, StringComparison.Ordinal);
        Assert.Contains(ulong.MaxValue.ToString(), text, StringComparison.Ordinal);
    }

    [Fact]
    public void German_and_signs_that_mean_something_to_LaTeX_compile()
    {
        Assert.Contains(
            Compiled(("walk.tex", Latex.Of(Document(Walk("divide-adding-back", 4, 13, 3), "de")))),
            l => l.Contains("zurückaddieren", StringComparison.Ordinal)
        );
        const string Odd = @"a|b*c_d`e[f]<g>#~\ {h} $i &j %k ^l ""m""";
        var grid = new Tables.Grid(
            "g",
            Odd,
            [new GridColumn(Odd, ColumnRole.Label)],
            [new GridRow([new Cell([Words.Content.Phrase(Odd), Words.Run.Formula(Odd)])])]
        );
        var lines = Compiled(("odd.tex", Latex.Of(new Document("d", "en", "title", null, [grid]))));
        Assert.Contains(lines, l => l.Contains("a|b*c_d`e[f]<g>#~\\ {h} $i &j %k ^l \"m\"", StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("a4", false)]
    [InlineData("a5", true)]
    [InlineData("letter", false)]
    [InlineData("slide", true)]
    public void Machines_side_by_side_compile_on_every_paper(string size, bool isLandscape)
    {
        List<Walk> walks = [Walk("divide-moving-divisor", 4, 7, 2), Walk("divide-shared-register", 4, 7, 2)];
        var document = CompareDocument.Of(
            Comparison.Of([.. walks.Select(w => w.Datapath)]),
            walks,
            HouseStyle.None,
            Vocabulary.English
        );
        var lines = Compiled(("compare.tex", Latex.Of(document with { Paper = new Tables.Paper(size, isLandscape) })));
        Assert.Contains(lines, l => l.Contains("register bits", StringComparison.Ordinal));
    }
}
