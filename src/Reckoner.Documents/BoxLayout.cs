using Reckoner.Drawing;

namespace Reckoner.Documents;

/// <summary>Boxes beside each other without a gap.</summary>
/// <param name="Line">Of a row of several lines, from 0.</param>
/// <param name="From">The first of the digits that they are for.</param>
internal sealed record BoxRun(int Line, double Left, int From, int Count);

/// <summary>A column of a table to be filled in, from the left edge of the text.</summary>
/// <param name="Named">How far left of it its name stands in every row; 0 where it stands in the head of the table.</param>
internal sealed record BoxColumn(int Index, int Line, double Left, double Width, double Named);

/// <summary>
/// Where the columns of a table to be filled in stand. Boxes are as wide as a hand likes them, narrower where the row then fits on
/// a line; a row that does not goes on below, with names before its boxes, and so does a register that is longer than a line.
/// </summary>
/// <param name="Unit">The width of a box.</param>
/// <param name="Label">The width of the columns before the first box.</param>
/// <param name="Lines">How many lines a row takes.</param>
internal sealed record BoxLayout(
    double Unit,
    double Room,
    double Label,
    bool IsLabelAbove,
    int Lines,
    IReadOnlyList<BoxColumn> Columns
)
{
    /// <summary>7 mm, and 5 mm as on squared paper.</summary>
    private const double Widest = 26;
    private const double Narrowest = 19;

    /// <summary>4 mm, so that a register stays on one line.</summary>
    private const double Tightest = 16;

    private const double BetweenParts = 6;
    private const double BetweenColumns = 18;
    private const double BetweenLabels = 14;
    public const double BetweenLines = 6;

    /// <summary>The labels of rows have so much of the line, or stand above the boxes.</summary>
    private const double LabelShare = 0.28;

    public double Height => Unit + 4;

    public static BoxLayout Of(Grid grid, Filling filling, double room, double size)
    {
        for (var unit = Widest; unit >= Narrowest; unit--)
        {
            if (Of(grid, filling, room, size, unit, isFolded: false) is { Lines: 1 } fits)
            {
                return fits;
            }
        }
        var longest = grid.Rows.SelectMany(r => filling.Boxed.Select(i => r[i])).SelectMany(Parts).Max(p => p.Length);
        for (var unit = (Widest + Narrowest) / 2; unit >= Tightest; unit -= 0.5)
        {
            if (
                Of(grid, filling, room, size, unit, isFolded: true) is var folded
                && longest * unit <= room - folded.Columns.Where(c => c.Named > 0).Min(c => c.Left)
            )
            {
                return folded;
            }
        }
        return Of(grid, filling, room, size, Narrowest, isFolded: true);
    }

    /// <summary>The digits of a cell, without what stands between and behind them.</summary>
    public static string Digits(string text) => string.Concat(Parts(text));

    /// <summary>What stands behind the digits, such as a mark.</summary>
    public static string Behind(string text) => string.Join(' ', text.Split(' ').Where(p => !IsDigits(p)));

    private static IEnumerable<string> Parts(string text) => text.Split(' ').Where(IsDigits);

    private static bool IsDigits(string part) => part.Length > 0 && part.All(char.IsAsciiHexDigit);

    /// <summary>The boxes of a cell.</summary>
    public IReadOnlyList<BoxRun> Runs(BoxColumn column, string text) =>
        new Pen(Room, Label, Unit, column.Line, column.Left).Boxes(text);

    private static BoxLayout Of(Grid grid, Filling filling, double room, double size, double unit, bool isFolded)
    {
        var first = filling.Boxed.Min();
        var widths = grid.Head.Select((_, i) => Wide(grid, filling, i, size)).ToList();
        var label = widths.Take(first).Sum(w => w + BetweenLabels);
        var isAbove = label > LabelShare * room;
        var margin = isAbove ? 2 * size : label;
        var pen = new Pen(room, margin, unit, 0, margin);
        var columns = new List<BoxColumn>();
        var left = 0.0;
        for (var i = 0; i < grid.Head.Count; i++)
        {
            if (i < first)
            {
                columns.Add(new BoxColumn(i, 0, left, widths[i], 0));
                left += widths[i] + BetweenLabels;
                continue;
            }
            // Registers that take turns in a column begin in the same place.
            var longest = grid.Rows.Select(r => r[i]).MaxBy(t => Digits(t).Length) ?? "";
            var name = isFolded ? Typeface.Of(Face.Bold).Width(grid.Head[i], size) + BetweenParts : 0;
            var isBoxed = filling.Boxed.Contains(i);
            columns.Add(pen.Column(i, isFolded && isBoxed ? 0 : widths[i], name, isBoxed ? longest : ""));
        }
        return new BoxLayout(unit, room, margin, isAbove, pen.Line + 1, columns);
    }

    /// <summary>Of the words of a column; of boxes only of their head.</summary>
    private static double Wide(Grid grid, Filling filling, int column, double size)
    {
        var head = Typeface.Of(Face.Bold).Width(grid.Head[column], size);
        if (filling.Boxed.Contains(column))
        {
            return head;
        }
        var words = grid.Rows.SelectMany(
            (r, i) => filling.Open[i].Contains(column) ? [r[column], "____"] : new[] { r[column] }
        );
        return words.Select(w => Typeface.Of(Face.Bold).Width(w, size)).Append(head).Max();
    }

    /// <summary>Puts columns and boxes beside each other, line by line.</summary>
    private sealed class Pen(double room, double margin, double unit, int line, double x)
    {
        public int Line => line;

        /// <summary>So many boxes stand on a line.</summary>
        private int Most => (int)((room - margin + 0.01) / unit);

        /// <param name="digits">What it has boxes for; empty for none.</param>
        public BoxColumn Column(int index, double width, double name, string digits)
        {
            Need(name + Math.Max(width, Math.Min(Parts(digits).FirstOrDefault("").Length, Most) * unit));
            x += name;
            var column = new BoxColumn(index, line, x, width, name);
            var marks = Behind(digits).Length > 0 ? unit : 0;
            Boxes(digits);
            x = (line == column.Line ? Math.Max(x, column.Left + width) : x) + marks + BetweenColumns;
            return column;
        }

        public IReadOnlyList<BoxRun> Boxes(string digits)
        {
            var runs = new List<BoxRun>();
            var from = 0;
            foreach (var part in Parts(digits))
            {
                x += from > 0 ? BetweenParts : 0;
                for (var left = part.Length; left > 0; )
                {
                    var count = Math.Min(left, Most);
                    Need(count * unit);
                    runs.Add(new BoxRun(line, x, from, count));
                    x += count * unit;
                    from += count;
                    left -= count;
                }
            }
            return runs;
        }

        private void Need(double width)
        {
            if (x > margin && x + width > room + 0.01)
            {
                line++;
                x = margin;
            }
        }
    }
}
