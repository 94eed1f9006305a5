using Reckoner.Drawing;

namespace Reckoner.Documents;

/// <summary>How wide the columns of a table come out.</summary>
internal static class GridColumns
{
    /// <summary>
    /// As wide as what stands in them, where that has room together; else the narrow ones stay and the wide ones share what is left,
    /// none narrower than its longest word where possible.
    /// </summary>
    public static IReadOnlyList<double> Widths(Grid grid, double room, double size, double padding)
    {
        var wanted = grid.Head.Select((h, i) => Wanted(i, w => w)).ToArray();
        var words = grid.Head.Select((h, i) => Wanted(i, LongestWord)).ToArray();
        if (wanted.Sum() <= room)
        {
            return wanted;
        }
        var open = Enumerable.Range(0, wanted.Length).ToList();
        var widths = new double[wanted.Length];
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

        double Wanted(int column, Func<string, string> of) =>
            2 * padding
            + grid.Rows.Select(r => Typeface.Of(grid.Face).Width(of(r[column]), size))
                .Append(Typeface.Of(Face.Bold).Width(of(grid.Head[column]), size))
                .Max();
    }

    private static string LongestWord(string words) => words.Split(' ').MaxBy(w => w.Length) ?? "";
}
