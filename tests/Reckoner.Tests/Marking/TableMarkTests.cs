using System.Numerics;
using Reckoner.Classroom;
using Reckoner.Explaining;
using Reckoner.Marking;
using Reckoner.Tests.Explaining;
using Xunit;

namespace Reckoner.Tests.Marking;

/// <summary>29 divided by 6, as it is filled in by people.</summary>
public class TableMarkTests
{
    private static readonly Ways Ways = Kits.At("divide-still-divisor", 5);
    private static readonly ulong[] Operands = Kits.Operands(Ways, 29, 6);

    /// <summary>Six rows behind that of the load; D is printed.</summary>
    private static readonly TableForm Form = new(
        [
            [],
            .. Enumerable.Repeat<IReadOnlyList<int>>([0, 2], 6),
        ],
        true
    );

    private const string Right = """
        0000011101 00000
        0000111010 00000
        0001110100 00000
        0011101000 00000
        0001010000 00001
        0010100000 00010
        0010100000 00100
        """;

    [Theory]
    [InlineData("", "4 5", "6 6 6 6 12 6", "")]
    // The borrow is overlooked in cycle 2, and all that follows is right: 1 row, or from there on all.
    [InlineData("2:R=0001010100", "4 5", "6 5 4 5 11 1", "wrong 2 3")]
    // A cell left empty earns nothing, and is judged no further.
    [InlineData("3:Q=?????", "4 5", "6 5 5 5 11 2", "unfinished 3")]
    // The last row is missing.
    [InlineData("6:-", null, "6 5 5 5 10 5", "")]
    [InlineData("5:-", null, "6 4 4 4 8 4", "")]
    // Results that are none of the last row's, and right ones that the rows do not support.
    [InlineData("", "4 6", "6 5 5 5 11 5", "results")]
    [InlineData("6:R=1110100000", "4 5", "6 5 5 5 11 5", "wrong 6, unsupported")]
    [InlineData("", "4", "6 5 5 5 11 5", "unfinished 6")]
    public void It_earns(string changed, string? results, string marks, string noted)
    {
        var seen = Seen(changed, results);
        List<int> got = [];
        TableMark? mark = null;
        foreach (var scheme in Enum.GetValues<MarkScheme>())
        {
            var one = TableMark.Of(Ways, Operands, seen, Form, scheme, 2);
            mark ??= one;
            got.AddRange(got.Count == 0 ? [one.Credit.Most, one.Credit.Got] : [one.Credit.Got]);
        }
        Assert.Equal((marks, noted), (string.Join(' ', got), Noted(mark!)));
    }

    private static string Noted(TableMark mark) =>
        string.Join(
            ", ",
            new[]
            {
                mark.WrongRows.Any() ? $"wrong {string.Join(' ', mark.WrongRows.Select(r => r.Row))}" : "",
                mark.Unfinished.Count > 0 ? $"unfinished {string.Join(' ', mark.Unfinished)}" : "",
                mark.AreResultsWrong ? "results" : "",
                mark.AreResultsUnsupported ? "unsupported" : "",
            }.Where(n => n.Length > 0)
        );

    /// <summary>Rows that are printed again begin anew: what was wrong above them costs no second time.</summary>
    [Fact]
    public void A_row_that_is_printed_is_never_wrong()
    {
        var form = Form with { Open = [.. Form.Open.Select((o, i) => i == 4 ? [] : o)] };
        var seen = Seen("1:R=0000111110 2:R=0001111100 3:R=0011111000", "4 5");
        var mark = TableMark.Of(Ways, Operands, seen, form, MarkScheme.FollowThrough, 2);
        Assert.Equal(new Credit(5, 1), mark.Credit);
        Assert.Equal([1], mark.WrongRows.Select(r => r.Row));
        Assert.Equal(RowStanding.Wrong, mark.Rows.Rows[4].Standing);
    }

    [Fact]
    public void Another_way_that_is_right_loses_nothing()
    {
        var ways = Kits.At("divide-still-divisor", 4);
        var other = ways.Others.First(o => o.IsHarmless && o.Way.HasAllRegisters);
        var operands = Kits.Operands(ways, 13, 3);
        var rows = other.Way.Table(operands);
        var form = TableForm.Whole(ways.Datapath, ways.Right.Table(operands).Count - 1);
        foreach (var scheme in Enum.GetValues<MarkScheme>())
        {
            var mark = TableMark.Of(ways, operands, Kits.Table(ways, rows), form, scheme, 2);
            // Nor is anybody told that it is wrong.
            Assert.Equal((0, 0, 0), (mark.Credit.Lost, mark.Missing, mark.Extra));
            Assert.Empty(mark.WrongRows);
        }
    }

