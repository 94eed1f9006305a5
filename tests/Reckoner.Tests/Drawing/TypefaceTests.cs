using Reckoner.Drawing;
using Xunit;

namespace Reckoner.Tests;

public class TypefaceTests
{
    /// <summary>
    /// Advances of the bundled fonts in 2000ths of the size, read from their tables with an independent tool (FontTools 4.38).
    /// </summary>
    [Theory]
    [InlineData(Face.Plain, '0', 1300)]
    [InlineData(Face.Bold, '0', 1300)]
    [InlineData(Face.Mono, '0', 1300)]
    [InlineData(Face.Mono, 'W', 1300)]
    public void Advances_are_those_of_the_font(Face face, char c, int advance) =>
        Assert.Equal(advance / 2000.0, Typeface.Of(face).Width($"{c}", 1), 1e-9);

    [Fact]
    public void What_the_font_has_not_is_told()
    {
        Assert.True(Typeface.Of(Face.Plain).Knows("Division: äöü é ≤ − × ÷ →"));
        Assert.False(Typeface.Of(Face.Plain).Knows("割り算"));
    }

    /// <summary>An outline lies where the glyph's advance puts it, closed, and an o has two rounds.</summary>
    [Fact]
    public void Letters_become_closed_outlines_inside_their_box()
    {
        var text = new Text("oag0", new(10, 50), Anchor.Start, Face.Plain, 20, Role.Ink, Role.Ground, null);
        var steps = Lettering.Of(text).ToList();
        Assert.Equal(2, Lettering.Of(text with { Words = "o" }).Count(s => s.Kind == StepKind.Close));
        Assert.Equal(steps.Count(s => s.Kind == StepKind.Move), steps.Count(s => s.Kind == StepKind.Close));
        var drawn = steps.Where(s => s.Kind != StepKind.Close).Select(s => s.To).ToList();
        Assert.All(drawn, p => Assert.True(text.Box.Grown(1).Contains(new Box(p.X, p.Y, 0, 0)), $"{p}"));
        Assert.True(drawn.Max(p => p.Y) > 52, "the g reaches below the line");
    }
}
