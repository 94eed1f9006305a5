using Reckoner.Datapaths;
using Reckoner.Reporting;

namespace Reckoner.Drawing;

/// <summary>
/// Where a weave's cells stand: a column for every register bit, the highest place at the left, parts a little apart; a row for
/// every cycle, the load at the top. Fewer bits give wider cells.
/// </summary>
internal sealed class WeaveGrid
{
    /// <summary>The page is as wide as a slide, or wider where its cells would come out too narrow.</summary>
    public const double Wide = 1280;
    public const double Margin = 28;

    private const double LargestPitch = 34;
    private const double SmallestPitch = 3;
    private const double NarrowestForDigits = 7.5;
    private const double NarrowestForThreads = 13;

    /// <summary>How low rows may be that show nothing but shape.</summary>
    public const double NarrowestRow = 11;
    private const double BetweenRegisters = 30;
    private const double Rows = 590;
    private const double LargestRowPitch = 58;

    /// <summary>Where rows are this far apart or farther, a digit in them is as large as the other text.</summary>
    public const double RowOfDigits = 30;

    /// <summary>Digits smaller than this are not read, and give way to the shape.</summary>
    private const double SmallestDigit = 11;

    /// <summary>Bits in narrower columns are too many to be read one by one.</summary>
    private const double NarrowestForGlance = 16.2;

    /// <summary>So few rows leave room for digits however many bits there are.</summary>
    private const int FewRows = 12;

    /// <summary>The middle of each bit's column, from the lowest bit of each register; asked for every bit of every row.</summary>
    private readonly double[][] middles;

    /// <param name="left">Where the first column may begin.</param>
    /// <param name="names">How wide each register's name is.</param>
    /// <param name="wide">Where the columns should end.</param>
    /// <param name="rowsRoom">How far the rows may reach down together, on what the figure is laid out for; null where nothing is given.</param>
    /// <param name="beside">How far words reach beyond the last column.</param>
    /// <param name="largestRow">How far apart rows stand at most; null for as far as looks well.</param>
    public WeaveGrid(
        IReadOnlyList<Register> registers,
        int rows,
        double left,
        double top,
        IReadOnlyList<double> names,
        double wide = Wide,
        double? rowsRoom = null,
        double beside = 0,
        double? largestRow = null
    )
    {
        Top = top;
        Left = left;
        Count = rows;
        List<IReadOnlyList<int>> cuts = [.. registers.Select(Columns.Cuts)];
        var bits = registers.Sum(r => r.Width);
        var gaps = cuts.Sum(c => c.Count - 1);
        var room = wide - left - Margin - BetweenRegisters * (registers.Count - 1);
        Pitch = Math.Clamp(room / (bits + 0.3 * gaps), SmallestPitch, LargestPitch);
        // Names wider than their registers take room away from all.
        for (var tries = 0; tries < 8 && Pitch > SmallestPitch && Total(Pitch) > room; tries++)
        {
            Pitch = Math.Max(SmallestPitch, Pitch * room / Total(Pitch));
        }
        middles = new double[registers.Count][];
        foreach (var register in registers)
        {
            middles[register.Index] = Middles(register, left);
            left += GroupWidth(register, Pitch) + BetweenRegisters;
        }
        Right = left - BetweenRegisters;
        var least = Digits ? 21 : 15;
        var pitch = Math.Clamp(Rows / rows, least, Math.Max(least, largestRow ?? LargestRowPitch));
        var share = Folded ? 0.72 : 0.52;
        if (rowsRoom is { } given)
        {
            pitch = Math.Clamp(given / rows, Folded ? NarrowestRow : RowOfDigits, 1.4 * LargestRowPitch);
            share = Folded ? share : Math.Clamp(0.7 * RowOfDigits / pitch, share, 0.7);
        }
        else if (largestRow is not null)
        {
            share = Folded ? share : Math.Clamp(0.7 * RowOfDigits / pitch, share, 0.7);
        }
        else if (rows > 1)
        {
            // How high its foot comes out is not known yet, so a twentieth is kept back for it.
            pitch = Math.Max(
                pitch,
                Math.Min(
                    2 * LargestRowPitch,
                    ((Right + beside + Margin) / (0.95 * Fitting.WidestRatio) - 2 * top) / (rows - 1)
                )
            );
        }
        CellHeight = Math.Min(30, pitch * share);
        RowPitch = pitch;
        HasLegibleDigits = rows <= FewRows || (Pitch >= NarrowestForGlance && DigitSize >= SmallestDigit);

        double[] Middles(Register r, double start) =>
            [
                .. Enumerable
                    .Range(0, r.Width)
                    .Select(bit =>
                        start
                        + (r.Width - 1 - bit + 0.5) * Pitch
                        + cuts[r.Index].Count(low => low > bit) * (0.3 * Pitch)
                    ),
            ];

        double Total(double p) => registers.Sum(r => GroupWidth(r, p));

        double GroupWidth(Register r, double p) =>
            Math.Max(r.Width * p + (cuts[r.Index].Count - 1) * 0.3 * p, names[r.Index]);
    }

    public double Top { get; }

    /// <summary>Where the first column begins.</summary>
    public double Left { get; }
    public int Count { get; }
    public double Pitch { get; }
    public double RowPitch { get; }
    public double CellHeight { get; }

    /// <summary>Where the last column ends.</summary>
    public double Right { get; }

    public double Bottom => Top + (Count - 1) * RowPitch + CellHeight;

    /// <summary>Bits that move together are drawn as one, because their cells are narrow.</summary>
    public bool Folded => Pitch < NarrowestForThreads;

    /// <summary>Whether what the cells hold can be read at a glance; else the shape alone says more.</summary>
    public bool HasLegibleDigits { get; }

    /// <summary>Whether a cell has room for a binary digit; else four cells share a hexadecimal one.</summary>
    public bool Digits => Pitch >= NarrowestForDigits;

    public double CellWidth => Folded ? Pitch : Pitch - Math.Min(4, Pitch * 0.14);

    public double DigitSize
    {
        get
        {
            var advance = Typeface.Of(Face.Mono).Width("0", 1);
            var byHeight = CellHeight * 0.86;
            return Math.Min(20, Math.Min(byHeight, (Digits ? CellWidth : 4 * Pitch) / advance));
        }
    }

    /// <summary>The middle of a bit's column.</summary>
    public double X(Register register, int bit) => middles[register.Index][bit];

    public double RowTop(int row) => Top + row * RowPitch;

    public double RowBottom(int row) => RowTop(row) + CellHeight;

    /// <summary>The cells of bits high..low in a row, as one box.</summary>
    public Box Cells(Register register, int high, int low, int row)
    {
        var left = X(register, high) - CellWidth / 2;
        return new Box(left, RowTop(row), X(register, low) + CellWidth / 2 - left, CellHeight);
    }
}
