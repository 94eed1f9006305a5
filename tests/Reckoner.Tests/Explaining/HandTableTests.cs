using System.Numerics;
using Reckoner.Classroom;
using Reckoner.Datapaths;
using Reckoner.Explaining;
using Xunit;

namespace Reckoner.Tests.Explaining;

/// <summary>Tables as people hand them in, with what is taken for granted and what is not.</summary>
public class HandTableTests
{
    /// <summary>R of 10 bits, D of 5, Q of 5.</summary>
    private static Datapath Machine => Machines.Bound(Machines.Named("divide-still-divisor"), 5);

    [Theory]
    [InlineData("0000011101", 0b11101, 0x3FF)]
    [InlineData("11101", 0b11101, 0x3FF)]
    [InlineData("00000 11101", 0b11101, 0x3FF)]
    [InlineData("0x1D", 0b11101, 0x3FF)]
    [InlineData("0b11101", 0b11101, 0x3FF)]
    [InlineData("lllOl", 0b11101, 0x3FF)]
    [InlineData("1???1", 0b10001, 0x3F1)]
    // In front of a bit that is not known nothing is known.
    [InlineData("????0", 0, 1)]
    [InlineData(".1", 1, 1)]
    [InlineData("?", 0, 0)]
    [InlineData("??????????", 0, 0)]
    [InlineData("", 0, 0)]
    public void Cells_are_read(string cell, int bits, int written)
    {
        var word = HandCell.Of(cell, 10, []);
        Assert.Equal(new HandWord(bits, written), word);
    }

    [Theory]
    [InlineData("12")]
    [InlineData("00000000000")]
    [InlineData("0x400")]
    [InlineData("1a")]
    public void Cells_are_not_guessed(string cell) => Assert.Null(HandCell.Of(cell, 10, []));

    [Theory]
    [InlineData("a;b\n1;0", "a|b/1|0")]
    [InlineData("a,b\n1,0", "a|b/1|0")]
    [InlineData("a\tb\r\n1\t0", "a|b/1|0")]
    [InlineData("1  0   1", "1|0|1")]
    [InlineData("\"1,\"\"0\"\"\",1", "1,\"0\"|1")]
    [InlineData("\uFEFF1,0", "1|0")]
    public void Cells_are_parted(string text, string cells) =>
        Assert.Equal(cells, string.Join('/', CellsText.Of(text).Select(l => string.Join('|', l))));

    [Fact]
    public void Columns_stand_where_their_heads_say()
    {
        var table = HandTable.Of(Machine, "note,Q,R\nx,10101,1\ny,00001,10\n");
        Assert.Equal(
            [
                [1, null, 0b10101],
                [0b10, null, 1],
            ],
            Read(table)
        );
        Assert.Empty(table.Unread);
        Assert.Equal([TableAssumption.ZerosInFront], table.Assumed);
    }

    [Fact]
    public void Without_a_head_columns_stand_in_the_order_of_the_text()
    {
        var table = HandTable.Of(Machine, "0,0000011101,00110,00000");
        Assert.Equal(
            [
                [0b11101, 0b110, 0],
            ],
            Read(table)
        );
        Assert.Equal([TableAssumption.ColumnsInOrder], table.Assumed);
    }

    [Fact]
    public void Of_half_steps_the_last_of_each_cycle_is_read()
    {
        var table = HandTable.Of(Machine, "cycle,Q\nload,00000\n1.1,00001\n1.2,00011\n2.1,00100\n2.2,00101\n");
        Assert.Equal(
            [
                [null, null, 0],
                [null, null, 0b11],
                [null, null, 0b101],
            ],
            Read(table)
        );
        Assert.Equal([TableAssumption.HalfSteps], table.Assumed);
    }

    [Fact]
    public void A_row_of_the_load_that_is_missing_is_left_open()
    {
        var table = HandTable.Of(Machine, "cycle,Q\n1,00001\n2,00011\n");
        Assert.Equal(
            [
                [null, null, null],
                [null, null, 1],
                [null, null, 0b11],
            ],
            Read(table)
        );
        Assert.Equal([TableAssumption.NoLoad], table.Assumed);
    }

    [Theory]
    [InlineData("cycle,Q\nload,00000\n\n1,00001\n")]
    [InlineData("cycle,Q\nload,00000\n,,,\n1,00001\n,\n")]
    [InlineData("cycle,Q\nload,00000\n1,00001\nthanks,\n")]
    public void Blank_lines_end_no_table(string text)
    {
        var table = HandTable.Of(Machine, text);
        Assert.Equal(
            [
                [null, null, 0],
                [null, null, 1],
            ],
            Read(table)
        );
        Assert.Empty(table.Unread);
    }

    [Theory]
    [InlineData("cycle,Q\nload,00000\nhere,it goes on\n1,00001\n", 2, "Q", "it goes on")]
    [InlineData("cycle,Q\nload,00000\n---\n1,00001\n", 2, "1", "---")]
    [InlineData("cycle,Q\nload,00000\n1,00001\nPoints: 10\n", 3, "1", "Points: 10")]
    public void A_line_that_is_no_row_is_named(string text, int row, string column, string cell) =>
        Assert.Equal([new UnreadCell(row, column, cell)], HandTable.Of(Machine, text).Unread);

    [Fact]
    public void A_row_of_which_nothing_is_known_is_a_row()
    {
        var table = HandTable.Of(Machine, "cycle,Q\nload,00000\nx,?\ny,00001\n");
        Assert.Equal(
            [
                [null, null, 0],
                [null, null, null],
                [null, null, 1],
            ],
            Read(table)
        );
    }

    /// <summary>In the order R, D, Q; null where nothing was written.</summary>
    private static IEnumerable<IReadOnlyList<int?>> Read(HandTable table) =>
        table.Rows.Select(r =>
            (IReadOnlyList<int?>)[.. r.Select(w => w.Written == BigInteger.Zero ? null : (int?)w.Bits)]
        );
}
