using Reckoner.Running;

namespace Reckoner.Page.State;

/// <summary>The cycles of a walk that are drawn at once; a long walk of wide registers is drawn in stretches.</summary>
public sealed record Stretch(int From, int To, bool IsWhole)
{
    /// <summary>More cells make a browser slow.</summary>
    private const int MostCells = 12_000;

    public static Stretch Of(Walk walk, int moment)
    {
        var rows = Math.Max(4, MostCells / Math.Max(1, walk.Datapath.Registers.Sum(r => r.Width)));
        if (walk.Rows.Count <= rows)
        {
            return new Stretch(0, walk.Cycles, IsWhole: true);
        }
        // Stretches share a row, so that a row always stands below the one it came from.
        var from = Math.Clamp((moment - 1) / (rows - 1) * (rows - 1), 0, walk.Cycles - 1);
        return new Stretch(from, Math.Min(from + rows - 1, walk.Cycles), IsWhole: false);
    }
}
