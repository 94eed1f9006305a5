using System.Numerics;
using Reckoner.Words;

namespace Reckoner.Drawing;

/// <summary>A line of a sum by hand.</summary>
/// <param name="Digits">What stands there, most significant first.</param>
/// <param name="Place">The place of its last digit; 0 are the ones.</param>
/// <param name="Sign">What stands before it: minus, plus, times.</param>
/// <param name="RuleBelow">Whether a line is drawn below it.</param>
/// <param name="When">The cycles that did it, in words; empty where no single ones did.</param>
/// <param name="What">What they did.</param>
/// <param name="Cycle">The last cycle that did it; null where no single one did.</param>
internal sealed record HandLine(
    string Digits,
    int Place,
    string Sign,
    bool RuleBelow,
    string When,
    string What,
    int? Cycle
)
{
    /// <summary>Its first digit's place.</summary>
    public int Top => Place + Digits.Length - 1;
}

/// <summary>A sum by hand in a base: the lines below its head.</summary>
/// <param name="First">The digits of the first operand; so <paramref name="Second"/> and <paramref name="Result"/>.</param>
internal sealed record HandLines(
    string First,
    string Second,
    string Result,
    IReadOnlyList<int?> ResultCycles,
    IReadOnlyList<HandLine> Lines
);

/// <summary>Does sums by hand, digit by digit, in any base up to 16, on whole numbers that are not negative.</summary>
internal sealed class HandReckoning(int number, Vocabulary words)
{
    private const string Signs = "0123456789ABCDEF";
    private readonly BigInteger radix = number;

    /// <summary>In base 2 as wide as the machine has it; else without leading zeros.</summary>
    public string Text(BigInteger value, int width)
    {
        var digits = "";
        for (var rest = value; rest > 0 || digits.Length == 0; rest /= radix)
        {
            digits = Signs[(int)(rest % radix)] + digits;
        }
        return number == 2 ? digits.PadLeft(width, '0') : digits;
    }

    private string Short(BigInteger value) => Text(value, 1);

    private static int Digit(string digits, int place) =>
        Signs.IndexOf(digits[digits.Length - 1 - place], StringComparison.Ordinal);

    /// <summary>From the highest digit: bring it down, take the divisor away as often as it goes.</summary>
    /// <param name="cycles">For each bit of the quotient the cycle that made it.</param>
    public HandLines Divide(
        BigInteger dividend,
        int width,
        BigInteger divisor,
        int divisorWidth,
        IReadOnlyList<int?> cycles
    )
    {
        var digits = Text(dividend, width);
        var lines = new List<HandLine>();
        var (rest, quotient) = (BigInteger.Zero, "");
        var made = new List<int?>();
        for (var place = digits.Length - 1; place >= 0; place--)
        {
            rest = rest * radix + Digit(digits, place);
            var times = rest / divisor;
            quotient += Signs[(int)times];
            var by = Cycles(place, cycles);
            made.Add(by.To);
            var what = words.Say("by-hand.quotient-digit", ("digit", Short(times)));
            if (number != 2 && times == 0 && rest == 0 | quotient.All(d => d == '0'))
            {
                continue;
            }
            lines.Add(new HandLine(Short(rest), place, "", false, When(by), what, by.To));
            if (times > 0)
            {
                rest -= times * divisor;
                lines.Add(new HandLine(Short(times * divisor), place, "−", true, "", "", by.To));
            }
        }
        lines.Add(new HandLine(Short(rest), 0, "", false, "", words.Say("by-hand.rest"), made.LastOrDefault()));
        return new HandLines(digits, Text(divisor, divisorWidth), quotient, made, lines);
    }

    /// <summary>A row for each digit of the second factor, then their sum.</summary>
    /// <param name="highestFirst">Whether the row of the highest digit stands first.</param>
    public HandLines Multiply(
        BigInteger first,
        int width,
        BigInteger second,
        int secondWidth,
        IReadOnlyList<int?> cycles,
        bool highestFirst
    )
    {
        var (a, b) = (Text(first, width), Text(second, secondWidth));
        var lines = new List<HandLine>();
        for (var i = 0; i < b.Length; i++)
        {
            var place = highestFirst ? b.Length - 1 - i : i;
            var by = Cycles(place, cycles);
            var digit = Digit(b, place);
            var row = number == 2 ? (digit == 1 ? a : new string('0', a.Length)) : Short(first * digit);
            var what = words.Say("by-hand.times", ("digit", Short(digit)));
            var isLast = i == b.Length - 1;
            lines.Add(new HandLine(row, place, isLast && b.Length > 1 ? "+" : "", isLast, When(by), what, by.To));
        }
        var last = cycles.Max();
        lines.Add(new HandLine(Text(first * second, 1), 0, "", false, "", words.Say("by-hand.product"), last));
        return new HandLines(a, b, Text(first * second, 1), [], lines);
    }

    /// <summary>Two digits at a time: with root r so far, the greatest d for which (2r, then d) times d goes.</summary>
    public HandLines Root(BigInteger radicand, int width, IReadOnlyList<int?> cycles)
    {
        var digits = Text(radicand, width);
        digits = digits.PadLeft(digits.Length + digits.Length % 2, '0');
        var lines = new List<HandLine>();
        var (rest, root, text) = (BigInteger.Zero, BigInteger.Zero, "");
        var made = new List<int?>();
        for (var place = digits.Length / 2 - 1; place >= 0; place--)
        {
            rest = (rest * radix + Digit(digits, 2 * place + 1)) * radix + Digit(digits, 2 * place);
            var digit = radix - 1;
            while ((2 * root * radix + digit) * digit > rest)
            {
                digit--;
            }
            var tried = digit.IsZero ? 1 : digit;
            var trial = (2 * root * radix + tried) * tried;
            var by = Cycles(place, cycles);
            made.Add(by.To);
            var key = digit.IsZero ? "by-hand.does-not-go" : "by-hand.goes";
            lines.Add(
                new HandLine(
                    Short(rest),
                    2 * place,
                    "",
                    false,
                    When(by),
                    words.Say(key, ("tried", Short(trial)), ("digit", Short(digit))),
                    by.To
                )
            );
            if (!digit.IsZero)
            {
                rest -= trial;
                lines.Add(new HandLine(Short(trial), 2 * place, "−", true, "", "", by.To));
            }
            root = root * radix + digit;
            text += Signs[(int)digit];
        }
        lines.Add(new HandLine(Short(rest), 0, "", false, "", words.Say("by-hand.rest"), made.LastOrDefault()));
        return new HandLines(digits, "", text, made, lines);
    }

    /// <summary>The first and last cycle of a digit's bits; in base 10 a digit is no number of whole bits.</summary>
    private (int? From, int? To) Cycles(int place, IReadOnlyList<int?> cycles)
    {
        if (number == 10)
        {
            return (null, null);
        }
        var size = BitOperations.Log2((uint)number);
        var own = cycles.Skip(place * size).Take(size).OfType<int>().ToList();
        return own.Count == 0 ? (null, null) : (own.Min(), own.Max());
    }

    private string When((int? From, int? To) cycles) =>
        cycles is not ({ } from, { } to) ? ""
        : from == to ? words.Say("by-hand.in-cycle", ("cycle", to))
        : words.Say("by-hand.in-cycles", ("from", from), ("to", to));
}
