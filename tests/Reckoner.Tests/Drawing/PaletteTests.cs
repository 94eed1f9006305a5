using Reckoner.Drawing;
using Xunit;

namespace Reckoner.Tests;

public class PaletteTests
{
    public static TheoryData<string> Names => [.. Palette.All.Select(p => p.Name)];

    private static Palette Named(string name) => Palette.All.Single(p => p.Name == name);

    private static IEnumerable<int> Hues => Enumerable.Range(Role.Neutral, Palette.Hues + 1);

    /// <summary>Contrast ratios as the W3C's guidelines define them, on pairs whose ratios are known.</summary>
    [Theory]
    [InlineData(0x000000, 0xFFFFFF, 21.0)]
    [InlineData(0x767676, 0xFFFFFF, 4.54)]
    [InlineData(0x777777, 0xFFFFFF, 4.48)]
    [InlineData(0x0000FF, 0xFFFFFF, 8.59)]
    public void Contrast_is_that_of_the_guidelines(int a, int b, double ratio) =>
        Assert.Equal(ratio, Colour.Of(a).Contrast(Colour.Of(b)), 0.005);

    [Theory]
    [MemberData(nameof(Names))]
    public void Every_ink_can_be_read_on_every_ground(string name)
    {
        var palette = Named(name);
        Role[] grounds = [Role.Ground, Role.Plain, .. Hues.Select(Role.Tint)];
        var weak =
            from ink in new[] { Role.Ink, Role.Quiet }
            from ground in grounds
            let ratio = palette.Of(ink).Contrast(palette.Of(ground))
            where ratio < 4.5
            select $"{ink} on {ground}: {ratio:0.00}";
        Assert.Empty(weak);
    }

    [Theory]
    [MemberData(nameof(Names))]
    public void Threads_and_edges_stand_out_from_the_page(string name)
    {
        var palette = Named(name);
        var weak = Hues.Select(h => palette.Of(Role.Edge(h)).Contrast(palette.Of(Role.Ground))).Where(c => c < 4.5);
        Assert.Empty(weak);
    }

    /// <summary>A digit stands on hatching too.</summary>
    [Theory]
    [MemberData(nameof(Names))]
    public void Hatching_is_fainter_than_what_stands_on_it(string name)
    {
        var palette = Named(name);
        Assert.True(palette.Of(Role.Ink).Contrast(palette.Of(Role.Hatch)) >= 4.5);
    }

    [Fact]
    public void Where_there_are_no_colours_hues_have_patterns_of_their_own()
    {
        var box = new Box(0, 0, 30, 28);
        var patterns = Enumerable.Range(0, Palette.Hues).Select(h => Hatching.Of(h, box)?.Steps ?? []).ToList();
        Assert.Equal(Palette.Hues, patterns.Select(p => string.Join(' ', p)).Distinct().Count());
        Assert.All(patterns.SelectMany(p => p), step => Assert.True(box.Contains(new Box(step.To.X, step.To.Y, 0, 0))));
    }
}
