using System.Numerics;
using Reckoner.Drawing;
using Reckoner.Running;
using Reckoner.Styles;
using Reckoner.Words;
using Xunit;

namespace Reckoner.Tests;

public class PaperViewTests
{
    private static HandLines Lines(string machine, int width, params BigInteger[] operands)
    {
        var walk = Walks.Of(Walks.At(machine, width), operands);
        return PaperView.Lines(Figure.Of(walk, Vocabulary.English), HandSum.Of(walk.Datapath)!);
    }

    [Theory]
    [InlineData(2, "Beside each line stands the cycle that did it.")]
    [InlineData(10, "no line is the work of single cycles.")]
    public void The_description_promises_cycles_only_where_they_stand(int number, string told)
    {
        var walk = Walks.Of(Walks.At("divide-shared-register", 4), 13, 3);
        var figure = Figure.Of(walk, Vocabulary.English) with { Base = number };
        Assert.Contains(told, PaperView.Of(figure).Description, StringComparison.Ordinal);
        Assert.EndsWith("dividend = 13, divisor = 3; 5 cycles after the load.", PaperView.Of(figure).Description);
    }

    /// <summary>
    /// 7 by 2 in 4 bits: Patterson and Hennessy, Computer Organization and Design, figure 3.10 (from memory, recomputed). In iterations 2 to
    /// 5 the remainder register holds what is left on paper, with the digits that are not yet brought down behind it.
    /// </summary>
    [Fact]
    public void Seven_by_two_on_paper_has_the_remainders_of_the_published_table()
    {
        var sum = Lines("divide-moving-divisor", 4, 7, 2);
        Assert.Equal(("0111", "10", "0011"), (sum.First, sum.Second, sum.Result));
        Assert.Equal([2, 3, 4, 5], sum.ResultCycles);
        var remainders = new List<string>();
        foreach (var (cycle, place) in new[] { (2, 3), (3, 2), (4, 1), (5, 0) })
        {
            var own = sum.Lines.Where(l => l.Cycle == cycle && l.What != "remains").ToList();
            var left = Convert.ToInt32(own[0].Digits, 2) - (own.Count > 1 ? Convert.ToInt32(own[1].Digits, 2) : 0);
            var whole = (left << place) + (7 & ((1 << place) - 1));
            remainders.Add(Convert.ToString(whole, 2).PadLeft(8, '0'));
        }
        Assert.Equal(["00000111", "00000111", "00000011", "00000001"], remainders);
    }

    /// <summary>
    /// University of Washington, CSE 378 (autumn 2000), lecture 12, slide 10: the left half after each subtraction that is kept or undone is
    /// 0000, 0001, 0001, 0001, and the quotient 0011.
    /// </summary>
    [Fact]
    public void Seven_by_two_on_paper_has_the_left_halves_of_the_combined_register()
    {
        var sum = Lines("divide-shared-register", 4, 7, 2);
        string[] expected = ["0|10 does not go, 0", "1|10 does not go, 0", "11-10|10 goes, 1", "11-10|10 goes, 1", "1"];
        Assert.Equal("cycle 1: takes nothing away", sum.Before);
        var shown = sum
            .Lines.GroupBy(l => (l.Cycle, l.What == "remains"))
            .Select(g => string.Join('-', g.Select(l => l.Digits)) + (g.Key.Item2 ? "" : "|" + g.First().What));
        Assert.Equal(expected, shown);
        Assert.Equal("0011", sum.Result);
    }

    /// <summary>
    /// 2 by 3 in 4 bits: Patterson and Hennessy, figure 3.6. The product after each iteration is 2, 6, 6, 6: what the rows so far add up
    /// to. Each row belongs to the iteration of the same number.
    /// </summary>
    [Fact]
    public void Two_by_three_on_paper_adds_up_as_the_published_table()
    {
        var sum = Lines("multiply-moving-multiplicand", 4, 2, 3);
        var rows = sum.Lines.SkipLast(1).ToList();
        Assert.Equal(["0010", "0010", "0000", "0000"], rows.Select(r => r.Digits));
        Assert.Equal([1, 2, 3, 4], rows.Select(r => r.Cycle));
        var products = rows.Select((_, i) => rows.Take(i + 1).Sum(r => Convert.ToInt32(r.Digits, 2) << r.Place));
        Assert.Equal([2, 6, 6, 6], products);
        Assert.Equal("110", sum.Lines[^1].Digits);
    }

