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
        if (
            at > 0
            && levels[at - 1] is { IsArrival: false } above
            && above.Step == user.Step
            && above.Moment == user.Moment
        )
        {
            placed[at - 1] = above with { Blocks = [.. above.Blocks, control] };
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

    /// <summary>Blocks that do not wait for one another, in as many rows as they need.</summary>
    private IEnumerable<Level> InRows(Level level, double wide)
    {
        var row = new List<Block>();
        foreach (var block in level.Blocks)
        {
            if (row.Count > 0 && row.Append(block).Sum(b => Width(b) + BetweenBlocks) > wide)
            {
                yield return level with
                {
                    Blocks = [.. row],
                };
                row.Clear();
            }
            row.Add(block);
        }
        yield return row.Count == level.Blocks.Count ? level : level with { Blocks = row };
    }
}
