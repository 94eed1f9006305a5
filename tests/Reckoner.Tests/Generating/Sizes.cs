namespace Reckoner.Tests;

/// <summary>A symbol of widths: what it is by itself, and its range.</summary>
internal sealed record SizeSymbol(string Name, int Usual, int Low, int High)
{
    public string Declared => $"{Name} = {Usual} in {Low}..{High}";
}

/// <summary>
/// The widths of one machine. They are right at every width of its ranges, or only at the usual one: then they are plain numbers,
/// written as formulas that happen to give them there.
/// </summary>
internal sealed class Sizes
{
    private readonly Random random;
    private readonly bool isUniform;

    /// <param name="isSmall">Whether what is drawn should be done with soon.</param>
    public Sizes(Random random, bool isSmall)
    {
        this.random = random;
        isUniform = random.Next(3) > 0;
        IsWide = random.Next(isSmall ? 50 : 16) == 0;
        var usual = IsWide ? random.Next(16, 70) : random.Next(2, 6);
        var low = random.Next(1, usual + 1);
        N = new("n", usual, low, usual + random.Next(5));
        var other = random.Next(1, 5);
        M = random.Next(3) == 0 ? new("m", other, random.Next(1, other + 1), other + random.Next(3)) : null;
        Most =
            IsWide ? 3 * usual
            : isSmall ? 7
            : 12;
    }

    public SizeSymbol N { get; }

    public SizeSymbol? M { get; }

    public bool IsWide { get; }

    /// <summary>The widest value that is computed, in bits, at the usual widths.</summary>
    public int Most { get; }

    /// <summary>A constant that is declared as this width, so that it can be written by its name.</summary>
    public WidthForm? Named { get; set; }

    public int Usual(WidthForm size) => size.At(N.Usual, M?.Usual ?? 0);

    /// <summary>What it is at least, wherever it must be right.</summary>
    public int Least(WidthForm size) =>
        size.At(
            size.N < 0 ? N.High : N.Low,
            M is null ? 0
                : size.M < 0 ? M.High
                : M.Low
        );

    /// <summary>Whether so many bits can be taken from that many, everywhere.</summary>
    public bool Fits(WidthForm size, WidthForm into) => Least(into - size) >= 0;

    public bool IsNarrower(WidthForm size, WidthForm than) => Least(than - size) >= 1;

    /// <summary>Any width up to so many bits.</summary>
    public WidthForm Some(int most)
    {
        for (var tries = 0; tries < 6; tries++)
        {
            var size = Any();
            if (Usual(size) <= most && Least(size) >= 1)
            {
                return size;
            }
        }
        return random.Next(1, Math.Min(most, 3) + 1);
    }

    private WidthForm Any()
    {
        if (!isUniform)
        {
            return random.Next(1, Most);
        }
        WidthForm size = random.Next(9) switch
        {
            0 => random.Next(1, 5),
            1 or 2 or 3 => new WidthForm(0, 1),
            4 => new WidthForm(1, 1),
            5 => new WidthForm(0, 2),
            6 => new WidthForm(2, 1),
            7 => new WidthForm(0, 0, 1),
            _ => new WidthForm(0, 1, 1),
        };
        return M is null ? size with { M = 0, Bits = size.N == 0 && size.Bits == 0 ? 1 : size.Bits } : size;
    }

    /// <summary>A width below this one; null where there is none.</summary>
    public WidthForm? Narrower(WidthForm size)
    {
        WidthForm[] some =
        [
            random.Next(1, 4),
            size - 1,
            new(0, 1),
            size - random.Next(1, 3),
            M is null ? 1 : new WidthForm(0, 0, 1),
        ];
        var fitting = some.Where(s => Least(s) >= 1 && IsNarrower(s, size)).ToList();
        return fitting.Count == 0 ? null : fitting[random.Next(fitting.Count)];
    }

    /// <summary>As it is written in a description.</summary>
    public string Text(WidthForm size)
    {
        if (size == Named && random.Next(2) == 0)
        {
            return "w";
        }
        if (!size.IsFixed || isUniform || random.Next(2) == 0)
        {
            return $"{size}";
        }
        var n = N.Usual;
        return size.Bits == n ? "n"
            : size.Bits == 2 * n ? "2n"
            : size.Bits == (n + 1) / 2 ? "ceil(n/2)"
            : size.Bits == n / 2 ? "floor(n / 2)"
            : size.Bits == M?.Usual ? "m"
            : size.Bits > n ? $"n + {size.Bits - n}"
            : $"{size.Bits}";
    }

    /// <summary>Places from high to low; "[3]" for one alone.</summary>
    public string Places(WidthForm low, WidthForm width) =>
        width == WidthForm.One ? $"[{Place(low)}]" : $"[{Place(low + width - 1)}..{Place(low)}]";

    private string Place(WidthForm place) => Usual(place) == 0 && place.IsFixed ? "0" : Text(place);
}
