using Reckoner.Datapaths;

namespace Reckoner.Tests;

/// <summary>Something that may be read: a register, part, wire or operand.</summary>
internal sealed record Readable(string Name, int Width, Reading Reading);

/// <summary>A value as it is written, in brackets where it is not one word, and how it is read.</summary>
internal sealed record Written(string Text, Reading Reading);

/// <summary>Random values that keep every rule of widths and readings, so that a binder has to take them.</summary>
internal sealed class RandomValues(Random random)
{
    public const int Widest = 12;
    private const int Deepest = 3;

    /// <summary>What may be read here.</summary>
    public List<Readable> Readables { get; set; } = [];

    /// <summary>The width of what a table gives, and its name with its indices.</summary>
    public List<(int Width, string Name, int[] Indices)> Tables { get; } = [];

    public bool HasLast { get; set; }

    public Written Value(int width) => Value(width, random.Next(Deepest + 1));

    /// <summary>A value read so.</summary>
    public string As(Reading reading, int width, int depth = 1)
    {
        var value = Value(width, depth);
        return value.Reading == reading && random.Next(3) > 0 ? value.Text
            : reading == Reading.Signed ? $"signed({value.Text})"
            : $"unsigned({value.Text})";
    }

    public Reading SomeReading() => random.Next(2) == 0 ? Reading.Signed : Reading.Unsigned;

    private Written Value(int width, int depth)
    {
        if (depth == 0)
        {
            return Leaf(width);
        }
        Written Inner() => Value(width, depth - 1);
        var reading = SomeReading();
        string Side() => As(reading, width, depth - 1);
        switch (random.Next(16))
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
                var entering = Value(random.Next(1, Math.Min(width, 3) + 1), depth - 1).Text;
                return shifted with { Text = $"{Pick("shl", "shr")}({shifted.Text}, {entering})" };
            case 6 when width > 1:
                var high = random.Next(1, width);
                return new($"({Value(high, depth - 1).Text}:{Value(width - high, depth - 1).Text})", Reading.Bare);
            case 7 when width < Widest:
                var wide = random.Next(width + 1, Widest + 1);
                var low = random.Next(wide - width + 1);
                return new($"({Value(wide, depth - 1).Text}){Places(low + width - 1, low)}", Reading.Bare);
            case 8 when width > 1:
                return new($"extend({As(reading, random.Next(1, width), depth - 1)}, {width})", reading);
            case 9 when width > 1:
                var first = random.Next(1, width);
                return new($"({As(reading, first, depth - 1)} * {As(reading, width - first, depth - 1)})", reading);
            case 10:
                return new($"abs({As(Reading.Signed, width, depth - 1)})", Reading.Unsigned);
            case 11:
                return new($"({Side()} when {Value(1, depth - 1).Text} else {Side()})", reading);
            case 12 when width == 1:
                var compared = random.Next(1, 5);
                var relation = Pick("=", "<>", "<", "<=", ">", ">=");
                var other = random.Next(2) == 0 ? Fitting(reading, compared) : As(reading, compared, depth - 1);
                return new($"({As(reading, compared, depth - 1)} {relation} {other})", Reading.Bare);
            case 13 when width == 1 && HasLast:
                return new("last", Reading.Bare);
            case 14:
                return new($"copies({Value(1, depth - 1).Text}, {width})", Reading.Bare);
            default:
                return Looked(width, depth) ?? Leaf(width);
        }
    }

    private Written? Looked(int width, int depth)
    {
        var (_, name, indices) = Tables.Find(t => t.Width == width);
        return name is null
            ? null
            : new(
                $"{name}({string.Join(", ", indices.Select(i => As(Reading.Unsigned, i, depth - 1)))})",
                Reading.Unsigned
            );
    }

    private Written Leaf(int width)
    {
        var fit = Readables.Where(r => r.Width >= width).ToList();
        if (fit.Count == 0 || random.Next(6) == 0)
        {
            return new("0b" + Digits(width), Reading.Bare);
        }
        var (name, whole, reading) = fit[random.Next(fit.Count)];
        if (whole == width)
        {
            return new(name, reading);
        }
        var low = random.Next(whole - width + 1);
        return new(name + Places(low + width - 1, low), Reading.Bare);
    }

    public static string Places(int high, int low) => high == low ? $"[{low}]" : $"[{high}..{low}]";

    public string Digits(int width) => string.Concat(Enumerable.Range(0, width).Select(_ => random.Next(2)));

    private string Fitting(Reading reading, int width)
    {
        var bits = reading == Reading.Signed ? width - 1 : width;
        return reading == Reading.Signed && random.Next(3) == 0
            ? $"(-{random.Next(1 << bits) + 1})"
            : random.Next(1 << bits).ToString();
    }

    private string Pick(params string[] choices) => choices[random.Next(choices.Length)];
}