    /// <summary>
    /// Roots of 100 and 26: pairs, bits and trials of the hand method (arithmazium.org, "byte sqrt"; UMBC CSEE, VHDL sample sqrt; the trials
    /// recomputed: the root so far, then 01).
    /// </summary>
    [Theory]
    [InlineData(100, "1 goes, 1; 101 does not go, 0; 1001 goes, 1; 10101 does not go, 0", "1 1; 10; 1001 1001; 0; 0")]
    [InlineData(26, "1 goes, 1; 101 does not go, 0; 1001 goes, 1", "1 1; 10; 1010 1001; 1")]
    public void Roots_on_paper_try_and_keep_what_was_published(int radicand, string trials, string lines)
    {
        var sum = new HandReckoning(2, Vocabulary.English).Root(radicand, 1, cycles: null);
        Assert.Equal(
            trials,
            string.Join("; ", sum.Lines.Select(l => l.What).Where(w => w.Length > 0 && w != "remains"))
        );
        var shown = string.Join("; ", sum.Lines.Select(l => l.RuleBelow ? "=" + l.Digits : l.Digits));
        Assert.Equal(lines, shown.Replace("; =", " ", StringComparison.Ordinal));
    }

    /// <summary>Every base and layout against whole numbers: what stands below a rule is the difference or sum above it.</summary>
    [Fact]
    public void Sums_by_hand_are_right_in_every_base()
    {
        const int Seed = 11;
        var random = new Random(Seed);
        for (var times = 0; times < 500; times++)
        {
            var (a, b, radix) = (random.Next(1, 5000), random.Next(1, 300), new[] { 2, 8, 10, 16 }[random.Next(4)]);
            Assert.True(IsRight(a, b, radix), $"seed {Seed}: {a}, {b} in base {radix}");
        }
    }

    private static bool IsRight(int a, int b, int radix)
    {
        var reckoning = new HandReckoning(radix, Vocabulary.English);
        var division = reckoning.Divide(a, 13, b, cycles: null);
        var root = reckoning.Root(a, 13, cycles: null);
        var product = reckoning.Multiply(a, 13, b, 9, digits: null, highestFirst: a % 2 == 0);
        var rows = product.Lines.SkipLast(1).Select(l => Value(l.Digits) * BigInteger.Pow(radix, l.Place));
        var r = Value(root.Result);
        return Value(division.Result) == a / b
            && Value(division.Lines[^1].Digits) == a % b
            && rows.Aggregate((x, y) => x + y) == a * b
            && Value(product.Lines[^1].Digits) == a * b
            && r * r <= a
            && a < (r + 1) * (r + 1)
            && Value(root.Lines[^1].Digits) == a - r * r;

        BigInteger Value(string digits) =>
            digits.Aggregate(
                BigInteger.Zero,
                (v, d) => v * radix + "0123456789ABCDEF".IndexOf(d, StringComparison.Ordinal)
            );
    }

    public static IEnumerable<TheoryDataRow<string, int>> Machine =>
        from name in Machines.Catalogue
        from width in Machines.Widths(Machines.Named(name), 0, 4, 32)
        where HandSum.Of(Walks.At(name, width)) is not null
        select new TheoryDataRow<string, int>(name, width);

    [Theory]
    [MemberData(nameof(Machine))]
    public void No_text_leaves_the_page_or_covers_another(string name, int width)
    {
        var datapath = Walks.At(name, width);
        var walk = SampleOperands
            .Of(datapath, new Random(8))
            .Where(o => datapath.IsGiven(o))
            .Select(o => Walk.Of(datapath, o))
            .First(PaperView.Suits);
        var figure = Figure.Of(walk, Vocabulary.English);
        Figure[] figures =
        [
            figure,
            figure with
            {
                Layout = HandLayout.Colon,
                IsBlank = true,
            },
            figure with
            {
                Layout = HandLayout.Colon,
                Base = 10,
            },
            figure with
            {
                Base = 16,
                IsBlank = true,
            },
        ];
        foreach (var scene in figures.Select(PaperView.Of))
        {
            var texts = scene.Leaves.OfType<Text>().ToList();
            Assert.Empty(texts.Where(t => !scene.Box.Contains(t.Box)).Select(t => t.Words));
            Assert.Empty(Covering.Among(texts));
        }
    }

    [Fact]
    public void A_house_style_gives_the_base_and_the_layout_where_the_figure_does_not()
    {
        var figure = Figure.Of(Walks.Of(Walks.At("divide-shared-register", 8), 201, 12), Vocabulary.English);
        var styled = figure with { Style = Styled.Read("base 10\nsums with colon") };
        string Svg(Figure drawn) => SvgWriter.Write(PaperView.Of(drawn), Palette.All[0]);
        Assert.Equal(Svg(figure with { Base = 10, Layout = HandLayout.Colon }), Svg(styled));
        Assert.Equal(Svg(figure), Svg(styled with { Base = 2, Layout = HandLayout.Bar }));
        Assert.NotEqual(Svg(figure), Svg(styled));
    }

    [Fact]
    public void Which_sum_a_machine_does_is_told_by_its_laws()
    {
        var kinds = Machines
            .Catalogue.Select(m => HandSum.Of(Walks.At(m, Machines.Range(Machines.Named(m)).Low))?.Kind)
            .GroupBy(k => k)
            .ToDictionary(g => $"{g.Key}", g => g.Count());
        Assert.True(kinds["Division"] > 30 && kinds["Multiplication"] > 15 && kinds["Root"] >= 3, $"{kinds.Count}");
        Assert.True(kinds[""] > 0);
    }
}
