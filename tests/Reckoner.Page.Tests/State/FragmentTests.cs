using System.Buffers.Text;
using System.IO.Compression;
using System.Text;
using CsCheck;
using Reckoner.Catalogue;
using Reckoner.Page.State;
using Xunit;

namespace Reckoner.Page.Tests.State;

public sealed class FragmentTests
{
    private static readonly Sheet Start = Sheet.Of("divide-still-divisor")!;

    [Fact]
    public void A_machine_of_the_catalogue_is_in_a_link_by_its_name()
    {
        var sheet = Start.WithWidth("n", "5").WithOperand(0, "29").WithOperand(1, "0b110") with { Moment = 3 };
        Assert.Equal("machine=divide-still-divisor&width.n=5&operands=29,0b110&at=3", Fragment.Of(sheet));
        Assert.Equal(sheet, Fragment.Read(Fragment.Of(sheet)));
    }

    [Fact]
    public void A_text_of_ones_own_comes_back_letter_for_letter()
    {
        var sheet = Start with { Text = Start.Text + "-- ünïcode & = # %\n", Beside = "slip:loop-longer" };
        Assert.Equal(sheet, Fragment.Read("#" + Fragment.Of(sheet)));
    }

    [Fact]
    public void Every_machine_of_the_catalogue_packs_into_what_a_square_code_holds_but_the_longest()
    {
        // ISO/IEC 18004, version 40 at the lowest level of correction, in bytes.
        const int Largest = 2953;
        // Units for floating-point numbers have more lines: of those there is a link and no code.
        const int Lines = 90;
        foreach (var entry in MachineCatalogue.Entries)
        {
            var fragment = Fragment.Of(Sheet.Empty with { Text = entry.Source.Text });
            if (entry.Source.Text.Split('\n').Count(l => l.Trim().Length > 0) <= Lines)
            {
                Assert.InRange(fragment.Length, 1, Largest);
            }
            Assert.Equal(fragment.Length <= Largest, SquareCode.Of(fragment) is not null);
        }
    }

    [Theory]
    [InlineData("")]
    [InlineData("#")]
    [InlineData("machine=no-such-machine")]
    [InlineData("text=")]
    [InlineData("text=%%%")]
    [InlineData("text=AAAA")]
    [InlineData("text=<script>alert(1)</script>")]
    [InlineData("&&&===&")]
    [InlineData("machine=%E0%A4%A")]
    public void A_broken_link_gives_no_sheet(string fragment)
    {
        var sheet = Fragment.Read(fragment);
        Assert.True(sheet is null || sheet.Text.Length == 0, sheet?.Text);
    }

    [Fact]
    public void A_link_that_unpacks_to_megabytes_is_not_unpacked()
    {
        Assert.Null(Fragment.Read("text=" + Packed(new byte[200_000_000])));
        Assert.Null(Fragment.Read("text=" + Packed(Encoding.UTF8.GetBytes(new string('x', 300_000)))));
        Assert.NotNull(Fragment.Read("text=" + Packed(Encoding.UTF8.GetBytes(new string('x', 200_000)))));
    }

    [Fact]
    public void Bytes_that_are_no_text_give_no_sheet() =>
        Assert.Null(Fragment.Read("text=" + Packed([0x89, 0x50, 0x4E, 0x47, 0, 1, 2, 0xFF])));

    [Fact]
    public void Numbers_and_views_that_cannot_be_are_passed_over()
    {
        var sheet = Fragment.Read(
            "machine=divide-still-divisor&at=-5&view=no-such-view&width.n=" + new string('9', 30_000)
        );
        Assert.Equal(Start, sheet);
    }

    [Fact]
    public void Whatever_stands_in_a_link_reading_it_does_not_throw() =>
        Gen.OneOf(Gen.String, Gen.String[Gen.Char["machinetxopds=&%,.#0123456789ABF-_"], 0, 80])
            .Sample(
                text =>
                {
                    var sheet = Fragment.Read(text);
                    Assert.True(
                        sheet is null || Fragment.Read(Fragment.Of(sheet)) is not null || sheet.Text.Length == 0
                    );
                },
                iter: 2000
            );

    private static string Packed(byte[] bytes)
    {
        using var packed = new MemoryStream();
        using (var deflate = new DeflateStream(packed, CompressionLevel.Optimal))
        {
            deflate.Write(bytes);
        }
        return Base64Url.EncodeToString(packed.ToArray());
    }
}
