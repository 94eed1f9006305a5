using Reckoner.Drawing;

namespace Reckoner.Documents;

/// <summary>How wide the columns of a table come out.</summary>
internal static class GridColumns
{
    /// <summary>Smaller than this (7.5 points) nobody reads a handout.</summary>
    public const double SmallestSize = 10;

    /// <summary>As wide as what stands in each column.</summary>
    public static IReadOnlyList<double> Wanted(Grid grid, double size, double padding) =>
        [.. grid.Head.Select((_, i) => Wanted(grid, i, size, padding, w => w))];

    /// <summary>The widths, and the size of the letters: a table that is too wide is set smaller before its cells are broken.</summary>
    public static (IReadOnlyList<double> Widths, double Size) Fitted(
        Grid grid,
        double room,
        double size,
        double padding
    )
    {
        var wanted = Wanted(grid, size, padding).Sum();
        if (grid.Face == Face.Mono && wanted > room)
        {
            var pads = 2 * padding * grid.Head.Count;
            size = Math.Clamp(size * (room - pads) / (wanted - pads), SmallestSize, size);
        }
        return (Widths(grid, room, size, padding), size);
    }

    /// <summary>
    /// As wide as what stands in them, where that has room together; else the narrow ones stay and the wide ones share what is left,
    /// none narrower than its longest word where possible.
    /// </summary>
    private static IReadOnlyList<double> Widths(Grid grid, double room, double size, double padding)
    {
        var wanted = Wanted(grid, size, padding);
        var words = grid.Head.Select((_, i) => Wanted(grid, i, size, padding, LongestWord)).ToArray();
        if (wanted.Sum() <= room + 0.01)
        {
            return wanted;
        }
        var open = Enumerable.Range(0, wanted.Count).ToList();
        var widths = new double[wanted.Count];
        var left = room;
        while (
            open.Find(i => wanted[i] <= left / open.Count) is var narrow
            && open.Contains(narrow)
            && wanted[narrow] <= left / open.Count
        )
        {
            widths[narrow] = wanted[narrow];
            left -= wanted[narrow];
            open.Remove(narrow);
        }
        var spare = left - open.Sum(i => words[i]);
        foreach (var i in open)
        {
            widths[i] = spare >= 0 ? words[i] + spare / open.Count : left / open.Count;
        }
        return widths;
    }

    private static double Wanted(Grid grid, int column, double size, double padding, Func<string, string> of) =>
        2 * padding
        + grid.Rows.Select(r => Typeface.Of(grid.FaceOf(column)).Width(of(r[column]), size))
            .Append(Typeface.Of(Face.Bold).Width(of(grid.Head[column]), size))
            .Max();

    private static string LongestWord(string words) => words.Split(' ').MaxBy(w => w.Length) ?? "";
}
