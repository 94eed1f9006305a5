namespace Reckoner.Drawing;

internal sealed partial class PathPage
{
    private const double StairHeight = LabelHeight + RibbonHeight + 10;

    /// <summary>Between a box and a lane that passes it.</summary>
    private const double BesideLane = 7;

    private const double BesideGrid = 20;

    /// <summary>How many rows below the first what is brought from above stands.</summary>
    private readonly Dictionary<Block, int> stairs = [];

    /// <summary>How far the last of those rows is below the first.</summary>
    private double StairsDown => stairs.Values.Append(0).Max() * StairHeight;

    /// <summary>Where the statements of a row may begin: those of the first beside what is brought from above.</summary>
    private double Beside(Level level, double y) =>
        stairs.Count > 0 && level == levels[0] ? y - StairsDown - RibbonHeight - 6 : y;

    /// <summary>
    /// A box is wider than the lane that runs down from its left end, so the next one may stand below it, right beside that lane.
    /// After so many the first row goes on, its lanes clear of the boxes below it.
    /// </summary>
    private List<(Block Source, (double Left, double Right) Lane)> InStairs(IReadOnlyList<Block> all)
    {
        var found = new List<(Block Source, (double Left, double Right) Lane)>();
        foreach (var source in all)
        {
            var down = found.Count % form.Stairs;
            var lane = source.Gives[0];
            var toLane = Padding + sizes.Lead(lane);
            var left = found
                .Select(f =>
                    stairs[f.Source] == down ? boxes[f.Source].Right + BetweenBlocks
                    : stairs[f.Source] < down ? f.Lane.Right + BesideLane
                    : boxes[f.Source].Right + BesideLane - toLane
                )
                .Append(Grid.Right + BesideGrid)
                .Max();
            stairs.Add(source, down);
            Place(source, left);
            found.Add((source, (lefts[lane], lefts[lane] + lane.Width * Grid.Pitch)));
        }
        return found;
    }
}
