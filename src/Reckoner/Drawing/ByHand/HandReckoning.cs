using System.Numerics;
using Reckoner.Words;

namespace Reckoner.Drawing;

/// <summary>Does sums by hand, digit by digit, in any base up to 16; divisions and roots on whole numbers that are not negative.</summary>
internal sealed class HandReckoning(int number, Vocabulary words)
{
    public const string Minus = "−";
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

    private static string SignOf(BigInteger value) => value.Sign < 0 ? Minus : "";

    /// <summary>A digit with its sign; 0 has none.</summary>
    public static string Signed(int digit) => digit > 0 ? $"+{digit}" : $"{(digit < 0 ? Minus : "")}{Math.Abs(digit)}";

    /// <summary>From the highest digit: bring it down, take the divisor away as often as it goes.</summary>
    /// <param name="cycles">For each bit of the quotient the cycles that took; null where no single ones did.</param>
    public HandLines Divide(BigInteger dividend, int width, BigInteger divisor, IReadOnlyList<CycleSpan?>? cycles)
    {
        var digits = Text(dividend, width);
        var lines = new List<HandLine>();
        var (rest, quotient) = (BigInteger.Zero, "");
        var made = new List<CycleSpan?>();
        for (var place = digits.Length - 1; place >= 0; place--)
        {
            rest = rest * radix + Digit(digits, place);
            var times = rest / divisor;
            quotient += Signs[(int)times];
            var by = Cycles(place, cycles);
            made.Add(by);
            var tried = Short(times.IsZero ? divisor : times * divisor);
            var what = words.Say(
                times.IsZero ? "by-hand.does-not-go" : "by-hand.goes",
                ("tried", tried),
                ("digit", Short(times))
            );
            if (number != 2 && times == 0 && rest == 0 | quotient.All(d => d == '0'))
            {
                continue;
            }
            lines.Add(new HandLine(Short(rest), place, "", RuleBelow: false, When(by), what, by));
            if (times > 0)
            {
                rest -= times * divisor;
                lines.Add(new HandLine(Short(times * divisor), place, Minus, RuleBelow: true, "", "", by));
            }
        }
        lines.Add(Remains(rest, made));
        return new HandLines(digits, Short(divisor), quotient, [.. made.Select(m => m?.To)], lines)
        {
            AreOfCycles = cycles is not null,
            Before = Before(made),
            LastBefore = LastBefore(made),
        };
    }

    /// <summary>What cycles do before the first that has a line: nothing is taken away in them, or there were no cycles at all.</summary>
    private string Before(IEnumerable<CycleSpan?> made) =>
        LastBefore(made) is > 0 and var last
            ? words.Say(
                "by-hand.beside",
                ("when", When(new CycleSpan(1, last))),
                ("what", words.Say("by-hand.takes-nothing"))
            )
            : "";

    /// <summary>The last of those cycles; 0 for none.</summary>
    private static int LastBefore(IEnumerable<CycleSpan?> made) =>
        made.OfType<CycleSpan>().Select(s => s.From).DefaultIfEmpty(1).Min() - 1;

    private HandLine Remains(BigInteger rest, List<CycleSpan?> made) =>
        new(Short(rest), 0, "", RuleBelow: false, "", words.Say("by-hand.rest"), made.LastOrDefault());

    /// <summary>A row for each digit of the second factor, then their sum; in base 2 for the digits that a machine took it for.</summary>
    /// <param name="digits">Those, the lowest first; null where the machine adds no single rows.</param>
    /// <param name="highestFirst">Whether the row of the highest digit stands first.</param>
    public HandLines Multiply(
        BigInteger first,
        int width,
        BigInteger second,
        int secondWidth,
        IReadOnlyList<HandDigit>? digits,
        bool highestFirst
    )
    {
        var (a, b) = (Text(BigInteger.Abs(first), width), Text(BigInteger.Abs(second), secondWidth));
        var written = digits is not null && AreWritten(digits, second);
        var recoded = digits is not null && !written && number == 2 ? digits : [];
        var rows = recoded.Count > 0 ? recoded : [.. Written(b, written ? digits : null)];
        // Where a row may be taken away, each says which it is; else the last says that all are added.
        var factor = recoded.Count > 0 || written ? first : BigInteger.Abs(first);
        var saysEach = rows.Any(r => (r.Digit * factor).Sign < 0);
        var lines = rows.Select(Row).ToList();
        if (highestFirst)
        {
            lines.Reverse();
        }
        lines[^1] = lines[^1] with { RuleBelow = true, Sign = !saysEach && lines.Count > 1 ? "+" : lines[^1].Sign };
        var product = first * second;
        var (text, last) = (Text(BigInteger.Abs(product), 1), (digits ?? rows).Max(r => r.Cycles?.To));
        var sum = words.Say("by-hand.product");
        CycleSpan? end = last is { } cycle ? new CycleSpan(cycle, cycle) : null;
        lines.Add(new HandLine(text, 0, SignOf(product), RuleBelow: false, "", sum, end));
        return new HandLines(a, b, text, [], lines)
        {
            Recoded = recoded,
            FirstSign = SignOf(first),
            SecondSign = SignOf(second),
            AreOfCycles = written || recoded.Count > 0,
        };

        HandLine Row(HandDigit digit)
        {
            var row = digit.Digit * factor;
            var text =
                number != 2 ? Short(BigInteger.Abs(row))
                : digit.Digit == 0 ? new string('0', a.Length)
                : Text(BigInteger.Abs(row), width);
            var sign =
                !saysEach || digit.Digit == 0 ? ""
                : row.Sign < 0 ? Minus
                : "+";
            var told = recoded.Count > 0 ? Signed(digit.Digit) : Short(digit.Digit);
            var what = words.Say("by-hand.times", ("digit", told));
            return new HandLine(text, digit.Place, sign, RuleBelow: false, When(digit.Cycles), what, digit.Cycles);
        }
    }

