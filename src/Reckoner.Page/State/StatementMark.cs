using System.Globalization;
using Reckoner.Datapaths;

namespace Reckoner.Page.State;

/// <summary>
/// The small picture beside a statement: all registers as they lie in the figure, each bit one wide, and over them what the
/// statement wrote.
/// </summary>
/// <param name="Width">Of the whole, in bits and the gaps between registers.</param>
/// <param name="Track">Where the registers lie, as a path along y = 0.</param>
/// <param name="Written">Where it wrote, the same way.</param>
public sealed record StatementMark(double Width, string Track, string Written)
{
    /// <summary>A gap is so much of all bits that it is seen at any width.</summary>
    private const double GapShare = 0.04;

    public static StatementMark Of(IReadOnlyList<WrittenBits> writes, Datapath datapath)
    {
        var gap = datapath.Registers.Sum(r => r.Width) * GapShare;
        var starts = new double[datapath.Registers.Count];
        var end = 0.0;
        foreach (var register in datapath.Registers)
        {
            starts[register.Index] = end;
            end += register.Width + gap;
        }
        var track = datapath.Registers.Select(r => Path(starts[r.Index], r.Width));
        var written = writes.Select(w =>
            Path(starts[w.Register.Index] + w.Register.Width - 1 - w.High, w.High - w.Low + 1)
        );
        return new StatementMark(end - gap, string.Concat(track), string.Concat(written));
    }

    private static string Path(double from, double width) => $"M{Text(from)} 0h{Text(width)}";

    public static string Text(double number) => number.ToString("0.##", CultureInfo.InvariantCulture);
}
