using Reckoner.Numbers;
using Reckoner.Sheets;
using Xunit;

namespace Reckoner.Tests.Sheets;

public class SheetNumberTests
{
    private static readonly int[] Values = [0, 1, 31, 32, 0x1555555, (1 << SheetNumber.Bits) - 1, 12_345_678];

    [Fact]
    public void A_number_is_read_as_it_is_printed_and_as_people_type_it()
    {
        Assert.All(
            Values.Select(v => new SheetNumber(v)),
            n =>
            {
                Assert.Equal(n, SheetNumber.Read($"{n}"));
                Assert.Equal(n, SheetNumber.Read(n.Plain));
                Assert.Equal(n, SheetNumber.Read($" {n}".ToLowerInvariant().Replace('0', 'o').Replace('1', 'l')));
            }
        );
    }

    [Theory]
    [InlineData("")]
    [InlineData("000-00")]
    [InlineData("000-0000")]
    [InlineData("000-00U")]
    public void What_is_no_number_is_none(string typed) => Assert.Null(SheetNumber.Read(typed));

    /// <summary>Any letter that is another, and any two neighbours that changed places.</summary>
    [Fact]
    public void A_slip_of_the_pen_is_noticed()
    {
        foreach (var plain in Values.Select(v => new SheetNumber(v).Plain))
        {
            for (var i = 0; i < plain.Length; i++)
            {
                for (var letter = 0; letter < 32; letter++)
                {
                    var typed = $"{plain[..i]}{TypedLetters.Of(letter)}{plain[(i + 1)..]}";
                    Assert.True(typed == plain || SheetNumber.Read(typed) is null, $"{typed} for {plain}");
                }
                for (var other = i + 1; other < plain.Length; other++)
                {
                    var letters = plain.ToCharArray();
                    (letters[i], letters[other]) = (letters[other], letters[i]);
                    var typed = new string(letters);
                    Assert.True(typed == plain || SheetNumber.Read(typed) is null, $"{typed} for {plain}");
                }
            }
        }
    }

    /// <summary>The cells of the foot say the letters, highest bit first, and the page.</summary>
    [Fact]
    public void The_cells_spell_the_letters_and_the_page()
    {
        var number = new SheetNumber(12_345_678);
        var parts = number.Cells(3).Select(p => p.Aggregate(0, (value, cell) => value * 2 + (cell ? 1 : 0))).ToList();
        Assert.Equal(number.Plain, string.Concat(parts.SkipLast(1).Select(TypedLetters.Of)));
        Assert.Equal(3, parts[^1]);
        Assert.Equal(number.Cells(SheetNumber.MostPages), number.Cells(99));
    }
}
