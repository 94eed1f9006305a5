using Reckoner.Drawing;

namespace Reckoner.Tests;

/// <summary>Texts of a figure that cover one another.</summary>
internal static class Covering
{
    /// <summary>Every pair, from the top: a text is held against those only that begin before it ends.</summary>
    public static IReadOnlyList<string> Among(IEnumerable<Text> texts)
    {
        // A box is measured whenever it is asked for.
        var placed = texts.Select(t => (t.Words, t.Box)).OrderBy(t => t.Box.Top).ToArray();
        var found = new List<string>();
        for (var i = 0; i < placed.Length; i++)
        {
            var (words, box) = placed[i];
            for (var j = i + 1; j < placed.Length && placed[j].Box.Top < box.Bottom; j++)
            {
                if (box.Overlaps(placed[j].Box))
                {
                    found.Add($"{words} at {box} and {placed[j].Words} at {placed[j].Box}");
                }
            }
        }
        return found;
    }
}
