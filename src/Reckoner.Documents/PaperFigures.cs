using Reckoner.Drawing;

namespace Reckoner.Documents;

/// <summary>How large figures come out on paper, and for which sizes they may be laid out anew.</summary>
internal static class PaperFigures
{
    /// <summary>The size of letters in the text of a paper.</summary>
    public const double TextSize = 14;

    /// <summary>The size of most letters in a figure as it is drawn.</summary>
    private const double FigureLetters = 18;

    /// <summary>Digits in cells stand alone and are read when they are so much smaller than words.</summary>
    private const double Digits = 0.8;

    /// <summary>The shares of a page's height for which a figure is laid out that is too wide as it is; the first that does is taken.</summary>
    private static readonly double[] Shares = [0.4, 0.55, 0.7, 0.85, 1];

    /// <summary>The letters of figures; one that is drawn for a wall has larger ones, and none that count are smaller.</summary>
    public static double Letters(params IEnumerable<Scene> scenes) =>
        scenes.Select(s => Math.Max(FigureLetters, Smallest(s))).DefaultIfEmpty(FigureLetters).Min();

    private static double Smallest(Scene scene) =>
        scene.Leaves.OfType<Text>().Select(t => t.Size).DefaultIfEmpty(FigureLetters).Min();

    /// <summary>As large as the page has room; letters of a figure come out no larger than those of the text.</summary>
    public static double Scale(double width, double height, double largest, Paper paper) =>
        Math.Min(largest, Math.Min(paper.TextWidth / width, paper.TextHeight / height));

    /// <summary>Whether its letters come out as large as anybody reads.</summary>
    public static bool IsLegible(Scene scene, Paper paper) =>
        Letters(scene) * Scale(scene.Width, scene.Height, TextSize / Letters(scene), paper) >= GridColumns.SmallestSize;

    /// <summary>
    /// A figure for a page: as it is where that can be read, else laid out for the page, as low as that can be done on one sheet. Null
    /// where neither can be read, and the page has to be turned.
    /// </summary>
    /// <param name="drawn">Every edition of it that takes the same place, laid out for a target; null for as it is.</param>
    public static FigureTarget? Target(Func<FigureTarget?, IReadOnlyList<Scene>> drawn, Paper paper)
    {
        var asItIs = drawn(null);
        if (asItIs.All(s => IsLegible(s, paper)))
        {
            return null;
        }
        var targets = Shares.Select(share => new FigureTarget(
            paper.TextWidth,
            share * paper.TextHeight,
            GridColumns.SmallestSize
        ));
        return targets.FirstOrDefault(t =>
            drawn(t) is var scenes
            && scenes.Count == asItIs.Count
            && scenes.All(s => Smallest(s) >= Digits * GridColumns.SmallestSize)
        );
    }
}