    /// <summary>What is printed beside own digits contradicts them once they are wrong: it costs nothing.</summary>
    [Fact]
    public void Columns_that_are_printed_are_nobodys_mistake()
    {
        var right = Ways.Right.Table(Operands);
        var (printed, q) = (RowLayout.Ones(5) << Ways.Layout.Lows[2], 2);
        for (var bit = 0; bit < 10; bit++)
        {
            List<UInt128> rows = [right[0], right[1] ^ (UInt128.One << (Ways.Layout.Lows[0] + bit))];
            for (var i = 2; i < right.Count; i++)
            {
                rows.Add((Ways.Right.After(i - 1, rows[^1]) & ~printed) | (right[i] & printed));
            }
            var form = Form with { Open = [.. Form.Open.Select(o => o.Where(r => r != q).ToList())] };
            var seen = Kits.Table(Ways, rows) with { Results = [4, 5] };
            foreach (var scheme in (MarkScheme[])[MarkScheme.FollowThrough, MarkScheme.EachTime])
            {
                Assert.Equal(new Credit(6, 1), TableMark.Of(Ways, Operands, seen, form, scheme, 2).Credit);
            }
        }
    }

    /// <summary>Of a machine that stops early the own rows may need more cycles than the sheet has room for, or fewer.</summary>
    [Fact]
    public void Rows_that_no_sheet_has_cost_nothing()
    {
        var ways = Kits.At("divide-repeated-subtraction", 5);
        var (longer, shorter) = (0, 0);
        foreach (var operands in ways.Samples.Where((_, i) => i % 5 == 0))
        {
            var right = ways.Right.Table(operands);
            for (var bit = 0; bit < ways.Layout.Bits && right.Count > 3; bit++)
            {
                List<UInt128> rows = [right[0], right[1] ^ (UInt128.One << bit)];
                for (
                    var at = ways.Right.Next(1, rows[^1]);
                    at < ways.Right.MostCycles;
                    at = ways.Right.Next(at + 1, rows[^1])
                )
                {
                    rows.Add(ways.Right.After(at, rows[^1]));
                }
                (longer, shorter) = (
                    longer + (rows.Count > right.Count ? 1 : 0),
                    shorter + (rows.Count < right.Count ? 1 : 0)
                );
                var filled = rows.Take(right.Count).Concat(right.Skip(rows.Count));
                var form = TableForm.Whole(ways.Datapath, right.Count - 1);
                var mark = TableMark.Of(ways, operands, Kits.Table(ways, filled), form, MarkScheme.EachTime, 1);
                Assert.Equal(1, mark.Credit.Lost);
            }
        }
        Assert.True(longer > 0 && shorter > 0, $"{longer} {shorter}");
    }

    [Theory]
    [InlineData(8, 0, 6, 6)]
    [InlineData(8, 1, 6, 5.5)]
    [InlineData(8, 9, 6, 0)]
    [InlineData(3, 1, 2, 1.5)]
    [InlineData(0, 0, 2, 2)]
    public void Marks_are_rounded_to_halves(int most, int lost, int marks, double got) =>
        Assert.Equal((decimal)got, new Credit(most, lost).Of(marks));

    /// <summary>"2:R=0001010100" changes the register of a row, "6:-" cuts the table off before it.</summary>
    private static Seen Seen(string changed, string? results)
    {
        var rows = Right.ReplaceLineEndings("\n").Split('\n').Select(l => l.Split(' ')).ToList();
        foreach (var change in changed.Split(' ', StringSplitOptions.RemoveEmptyEntries))
        {
            var (row, what) = (change[0] - '0', change[2..]);
            if (what == "-")
            {
                rows.RemoveRange(row, rows.Count - row);
            }
            else
            {
                rows[row][what[0] == 'R' ? 0 : 1] = what[2..];
            }
        }
        var said = results?.Split(' ') ?? [];
        return new Seen(
            [.. rows.Select(r => SeenRow.Of(Ways.Layout, [Word(r[0], 10), HandWord.Whole(6, 5), Word(r[1], 5)]))],
            results is null
                ? [null, null]
                :
                [
                    .. Ways.Datapath.Results.Select(
                        (_, i) => i < said.Length ? (BigInteger?)BigInteger.Parse(said[i]) : null
                    ),
                ]
        );
    }

    private static HandWord Word(string bits, int width) => HandCell.Of(bits, width, [])!.Value;
}
