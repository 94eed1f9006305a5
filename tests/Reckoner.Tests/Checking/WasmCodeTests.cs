using Reckoner.Checking;
using Xunit;

namespace Reckoner.Tests.Checking;

public sealed class WasmCodeTests
{
    /// <summary>The examples that the DWARF standard gives beside its definition of LEB128 (from memory).</summary>
    [Theory]
    [InlineData(2, "02")]
    [InlineData(127, "7F")]
    [InlineData(128, "8001")]
    [InlineData(129, "8101")]
    [InlineData(12857, "B964")]
    public void Unsigned_numbers_take_seven_bits_a_byte(int number, string bytes) =>
        Assert.Equal(bytes, Convert.ToHexString(new WasmCode().Number(number).ToArray()));

    [Theory]
    [InlineData(2, "02")]
    [InlineData(-2, "7E")]
    [InlineData(127, "FF00")]
    [InlineData(-127, "817F")]
    [InlineData(128, "8001")]
    [InlineData(-128, "807F")]
    [InlineData(129, "8101")]
    [InlineData(-129, "FF7E")]
    public void Signed_ones_keep_their_sign(int number, string bytes) =>
        Assert.Equal("41" + bytes, Convert.ToHexString(new WasmCode().Constant(number).ToArray()));

    [Fact]
    public void A_job_without_room_for_its_cases_is_refused()
    {
        var datapath = Binding
            .Machine.Read(Catalogue.MachineCatalogue.Find("multiply-booth")!, Catalogue.MachineCatalogue.Find)
            .At(27)
            .Datapath!;
        Assert.Throws<ArgumentException>(() => WasmJob.Of(CheckProgram.Of(datapath, null, OracleUse.Stepped)));
    }
}
