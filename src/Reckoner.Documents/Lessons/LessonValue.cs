using System.Globalization;
using System.Numerics;
using Reckoner.Diagnostics;
using Reckoner.Reporting;
using Reckoner.Running;

namespace Reckoner.Documents.Lessons;

/// <summary>A value that a number in the text is linked to.</summary>
/// <param name="Width">Of its bits; 0 for a number that is no hardware.</param>
/// <param name="Spelled">As the text should have it.</param>
internal sealed record LessonValue(BigInteger Number, BigInteger Bits, int Width, string Spelled)
{
    /// <summary>The machine in front of the slash, if any, and the value's own name.</summary>
    public static (string? Machine, string Name) Split(string target) =>
        target.IndexOf('/', StringComparison.Ordinal) is var slash and > 0
            ? (target[..slash], target[(slash + 1)..])
            : (null, target);

    /// <summary>The value of a name in a walk; null and a report where there is none.</summary>
    public static LessonValue? Of(RequestWord target, Walk walk, Report report)
    {
        var (_, name) = Split(target.Text);
        var parts = name.Split('@', 2);
        if (parts.Length == 2)
        {
            return Cycle(parts[1], target, walk, report) is { } row
                ? OfRegister(parts[0], walk, row, target, report)
                : null;
        }
        return OfNumber(name, walk) ?? OfRegister(name, walk, walk.Rows[^1], target, report);
    }

    private static Row? Cycle(string text, RequestWord target, Walk walk, Report report)
    {
        if (OperandReader.Number(text) is { } cycle && cycle >= 0 && cycle <= walk.Cycles)
        {
            return walk.Rows[(int)cycle];
        }
        report.Add(Id.NoSuchCycle, target.Span, ("cycle", text), ("last", walk.Cycles));
        return null;
    }

    private static LessonValue? OfNumber(string name, Walk walk)
    {
        var datapath = walk.Datapath;
        if (datapath.Operands.FirstOrDefault(o => o.Name == name) is { } operand)
        {
            var bits = walk.Operands[operand.Index];
            return Plain(operand.Number(bits), bits, operand.Width);
        }
        var results = datapath.Results.Zip(walk.Results).ToList();
        if (results.Find(r => r.First.Name == name) is ({ } result, var its))
        {
            return Plain(result.Number(its), its, result.Width);
        }
        if (name == Cycles)
        {
            return Plain(walk.Cycles, 0, 0);
        }
        return datapath.Widths.Any(w => w.Name == name)
            ? Plain(datapath.Widths.First(w => w.Name == name).Value, 0, 0)
            : null;
    }

    public const string Cycles = "cycles";

    private static LessonValue Plain(BigInteger number, BigInteger bits, int width) =>
        new(number, bits, width, Numbers.Bits.Text(number));

    private static LessonValue? OfRegister(string name, Walk walk, Row row, RequestWord target, Report report)
    {
        foreach (var register in walk.Datapath.Registers)
        {
            var bits = row.Registers[register.Index];
            if (register.Name == name)
            {
                return new LessonValue(bits, bits, register.Width, Columns.Text(register, bits));
            }
            if (register.Parts.FirstOrDefault(p => p.Name == name) is { } part)
            {
                var its = Numbers.Bits.Wrap(bits >> part.Low, part.Width);
                return new LessonValue(its, its, part.Width, Numbers.Bits.Text(its, part.Width));
            }
        }
        var known = Known(walk);
        report.Add(
            Id.UnknownValue,
            target.Span,
            ("name", name),
            ("machine", walk.Datapath.Machine.Name),
            ("known", known),
            ("near", NearNames.Of(name, known))
        );
        return null;
    }

    private static IReadOnlyList<string> Known(Walk walk) =>
        [
            .. walk.Datapath.Operands.Select(o => o.Name),
            .. walk.Datapath.Results.Select(r => r.Name),
            .. walk.Datapath.Widths.Select(w => w.Name),
            Cycles,
            .. walk.Datapath.Registers.SelectMany(r => r.Parts.Select(p => p.Name).Prepend(r.Name)),
        ];

    /// <summary>Whether a text says this value, as a number or as its bits.</summary>
    public bool IsSaidBy(string text)
    {
        var digits = Digits(text);
        return Width > 0 && IsBits(digits) && digits.Length == Width
            ? digits == Numbers.Bits.Text(Bits, Width)
            : OperandReader.Number(digits) == Number;
    }

    /// <summary>The value in the form in which the text has the old one.</summary>
    public string Like(string text)
    {
        var digits = Digits(text);
        if (digits.StartsWith("0x", StringComparison.Ordinal))
        {
            return "0x"
                + Shown.ToString("X", CultureInfo.InvariantCulture).TrimStart('0').PadLeft(digits.Length - 2, '0');
        }
        if (digits.StartsWith("0b", StringComparison.Ordinal))
        {
            return "0b"
                + Shown.ToString("B", CultureInfo.InvariantCulture).TrimStart('0').PadLeft(digits.Length - 2, '0');
        }
        var wasBits = IsBits(digits) && (digits.Length == Width || (digits.Length > 1 && digits[0] == '0'));
        return Width > 0 && wasBits && !IsBits(Digits(Spelled)) ? Numbers.Bits.Text(Bits, Width) : Spelled;
    }

    /// <summary>What stands behind 0b and 0x has no sign.</summary>
    private BigInteger Shown => Number.Sign < 0 ? Bits : Number;

    private static string Digits(string text) =>
        text.Replace(" ", "", StringComparison.Ordinal).Replace("_", "", StringComparison.Ordinal);

    private static bool IsBits(string digits) => digits.Length > 0 && digits.All(c => c is '0' or '1');
}