    /// <summary>The digits of a factor as it is written.</summary>
    /// <param name="bits">The bits with their cycles; null where none have any.</param>
    private IEnumerable<HandDigit> Written(string factor, IReadOnlyList<HandDigit>? bits)
    {
        var cycles = bits?.Select(b => b.Cycles).ToList();
        return Enumerable
            .Range(0, factor.Length)
            .Select(place => new HandDigit(Digit(factor, place), place, Cycles(place, cycles)));
    }

    /// <summary>Whether digits are the bits of a number as it is written; those that were not looked at are 0.</summary>
    private static bool AreWritten(IReadOnlyList<HandDigit> digits, BigInteger number) =>
        number >> digits.Count == 0
        && digits.Select((d, i) => d.Place == i && d.Digit == ((number >> i).IsEven ? 0 : 1)).All(x => x);

    /// <summary>What a division by hand takes away for each bit of the quotient, from the lowest.</summary>
    public static IReadOnlyList<BigInteger> DivisionSteps(BigInteger dividend, BigInteger divisor, int width) =>
        [.. Enumerable.Range(0, width).Select(p => ((dividend / divisor) >> p).IsEven ? 0 : divisor << p)];

    /// <summary>What a root by hand takes away for each bit of the root, from the lowest.</summary>
    public static IReadOnlyList<BigInteger> RootSteps(BigInteger radicand, int width)
    {
        var steps = new BigInteger[width];
        var (rest, root) = (radicand, BigInteger.Zero);
        for (var place = width - 1; place >= 0; place--)
        {
            var trial = (4 * root + 1) << (2 * place);
            steps[place] = trial <= rest ? trial : 0;
            rest -= steps[place];
            root = 2 * root + (steps[place].IsZero ? 0 : 1);
        }
        return steps;
    }

    /// <summary>Two digits at a time: with root r so far, the greatest d for which (2r, then d) times d goes.</summary>
    public HandLines Root(BigInteger radicand, int width, IReadOnlyList<CycleSpan?>? cycles)
    {
        var digits = Text(radicand, width);
        digits = digits.PadLeft(digits.Length + digits.Length % 2, '0');
        var lines = new List<HandLine>();
        var (rest, root, text) = (BigInteger.Zero, BigInteger.Zero, "");
        var made = new List<CycleSpan?>();
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
            made.Add(by);
            var key = digit.IsZero ? "by-hand.does-not-go" : "by-hand.goes";
            var what = words.Say(key, ("tried", Short(trial)), ("digit", Short(digit)));
            lines.Add(new HandLine(Short(rest), 2 * place, "", RuleBelow: false, When(by), what, by));
            if (!digit.IsZero)
            {
                rest -= trial;
                lines.Add(new HandLine(Short(trial), 2 * place, Minus, RuleBelow: true, "", "", by));
            }
            root = root * radix + digit;
            text += Signs[(int)digit];
        }
        lines.Add(Remains(rest, made));
        return new HandLines(digits, "", text, [.. made.Select(m => m?.To)], lines)
        {
            AreOfCycles = cycles is not null,
            Before = Before(made),
            LastBefore = LastBefore(made),
        };
    }

    /// <summary>The first and last cycle of a digit's bits; in base 10 a digit is no number of whole bits.</summary>
    private CycleSpan? Cycles(int place, IReadOnlyList<CycleSpan?>? cycles)
    {
        if (number == 10 || cycles is null)
        {
            return null;
        }
        var size = BitOperations.Log2((uint)number);
        var own = cycles
            .Skip(place * size)
            .Take(size)
            .OfType<CycleSpan>()
            .SelectMany(s => new[] { s.From, s.To })
            .ToList();
        return own.Count == 0 ? null : CycleSpan.Over(own);
    }

    private string When(CycleSpan? cycles) =>
        cycles is not { } span ? ""
        : span.From == span.To ? words.Say("by-hand.in-cycle", ("cycle", span.To))
        : words.Say("by-hand.in-cycles", ("from", span.From), ("to", span.To));
}
