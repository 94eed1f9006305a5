using Reckoner.Documents.Lessons.Formulas;
using Xunit;

namespace Reckoner.Documents.Tests;

/// <summary>Formulas of lessons: what is read, what is refused and where, and what each output makes of it.</summary>
public class FormulaTests
{
    private static Formula Read(string text)
    {
        var (formula, stuck) = FormulaReader.Read(text);
        Assert.True(formula is not null, $"stuck at {stuck} in {text}");
        return formula;
    }

    [Theory]
    [InlineData("a = q * d + r", "a = q · d + r")]
    [InlineData(@"0 \le r < d", "0 ≤ r < d")]
    [InlineData("2^n - 1", "2^n − 1")]
    [InlineData("-b + 1", "−b + 1")]
    [InlineData("a - -b", "a − −b")]
    [InlineData("x_10^2", "x_10^2")]
    [InlineData("x^2_{i+1}", "x_(i + 1)^2")]
    [InlineData(@"\lfloor \frac{a}{d} \rfloor", "⌊a/d⌋")]
    [InlineData(@"\frac{a - r}{d}", "(a − r)/d")]
    [InlineData(@"\sum_{i=0}^{n-1} q_i 2^i", "∑_(i = 0)^(n − 1) q_i2^i")]
    [InlineData(@"\sqrt{x + 1} \ge \alpha\Omega", "√(x + 1) ≥ αΩ")]
    [InlineData(@"quotient \cdot divisor", "quotient · divisor")]
    [InlineData(@"1,5 \text{ und } 1.5", "1,5 und 1.5")]
    public void A_formula_is_read(string text, string plain) => Assert.Equal(plain, FormulaText.Plain(Read(text)));

    [Theory]
    [InlineData(@"\left( a", 0, @"\left")]
    [InlineData("a^", 2, "")]
    [InlineData("a^2^3", 3, "^")]
    [InlineData("{a", 2, "")]
    [InlineData("a}", 1, "}")]
    [InlineData(@"\frac{a}", 8, "")]
    [InlineData("a & b", 2, "&")]
    [InlineData(@"1 + \int x", 4, @"\int")]
    [InlineData("<b>&", 3, "&")]
    public void What_is_no_formula_is_said_with_its_place(string text, int place, string found)
    {
        var (formula, stuck) = FormulaReader.Read(text);
        Assert.Null(formula);
        Assert.Equal((place, found), (stuck, FormulaReader.Found(text, stuck)));
    }

    [Fact]
    public void What_nests_without_end_is_refused() =>
        Assert.Null(FormulaReader.Read(string.Concat(Enumerable.Repeat("{", 100_000))).Formula);

    [Fact]
    public void A_page_gets_MathML()
    {
        Assert.Equal(
            "<math><mrow><mfrac><mi mathvariant=\"normal\">a</mi><mn>2</mn></mfrac>"
                + "<mo>&lt;</mo><msup><mi mathvariant=\"normal\">b</mi><mn>2</mn></msup></mrow></math>",
            FormulaText.MathMl(Read(@"\frac{a}{2} < b^2"), isDisplay: false)
        );
    }

    /// <summary>Nothing of it stands left of its beginning, over its height or beyond its width.</summary>
    [Theory]
    [InlineData(@"\sum_{i=0}^{n-1} q_i 2^i")]
    [InlineData(@"(\frac{a - r}{d})^2")]
    [InlineData(@"\sqrt{\frac{1}{2}} + x_{10}^{20}")]
    public void A_formula_stays_in_its_box(string text)
    {
        foreach (var isDisplay in new[] { false, true })
        {
            var drawing = FormulaSetting.Of(Read(text), 14, isDisplay);
            var face = Drawing.Typeface.Of(Drawing.Face.Plain);
            Assert.NotEmpty(drawing.Letters);
            foreach (var letters in drawing.Letters)
            {
                var (up, down) = face.Reach(letters.Words, letters.Size);
                Assert.InRange(letters.Left, 0, drawing.Width + 0.01);
                Assert.InRange(letters.Left + face.Width(letters.Words, letters.Size), 0, drawing.Width + 0.01);
                Assert.InRange(up - letters.Line, -99, drawing.Up + 0.01);
                Assert.InRange(down + letters.Line, -99, drawing.Down + 0.01);
            }
            Assert.All(drawing.Strokes.SelectMany(s => s.Points), p => Assert.InRange(p.X, 0, drawing.Width + 0.01));
        }
    }
}
