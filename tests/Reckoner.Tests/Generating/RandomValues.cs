using System.Numerics;
using Reckoner.Datapaths;

namespace Reckoner.Tests;

/// <summary>Something that may be read: a register, part, wire, constant or operand.</summary>
/// <param name="IsWhole">Whether only all of it can be read: a constant has no places.</param>
internal sealed record Readable(string Name, WidthForm Width, Reading Reading, bool IsWhole = false);

/// <summary>A value as it is written, in brackets where it is not one word, and how it is read.</summary>
internal sealed record Written(string Text, Reading Reading);

/// <summary>Random values that keep every rule of widths and readings, so that a binder has to take them.</summary>
internal sealed class RandomValues(Random random, Sizes sizes)
{
    private const int Deepest = 3;

    /// <summary>What may be read here.</summary>
    public IReadOnlyList<Readable> Readables { get; set; } = [];

    /// <summary>The tables: what they give, their names and their indices.</summary>
    public List<(Readable Gives, IReadOnlyList<Readable> Indices)> Tables { get; } = [];

    public bool HasLast { get; set; }

    public Written Value(WidthForm width) => Value(width, random.Next(Deepest + 1));

    /// <summary>A value read so.</summary>
    public string As(Reading reading, WidthForm width, int depth = 1)
    {
        var value = Value(width, depth);
        return value.Reading == reading && random.Next(3) > 0 ? value.Text
            : reading == Reading.Signed ? $"signed({value.Text})"
            : $"unsigned({value.Text})";
    }

    /// <summary>A value for what reads bits so.</summary>
    public string For(Reading reading, WidthForm width, int depth) =>
        reading == Reading.Bare ? Value(width).Text
        : random.Next(8) == 0 ? Fitting(reading, width)
        : random.Next(8) == 0 && sizes.Narrower(width) is { } narrow ? $"extend({As(reading, narrow, depth)})"
        : As(reading, width, depth);

    public Reading SomeReading() => random.Next(2) == 0 ? Reading.Signed : Reading.Unsigned;

    private Written Value(WidthForm width, int depth)
    {
        if (depth == 0)
        {
            return Leaf(width);
        }
        Written Inner() => Value(width, depth - 1);
        var reading = SomeReading();
        string Side() => As(reading, width, depth - 1);
        switch (random.Next(17))
        {
            case 0:
                var same = Inner();
                return same with { Text = $"(not {same.Text})" };
            case 1:
                var (left, right) = (Inner(), Inner());
                var common = left.Reading == right.Reading ? left.Reading : Reading.Bare;
                return new($"({left.Text} {Pick("and", "or", "xor")} {right.Text})", common);
            case 2:
                return new($"({Side()} {Pick("+", "-")} {Side()})", reading);
            case 3:
                return new($"({Side()} {Pick("+", "-")} {Fitting(reading, width)})", reading);
            case 4:
                var negated = Inner();
                return negated with { Text = $"(-{negated.Text})" };
            case 5:
                var shifted = Inner();
                var entering = Entering(sizes.Least(width), depth - 1);
                return shifted with { Text = $"{Pick("shl", "shr")}({shifted.Text}, {entering})" };
            case 6 when sizes.Narrower(width) is { } high:
                return new($"({Value(high, depth - 1).Text}:{Value(width - high, depth - 1).Text})", Reading.Bare);
            case 7 when sizes.Usual(width) + 3 < sizes.Most:
                WidthForm more = random.Next(1, 4);
                var whole = Value(width + more, depth - 1).Text;
                return new($"({whole}){sizes.Places(Pick<WidthForm>(more, 0), width)}", Reading.Bare);
            case 8 when sizes.Narrower(width) is { } narrow:
                return new($"extend({As(reading, narrow, depth - 1)}, {sizes.Text(width)})", reading);
            case 9 when sizes.Narrower(width) is { } narrow:
                return new($"({Side()} {Pick("+", "-")} extend({As(reading, narrow, depth - 1)}))", reading);
            case 10 when !sizes.IsWide && sizes.Narrower(width) is { } first:
                return new($"({As(reading, first, depth - 1)} * {As(reading, width - first, depth - 1)})", reading);
            case 11:
                return new($"abs({As(Reading.Signed, width, depth - 1)})", Reading.Unsigned);
            case 12:
                return new($"({Side()} when {Value(WidthForm.One, depth - 1).Text} else {Side()})", reading);
            case 13 when width == WidthForm.One:
                return Compared(reading, depth);
            case 14 when width == WidthForm.One && HasLast:
                return new("last", Reading.Bare);
            case 15:
                return new($"copies({Value(WidthForm.One, depth - 1).Text}, {sizes.Text(width)})", Reading.Bare);
            default:
                return Looked(width, depth) ?? Leaf(width);
        }
    }

