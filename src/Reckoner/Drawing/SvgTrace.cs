using System.Globalization;
using System.Text;

namespace Reckoner.Drawing;

/// <summary>Paths and numbers as SVG writes them.</summary>
public static class SvgTrace
{
    /// <summary>Hundredths are finer than any screen shows.</summary>
    public static string Number(double number)
    {
        var text = Math.Round(number, 2).ToString("0.##", CultureInfo.InvariantCulture);
        return text == "-0" ? "0" : text;
    }

    public static string Of(IReadOnlyList<PathStep> steps)
    {
        var text = new StringBuilder();
        foreach (var step in steps)
        {
            switch (step.Kind)
            {
                case StepKind.Move:
                    Add(text.Append('M'), step.To);
                    break;
                case StepKind.Line:
                    Add(text.Append('L'), step.To);
                    break;
                case StepKind.Curve:
                    Add(text.Append('C'), step.First);
                    Add(text.Append(' '), step.Second);
                    Add(text.Append(' '), step.To);
                    break;
                case StepKind.Close:
                    text.Append('Z');
                    break;
                default:
                    throw new InvalidOperationException(step.Kind.ToString());
            }
        }
        return text.ToString();
    }

    private static void Add(StringBuilder text, Point at) => text.Append(Number(at.X)).Append(' ').Append(Number(at.Y));
}
