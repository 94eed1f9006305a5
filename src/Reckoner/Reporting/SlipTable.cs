using System.Text;
using Reckoner.Choosing;
using Reckoner.Datapaths;
using Reckoner.Words;

namespace Reckoner.Reporting;

/// <summary>
/// Slips in rows, chosen operands in columns: what each slip gives for them. Where they do not fit beside each other, the table
/// goes on below with the next columns.
/// </summary>
internal static class SlipTable
{
    private const string Indent = "   ";
    private const string Gap = "  ";
    private const string AsRight = ".";

    /// <summary>A, B, ... Z, AA, AB, ...</summary>
    public static IReadOnlyList<string> Marks(int count) => [.. Enumerable.Range(0, count).Select(Mark)];

    private static string Mark(int place) => (place < 26 ? "" : Mark(place / 26 - 1)) + (char)('A' + place % 26);

    public static void Write(StringBuilder text, Datapath datapath, SlipsShown shown, Vocabulary words, int columns)
    {
        var results = string.Join(", ", datapath.Results.Select(r => r.Name));
        text.Append('\n');
        foreach (var line in Wrapping.Lines(words.Say("operands.slips", ("results", results)), columns))
        {
            text.Append(line).Append('\n');
        }
        List<string> names = ["", words.Say("operands.slips-right"), .. shown.Slips.Select(s => s.Slip.Name)];
        var lead = names.Max(Wrapping.Columns);
        var cells = Marks(shown.Chosen.Count).Select((mark, i) => Column(datapath, shown, mark, i)).ToList();
        for (var from = 0; from < cells.Count; )
        {
            var to = from + Fitting(cells.Skip(from), columns - Indent.Length - lead);
            text.Append('\n');
            for (var row = 0; row < names.Count; row++)
            {
                var shownCells = cells[from..to].Select(c => c[row].PadLeft(c.Max(t => t.Length)));
                var line = Indent + string.Join(Gap, shownCells.Prepend(Wrapping.Padded(names[row], lead)));
                text.Append(line.TrimEnd()).Append('\n');
            }
            from = to;
        }
    }

    private static List<string> Column(Datapath datapath, SlipsShown shown, string mark, int place) =>
        [
            mark,
            Numbers(datapath, shown.Chosen[place].Results),
            .. shown.Slips.Select(s => s.Results[place] is { } wrong ? Numbers(datapath, wrong) : AsRight),
        ];

    private static string Numbers(Datapath datapath, IReadOnlyList<System.Numerics.BigInteger> results) =>
        string.Join(", ", datapath.Results.Zip(results, (r, b) => $"{r.Number(b)}"));

    /// <summary>As many columns as fit beside the names, and at least one.</summary>
    private static int Fitting(IEnumerable<List<string>> cells, int columns)
    {
        var (count, left) = (0, columns);
        foreach (var cell in cells)
        {
            left -= Gap.Length + cell.Max(t => t.Length);
            if (left < 0 && count > 0)
            {
                break;
            }
            count++;
        }
        return count;
    }
}
