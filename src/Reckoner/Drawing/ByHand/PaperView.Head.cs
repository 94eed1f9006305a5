namespace Reckoner.Drawing;

internal sealed partial class PaperView
{
    /// <summary>The divisor left of a bar and the quotient above it; the second factor below the first; a root beside its sign.</summary>
    private double Stacked() =>
        kind switch
        {
            HandKind.Division => StackedDivision(Top + LinePitch),
            HandKind.Multiplication => StackedMultiplication(Top + LinePitch),
            HandKind.Root => StackedRoot(Top + LinePitch),
        };

    /// <summary>The bar that stands for "goes into" ends at the line that it divides, and reaches over the places of the quotient.</summary>
    private double StackedDivision(double y)
    {
        Result(Top);
        var bar = X(places - 1) - Pitch / 2 - 6;
        shapes.Add(Line(new(bar, y + 9), new(bar, Top + 9), new(X(0) + Pitch / 2, Top + 9)));
        Digits(sum.Second, places + 1, y, isGiven: true);
        Digits(sum.First, 0, y, isGiven: true);
        return y;
    }

    private double StackedMultiplication(double y)
    {
        Digits(sum.First, 0, Top, isGiven: true);
        Sign(sum.FirstSign, sum.First.Length, Top);
        Digits(sum.Second, 0, y, isGiven: true);
        Sign(sum.SecondSign, sum.Second.Length, y);
        Say("×", X(places) - 7, y, Face.Plain, DigitSize, Role.Ink);
        y = Recoded(0, y);
        Rule(X(places - 1) - Pitch / 2 - 4, X(0) + Pitch / 2, y + 9);
        return y;
    }

    private double StackedRoot(double y)
    {
        Result(Top);
        Radical(y);
        return y;
    }

    /// <summary>All in one line, with the sign of the sum and, where there is one, the result behind an equals sign.</summary>
    private double InLine() =>
        kind switch
        {
            HandKind.Division => DivisionInLine(),
            HandKind.Multiplication => MultiplicationInLine(),
            HandKind.Root => RootInLine(),
        };

    private double DivisionInLine()
    {
        OperandsInLine(":");
        ResultInLine(-2 - sum.Second.Length);
        return Top;
    }

    private double MultiplicationInLine()
    {
        var secondPlace = OperandsInLine("×");
        var y = Recoded(secondPlace, Top);
        Rule(X(places - 1) - Pitch / 2, X(secondPlace) + Pitch / 2, y + 9);
        return y;
    }

    private double RootInLine()
    {
        Radical(Top);
        ResultInLine(-1);
        return Top;
    }

    /// <returns>The place of the second operand's last digit.</returns>
    private int OperandsInLine(string sign)
    {
        var secondPlace = -1 - sum.Second.Length - sum.SecondSign.Length;
        Digits(sum.First, 0, Top, isGiven: true);
        Sign(sum.FirstSign, sum.First.Length, Top);
        Say(sign, X(-1) - 6, Top, Face.Plain, DigitSize, Role.Ink);
        Digits(sum.Second, secondPlace, Top, isGiven: true);
        Sign(sum.SecondSign, secondPlace + sum.Second.Length, Top);
        return secondPlace;
    }

    /// <param name="place">Of the equals sign.</param>
    private void ResultInLine(int place)
    {
        Say("=", X(place) - 6, Top, Face.Plain, DigitSize, Role.Ink);
        Result(Top, place - 1);
    }

    /// <summary>The digits that the second factor is taken for, each at its place below those it is written with.</summary>
    private double Recoded(int lowest, double above)
    {
        if (sum.Recoded.Count == 0)
        {
            return above;
        }
        var y = above + RecodedPitch;
        foreach (var digit in sum.Recoded.Where(d => IsShown(d.Cycles?.To)))
        {
            var box = new Box(X(lowest + digit.Place) - Pitch / 2, y - 17, Pitch, 22);
            if (figure.IsBlank)
            {
                shapes.Add(
                    new Area(new Rectangle(new Box(box.Left + 1, box.Top, Pitch - 2, 21), 3), null, Role.Quiet, 1.1)
                );
                continue;
            }
            var words = HandReckoning.Signed(digit.Digit);
            shapes.Add(Text.Centred(words, box, Face.Mono, RecodedSize, Role.Ink, Role.Ground));
        }
        return y;
    }

    /// <summary>The radicand under its sign, digits in pairs.</summary>
    private void Radical(double y)
    {
        Digits(sum.First, 0, y, isGiven: true);
        var start = X(places - 1) - Pitch / 2;
        shapes.Add(
            Line(
                new(start - 18, y - 8),
                new(start - 13, y - 11),
                new(start - 7, y + 6),
                new(start, y - 24),
                new(X(0) + Pitch / 2, y - 24)
            )
        );
        for (var place = 1; place < sum.First.Length / 2; place++)
        {
            var x = X(2 * place) + Pitch / 2;
            shapes.Add(new Stroke(Trace.Through(new(x, y - 18), new(x, y + 6)), Role.Rule, 1.4));
        }
    }

    /// <summary>The result's digits as far as they are known; over the digits that gave them, or in line.</summary>
    private void Result(double y, int? firstPlace = null)
    {
        for (var i = 0; i < sum.Result.Length; i++)
        {
            if (IsShown(sum.ResultCycles[i]))
            {
                var over = sum.Result.Length - 1 - i;
                var place =
                    firstPlace is { } first ? first - i
                    : kind == HandKind.Root ? 2 * over
                    : over;
                Digits($"{sum.Result[i]}", place, y, isGiven: false);
            }
        }
    }
}
