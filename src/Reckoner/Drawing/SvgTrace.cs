using System.Text;

namespace Reckoner.Drawing;

/// <summary>Paths and numbers as SVG writes them.</summary>
internal static class SvgTrace
{
    public static string Number(double number) => Append(new StringBuilder(), number).ToString();

    /// <summary>Hundredths are finer than any screen shows.</summary>
    /// <param name="number">Any of a page, far below what a whole number of 64 bits holds.</param>
    public static StringBuilder Append(StringBuilder text, double number)
    {
        // By whole numbers, which are written much faster, and of numbers there are thousands in a figure.
        var hundredths = (long)Math.Round(number * 100);
        if (hundredths < 0)
        {
            text.Append('-');
            hundredths = -hundredths;
        }
        text.Append(hundredths / 100);
        var (tenth, rest) = ((int)(hundredths / 10 % 10), (int)(hundredths % 10));
        if (tenth + rest == 0)
        {
            return text;
        }
        text.Append('.').Append((char)('0' + tenth));
        return rest == 0 ? text : text.Append((char)('0' + rest));
    }

    public static StringBuilder Append(StringBuilder text, IReadOnlyList<PathStep> steps)
    {
        foreach (var step in steps)
        {
            _ = step.Kind switch
            {
                StepKind.Move => Add(text.Append('M'), step.To),
                StepKind.Line => Add(text.Append('L'), step.To),
                StepKind.Curve => Add(
                    Add(Add(text.Append('C'), step.First).Append(' '), step.Second).Append(' '),
                    step.To
                ),
                StepKind.Close => text.Append('Z'),
            };
        }
        return text;
    }

    private static StringBuilder Add(StringBuilder text, Point at) => Append(Append(text, at.X).Append(' '), at.Y);
}
