namespace Reckoner.Drawing;

internal sealed partial class PathPage
{
    /// <summary>
    /// Puts what the control says beside the blocks, where it is first looked at, instead of leading it down from the top.
    /// </summary>
    private static IReadOnlyList<Level> WithControl(IReadOnlyList<Level> levels)
    {
        var lane = levels.SelectMany(Taken).Select(t => t.Lane).FirstOrDefault(l => l.IsControl);
        // A page of one row has no height left for another.
        if (lane is null || levels.Count == 1 || levels.SelectMany(l => l.Blocks).Any(b => b.Gives.Contains(lane)))
        {
            return levels;
        }
        var at = levels.TakeWhile(l => Taken(l).All(t => t.Lane != lane)).Count();
        var control = new Block("", "") { Gives = { lane }, Acts = lane.Bits is not null };
        var user = levels[at];
        List<Level> placed = [.. levels];
        // It is the same all through the cycle, so it may stand beside anything that comes before.
        var beside = at == 0 ? -1 : placed.FindLastIndex(at - 1, l => !l.IsArrival && l.Step == user.Step);
        if (beside >= 0)
        {
            placed[beside] = placed[beside] with { Blocks = [.. placed[beside].Blocks, control] };
        }
        else
        {
            placed.Insert(
                at,
                user with
                {
                    Blocks = [control],
                    Arrivals = [],
                    After = user.Before,
                    Notes = [],
                    IdleAfter = null,
                }
            );
        }
        return placed;
    }
}