    private Written Compared(Reading reading, int depth)
    {
        var width = sizes.Some(sizes.Most / 2);
        var relation = Pick("=", "<>", "<", "<=", ">", ">=");
        var other = random.Next(2) == 0 ? Fitting(reading, width) : As(reading, width, depth - 1);
        return new($"({As(reading, width, depth - 1)} {relation} {other})", Reading.Bare);
    }

    /// <summary>What enters a shift: a bit as a number, bits, or a value.</summary>
    private string Entering(int most, int depth) =>
        random.Next(3) == 0 ? $"{random.Next(2)}" : Value(random.Next(1, Math.Min(most, 3) + 1), depth).Text;

    private Written? Looked(WidthForm width, int depth)
    {
        var (gives, indices) = Tables.Find(t => t.Gives.Width == width);
        return gives is null
            ? null
            : new(
                $"{gives.Name}({string.Join(", ", indices.Select(i => As(i.Reading, i.Width, depth - 1)))})",
                gives.Reading
            );
    }

    private Written Leaf(WidthForm width)
    {
        var fit = Readables
            .Where(r => r.Width == width || (!r.IsWhole && sizes.Fits(width, r.Width) && r.Width != width))
            .ToList();
        if (fit.Count == 0 || random.Next(8) == 0)
        {
            return new(Literal(width), Reading.Bare);
        }
        var (name, whole, reading, _) = fit[random.Next(fit.Count)];
        if (whole == width)
        {
            return new(name, reading);
        }
        var spare = whole - width;
        var low = Pick<WidthForm>(spare, 0, random.Next(sizes.Least(spare) + 1));
        return new(name + sizes.Places(low, width), Reading.Bare);
    }

    private string Literal(WidthForm width) =>
        width.IsFixed ? "0b" + Digits(width.Bits)
        : random.Next(2) == 0 && sizes.Least(width) > 1 ? $"(copies({random.Next(2)}, {width - 1}):{random.Next(2)})"
        : $"copies(0b{random.Next(2)}, {width})";

    /// <summary>So many binary digits, sometimes with a "_" between two of them.</summary>
    public string Digits(int width)
    {
        var digits = string.Concat(Enumerable.Range(0, width).Select(_ => random.Next(2)));
        return width > 4 && random.Next(2) == 0 ? digits.Insert(width - 4, "_") : digits;
    }

    /// <summary>A number, as a number is written, that fits everywhere.</summary>
    public string Fitting(Reading reading, WidthForm width)
    {
        var bits = sizes.Least(width) - (reading == Reading.Signed ? 1 : 0);
        var number = Below(bits);
        return reading == Reading.Signed && random.Next(3) == 0 ? $"(-{number + 1})"
            : number == sizes.N.Low && bits > 6 ? "n"
            : $"{number}";
    }

    private BigInteger Below(int bits)
    {
        var number = BigInteger.Zero;
        for (var i = 0; i < Math.Min(bits, 40); i++)
        {
            number = 2 * number + random.Next(2);
        }
        return random.Next(3) == 0 ? BigInteger.Min(number, 1) : number;
    }

    private T Pick<T>(params T[] choices) => choices[random.Next(choices.Length)];
}
