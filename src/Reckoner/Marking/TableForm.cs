using Reckoner.Datapaths;
using Reckoner.Explaining;

namespace Reckoner.Marking;

/// <summary>What of a table was to be filled in.</summary>
/// <param name="Open">For each row, the load first, the registers that were open, by their index.</param>
/// <param name="AsksResults">Whether results were to be said below it; they count with its last row.</param>
internal sealed record TableForm(IReadOnlyList<IReadOnlyList<int>> Open, bool AsksResults)
{
    /// <summary>A table that somebody made from nothing: every row but that of the load, which holds what was given.</summary>
    public static TableForm Whole(Datapath datapath, int cycles) =>
        new(
            [
                [],
                .. Enumerable.Repeat(datapath.Registers.Select(r => r.Index).ToList(), cycles),
            ],
            AsksResults: false
        );

    /// <summary>Rows in which something was to be written.</summary>
    public int Rows => Open.Count(o => o.Count > 0);

    /// <summary>Whether a row was printed; one below the last was not.</summary>
    public bool IsPrinted(int row) => row < Open.Count && Open[row].Count == 0;

    /// <summary>Whether a row is printed behind one that was to be filled in, so that whoever was wrong begins anew there.</summary>
    public bool BeginsAnew => Open.SkipWhile(o => o.Count == 0).Any(o => o.Count == 0);

    /// <summary>A 1 for every bit that is judged: what was to be written, and of a row that is printed all.</summary>
    public UInt128 Compared(RowLayout layout, int row) => IsPrinted(row) ? layout.Mask : Asked(layout, row);

    /// <summary>A 1 for every bit of a row that was to be written.</summary>
    public UInt128 Asked(RowLayout layout, int row) =>
        row >= Open.Count
            ? layout.Mask
            : Open[row]
                .Aggregate(
                    UInt128.Zero,
                    (mask, r) => mask | (RowLayout.Ones(layout.Datapath.Registers[r].Width) << layout.Lows[r])
                );
}
