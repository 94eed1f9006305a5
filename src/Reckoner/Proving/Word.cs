namespace Reckoner.Proving;

/// <summary>Bits that stand together for one number, 0 to 2^Width - 1.</summary>
internal sealed record Stretch(Form Form, Extent Width);

/// <summary>
/// A word at every width at once: stretches of bits, the most significant first, or the number that it is in two's complement, or
/// both. What is missing is made when it is asked for, which may be a question on the path.
/// </summary>
internal sealed class Word
{
    private readonly IReadOnlyList<Stretch>? stretches;
    private readonly Form? signed;
    private IReadOnlyList<Stretch>? made;
    private Form? madeSigned;

    private Word(Extent width, IReadOnlyList<Stretch>? stretches, Form? signed)
    {
        Width = width;
        this.stretches = stretches;
        this.signed = signed;
    }

    public Extent Width { get; }

    public static Word Of(IReadOnlyList<Stretch> stretches) =>
        new(stretches.Aggregate(Extent.Zero, (sum, s) => sum + s.Width), stretches, null);

    public static Word Of(Form form, Extent width) => new(width, [new(form, width)], null);

    public static Word Signed(Form form, Extent width) => new(width, null, form);

    public static Word Bit(bool isOne) => Of(isOne ? Form.One : Form.Zero, 1);

    /// <summary>The same number with another width.</summary>
    public Word Extended(Path path, Extent width) => Signed(AsSigned(path), width);

    public IReadOnlyList<Stretch> Stretches(Path path)
    {
        if (stretches is not null || made is not null)
        {
            return stretches ?? made!;
        }
        var form = path.Plain(signed!);
        var top = path.IsNegative(form) ? 1 : 0;
        return made = [new(top, 1), new(form + Form.Power(Width - 1).Times(top), Width - 1)];
    }

    /// <summary>The number without sign.</summary>
    public Form Number(Path path)
    {
        var (sum, place) = (Form.Zero, Extent.Zero);
        foreach (var stretch in Stretches(path).Reverse())
        {
            sum += stretch.Form * Form.Power(place);
            place += stretch.Width;
        }
        return path.Plain(sum);
    }

    /// <summary>The number in two's complement.</summary>
    public Form AsSigned(Path path)
    {
        if (signed is not null || madeSigned is not null)
        {
            return signed ?? madeSigned!;
        }
        var isNegative = path.IsOne(Slice(path, Width - 1, Width - 1).Number(path));
        return madeSigned = isNegative ? Number(path) - Form.Power(Width) : Number(path);
    }

    /// <summary>The places high..low, both included.</summary>
    public Word Slice(Path path, Extent high, Extent low)
    {
        var above = high + 1;
        var kept = new List<Stretch>();
        var from = Extent.Zero;
        foreach (var stretch in Stretches(path).Reverse())
        {
            var (begin, end) = (from, from + stretch.Width);
            from = end;
            if (path.Compare(end, low) <= 0 || path.Compare(above, begin) <= 0)
            {
                continue;
            }
            IReadOnlyList<Stretch> part = [stretch];
            if (path.Compare(above, end) < 0)
            {
                part = Cut(path, stretch, above - begin).Low;
            }
            if (path.Compare(low, begin) > 0)
            {
                part = Above(path, part, low - begin);
            }
            kept.InsertRange(0, part);
        }
        return new Word(above - low, kept, null);
    }

    /// <summary>What stands above a place.</summary>
    private static List<Stretch> Above(Path path, IReadOnlyList<Stretch> stretches, Extent place)
    {
        var kept = new List<Stretch>();
        var from = Extent.Zero;
        foreach (var stretch in stretches.Reverse())
        {
            var (begin, end) = (from, from + stretch.Width);
            from = end;
            if (path.Compare(end, place) > 0)
            {
                kept.InsertRange(
                    0,
                    path.Compare(place, begin) > 0 ? Cut(path, stretch, place - begin).High : [stretch]
                );
            }
        }
        return kept;
    }

    private static (IReadOnlyList<Stretch> High, IReadOnlyList<Stretch> Low) Cut(
        Path path,
        Stretch stretch,
        Extent place
    )
    {
        var form = path.Plain(stretch.Form);
        var rest = stretch.Width - place;
        if (form.IsZero)
        {
            return ([new(Form.Zero, rest)], [new(Form.Zero, place)]);
        }
        if (form.Equals(Form.Power(stretch.Width) - Form.One))
        {
            return ([new(Form.Power(rest) - Form.One, rest)], [new(Form.Power(place) - Form.One, place)]);
        }
        if (form.IsConstant && place.IsConstant)
        {
            var (bits, at) = (form.Constant.Numerator, place.Constant);
            return ([new(Form.Of(bits >> at), rest)], [new(Form.Of(Numbers.Bits.Wrap(bits, at)), place)]);
        }
        if (form.IsConstant && path.Region.NeverNegative(place - (int)form.Constant.Numerator.GetBitLength()))
        {
            return ([new(Form.Zero, rest)], [new(form, place)]);
        }
        var (high, low) = path.Halves(stretch with { Form = form }, place);
        return path.Compare(low.Width, place) switch
        {
            0 => ([high], [low]),
            > 0 => Cut(path, low, place) is var (above, below) ? ([high, .. above], below) : default,
            _ => Cut(path, high, place - low.Width) is var (above, below) ? (above, [.. below, low]) : default,
        };
    }
}
