using System.Globalization;
using System.Numerics;
using Reckoner.Binding;
using Reckoner.Datapaths;
using Reckoner.Diagnostics;
using Reckoner.Notation;
using Reckoner.Numbers;

namespace Reckoner.Running;

/// <summary>A word of a request and where it stands there.</summary>
public readonly record struct RequestWord(string Text, Span Span);

/// <summary>Reads operands as people write them: by place or name=value; decimal, 0b, 0o, 0x, "_" between digits, a sign.</summary>
public static class OperandReader
{
    /// <summary>The longest operand in digits; every width that is taken fits in it.</summary>
    private const int LongestNumber = 20_000;

    /// <summary>A whole number as people write it, or null.</summary>
    public static BigInteger? Number(string text)
    {
        var sign = text.StartsWith('-') ? -1 : 1;
        var digits = text.TrimStart('-', '+');
        if (text.Length - digits.Length > 1 || digits.Length is 0 or > LongestNumber)
        {
            return null;
        }
        var (radix, body) =
            digits.Length > 2 && digits[0] == '0'
                ? char.ToLowerInvariant(digits[1]) switch
                {
                    'b' => (2, digits[2..]),
                    'o' => (8, digits[2..]),
                    'x' => (16, digits[2..]),
                    _ => (10, digits),
                }
                : (10, digits);
        var groups = body.Split('_');
        body = string.Concat(groups);
        if (groups.Contains("") || !body.All(c => DigitOf(c) < radix))
        {
            return null;
        }
        return sign * Parse(body, radix);
    }

    private static int DigitOf(char c) =>
        char.IsAsciiHexDigit(c)
            ? int.Parse(c.ToString(), NumberStyles.HexNumber, CultureInfo.InvariantCulture)
            : int.MaxValue;

    private static BigInteger Parse(string digits, int radix) =>
        radix switch
        {
            2 => BigInteger.Parse("0" + digits, NumberStyles.BinaryNumber, CultureInfo.InvariantCulture),
            16 => BigInteger.Parse("0" + digits, NumberStyles.HexNumber, CultureInfo.InvariantCulture),
            10 => BigInteger.Parse(digits, CultureInfo.InvariantCulture),
            _ => digits.Aggregate(BigInteger.Zero, (value, c) => value * radix + DigitOf(c)),
        };

    /// <summary>The bits of one operand, written in a field of its own; null with the reason in the report.</summary>
    public static BigInteger? Read(Datapath datapath, Operand operand, string text, Report report) =>
        Read(datapath, operand, text, new RequestWord(text, new Span(0, text.Length)), report);

    /// <summary>
    /// The operands' bits in the order of the text, or null with the reasons in the report. Whether they satisfy "given" is
    /// not asked here.
    /// </summary>
    public static IReadOnlyList<BigInteger>? Read(
        Datapath datapath,
        IReadOnlyList<RequestWord> words,
        Span request,
        Report report
    )
    {
        var operands = datapath.Operands;
        var values = new BigInteger?[operands.Count];
        var place = 0;
        var found = report.Count;
        foreach (var word in words)
        {
            var index = place;
            var text = word.Text;
            var equals = text.IndexOf('=', StringComparison.Ordinal);
            if (equals > 0)
            {
                index = operands.ToList().FindIndex(o => o.Name == text[..equals]);
                text = text[(equals + 1)..];
                if (index < 0)
                {
                    var names = operands.Select(o => o.Name).ToList();
                    var name = word.Text[..equals];
                    report.Add(
                        Id.UnknownOperand,
                        word.Span,
                        ("machine", datapath.Machine.Name),
                        ("operand", name),
                        ("operands", names),
                        ("near", NearNames.Of(name, names))
                    );
                    continue;
                }
            }
            else
            {
                while (place < values.Length && values[place] is not null)
                {
                    place++;
                }
                index = place;
                if (index >= operands.Count)
                {
                    ReportCount(datapath, words.Count, word.Span, report);
                    return null;
                }
            }
            if (values[index] is not null)
            {
                report.Add(Id.OperandTwice, word.Span, ("operand", operands[index].Name));
                continue;
            }
            values[index] = Read(datapath, operands[index], text, word, report) ?? BigInteger.Zero;
        }
        if (report.Count > found)
        {
            return null;
        }
        if (Array.Exists(values, v => v is null))
        {
            ReportCount(datapath, words.Count, words.Count > 0 ? words[^1].Span : request, report);
            return null;
        }
        return [.. values.Select(v => v!.Value)];
    }

    private static void ReportCount(Datapath datapath, int found, Span span, Report report)
    {
        var names = datapath.Operands.Select(o => o.Name).ToList();
        var usage = $"reckoner walk {datapath.Machine.Name} {string.Join(' ', names.Select(n => n + "=…"))}";
        report.Add(
            Id.OperandCount,
            span,
            ("machine", datapath.Machine.Name),
            ("count", names.Count),
            ("operands", names),
            ("found", found),
            ("usage", usage)
        );
    }

    private static BigInteger? Read(Datapath datapath, Operand operand, string text, RequestWord word, Report report)
    {
        var span = word.Span;
        if (Number(text) is not { } number)
        {
            var value = text.Length == 0 ? word.Text : text;
            report.Add(Id.OperandNotNumber, span, ("value", value.Length > 40 ? value[..39] + "…" : value));
            return null;
        }
        if (Bits.Fits(number, operand.Width, operand.IsSigned))
        {
            return Bits.Wrap(number, operand.Width);
        }
        var shown = number.GetBitLength() > 200 ? text[..20] + "…" : Bits.Text(number);
        if (number.Sign < 0 && !operand.IsSigned)
        {
            report.Add(Id.OperandNegative, span, ("operand", operand.Name), ("number", shown));
            return null;
        }
        var needed = Bits.Needed(number, operand.IsSigned);
        report.Add(
            Id.OperandTooWide,
            span,
            ("number", shown),
            ("needed", needed),
            ("operand", operand.Name),
            ("size", operand.Size.ToString()),
            ("advice", Advice(datapath, operand, needed)),
            ("low", operand.IsSigned ? -(BigInteger.One << (operand.Width - 1)) : BigInteger.Zero),
            ("high", (BigInteger.One << (operand.IsSigned ? operand.Width - 1 : operand.Width)) - 1)
        );
        return null;
    }

    /// <summary>The smallest main width at which the operand has enough bits; found by trying the range.</summary>
    private static object Advice(Datapath datapath, Operand operand, int needed)
    {
        var main = datapath.Widths[0];
        var names = datapath.Widths.Skip(1).ToDictionary(w => w.Name, w => w.Value);
        for (var width = main.Value + 1; width <= main.Value + needed; width++)
        {
            names[main.Name] = width;
            var type = datapath.Machine.Description.Declarations.OfType<OperandLine>().ElementAt(operand.Index).Type;
            var numbers = names.ToDictionary(n => n.Key, n => (Rational)n.Value);
            if (FormulaBinding.Number(type.Width, numbers) is { } size && size >= needed)
            {
                var (wider, _) = datapath.Machine.At(names);
                return wider is null ? new Term("diagnostic.operand-too-wide.machine") : $"--width {width}";
            }
        }
        return new Term("diagnostic.operand-too-wide.machine");
    }
}
