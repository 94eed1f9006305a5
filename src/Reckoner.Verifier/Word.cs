namespace Reckoner.Verifier;

/// <summary>Bits on a path: stretches, the highest first, or a number in two's complement, or both once it was asked for.</summary>
internal sealed class Word(Size width, IReadOnlyList<Stretch>? stretches, Poly? signed)
{
    private IReadOnlyList<Stretch>? stretches = stretches;
    private Poly? signed = signed;

    public Size Width { get; } = width;

    public static Word Of(Poly poly, Size width) => new(width, [new(poly, width)], null);

    public static Word Of(IReadOnlyList<Stretch> stretches) =>
        new(stretches.Aggregate((Size)0, (sum, s) => sum + s.Width), stretches, null);

    public static Word Signed(Poly poly, Size width) => new(width, null, poly);

    public static Word Bit(bool isOne) => Of(isOne ? 1 : 0, 1);

    public IReadOnlyList<Stretch> Stretches(Path path)
    {
        if (stretches is null)
        {
            var poly = path.Plain(signed!);
            Poly top = path.IsNegative(poly) ? 1 : 0;
            stretches = [new(top, 1), new(poly + Poly.Power(Width - 1) * top, Width - 1)];
        }
        return stretches;
    }

    public Poly Number(Path path)
    {
        var (sum, place) = (Poly.Zero, (Size)0);
        foreach (var stretch in Stretches(path).Reverse())
        {
            sum += stretch.Poly * Poly.Power(place);
            place += stretch.Width;
        }
        return path.Plain(sum);
    }

    public Poly AsSigned(Path path)
    {
        if (signed is null)
        {
            var isNegative = path.IsOne(Slice(path, Width - 1, Width - 1).Number(path));
            signed = isNegative ? Number(path) - Poly.Power(Width) : Number(path);
        }
        return signed;
    }

    public Word Slice(Path path, Size high, Size low)
    {
        if (
            !path.Region.NeverNegative(low)
            || !path.Region.NeverNegative(high + 1 - low)
            || !path.Region.NeverNegative(Width - 1 - high)
        )
        {
            throw new RefusedException(Refusal.NotKnown, $"{high} {low}");
        }
        var kept = new List<Stretch>();
        Size end = 0;
        foreach (var stretch in Stretches(path).Reverse())
        {
            var begin = end;
            end = begin + stretch.Width;
            if (path.Compare(end, low) <= 0 || path.Compare(high + 1, begin) <= 0)
            {
                continue;
            }
            IReadOnlyList<Stretch> part = [stretch];
            if (path.Compare(high + 1, end) < 0)
            {
                part = Cut(path, stretch, high + 1 - begin).Low;
            }
            if (path.Compare(low, begin) > 0)
            {
                part = Above(path, part, low - begin);
            }
            kept.InsertRange(0, part);
        }
        return new Word(high + 1 - low, kept, null);
    }

    private static List<Stretch> Above(Path path, IReadOnlyList<Stretch> stretches, Size place)
    {
        var kept = new List<Stretch>();
        Size end = 0;
        foreach (var stretch in stretches.Reverse())
        {
            var begin = end;
            end = begin + stretch.Width;
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

    private static (IReadOnlyList<Stretch> High, IReadOnlyList<Stretch> Low) Cut(Path path, Stretch stretch, Size place)
    {
        var poly = path.Plain(stretch.Poly);
        var rest = stretch.Width - place;
        if (poly.IsZero)
        {
            return ([new(0, rest)], [new(0, place)]);
        }
        if ((poly - (Poly.Power(stretch.Width) - 1)).IsZero)
        {
            return ([new(Poly.Power(rest) - 1, rest)], [new(Poly.Power(place) - 1, place)]);
        }
        if (poly.Whole is { } bits && place.IsNumber)
        {
            var high = bits >> place.K;
            return ([new(Poly.Of(high), rest)], [new(Poly.Of(bits - (high << place.K)), place)]);
        }
        if (poly.Whole is { } number && path.Region.NeverNegative(place - (int)number.GetBitLength()))
        {
            return ([new(0, rest)], [new(poly, place)]);
        }
        var (above, below) = path.Halves(stretch with { Poly = poly }, place);
        var order = path.Compare(below.Width, place);
        if (order == 0)
        {
            return ([above], [below]);
        }
        var (up, down) = order > 0 ? Cut(path, below, place) : Cut(path, above, place - below.Width);
        return order > 0 ? ([above, .. up], down) : (up, [.. down, below]);
    }
}
