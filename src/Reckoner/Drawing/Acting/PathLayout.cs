namespace Reckoner.Drawing;

/// <summary>Where a datapath may be cut for another part of the sheet, or another sheet.</summary>
internal enum PathCut
{
    /// <summary>Where a step ends, else where a moment ends, else anywhere.</summary>
    AtSteps,

    /// <summary>Where a moment ends, else anywhere.</summary>
    AtMoments,

    /// <summary>Between any two rows.</summary>
    Anywhere,
}

/// <summary>How much is written in a box.</summary>
internal enum PathWords
{
    /// <summary>What it does, as far as one reads it at a glance; of an operand that it is one.</summary>
    Whole,

    /// <summary>The beginning of it; of an operand its name.</summary>
    Short,
}

/// <summary>How a datapath is laid out; of several such layouts the one is drawn that suits the sheet best.</summary>
/// <param name="Registers">How wide registers may be together.</param>
/// <param name="Rows">How wide blocks may stand beside each other.</param>
/// <param name="Notes">How wide a line of a statement may be.</param>
internal sealed record PathLayout(double Registers, double Rows, double Notes, PathCut Cut)
{
    private const double Broad = 720;
    private const double Beside = double.PositiveInfinity;
    private const double OneByOne = 1;

    public PathWords Words { get; init; }

    /// <summary>In how many rows, one below the other, stands what earlier parts of the figure have made.</summary>
    public int Stairs { get; init; } = 1;

    /// <summary>How far rows may be moved apart so that a page is no wider than it may be.</summary>
    public double MostSlack { get; init; } = 220;

    /// <summary>From what is taken in most easily to what takes the least room.</summary>
    public static IReadOnlyList<PathLayout> All { get; } =
    [
        new(Broad, Beside, 240, PathCut.AtSteps),
        new(Broad, 760, 240, PathCut.AtSteps),
        new(0.8 * Broad, 520, 240, PathCut.AtSteps),
        new(0.65 * Broad, 380, 240, PathCut.AtSteps),
        new(0.65 * Broad, 380, 240, PathCut.AtMoments),
        new(0.65 * Broad, Beside, 170, PathCut.AtMoments),
        new(0.58 * Broad, Beside, 170, PathCut.AtMoments),
        new(0.58 * Broad, 520, 170, PathCut.AtMoments),
        new(0.5 * Broad, Beside, 240, PathCut.AtMoments),
        new(0.5 * Broad, Beside, 170, PathCut.Anywhere),
        new(0.5 * Broad, 380, 240, PathCut.AtMoments),
        new(0.5 * Broad, 380, 170, PathCut.Anywhere),
        new(0.4 * Broad, 300, 170, PathCut.AtMoments),
        new(0.4 * Broad, 300, 170, PathCut.Anywhere),
        new(0.3 * Broad, 260, 150, PathCut.AtMoments),
        new(0.3 * Broad, 260, 150, PathCut.Anywhere),
        new(0.3 * Broad, OneByOne, 150, PathCut.Anywhere),
        new(0.3 * Broad, OneByOne, 150, PathCut.Anywhere) { Words = PathWords.Short },
        new(0.22 * Broad, OneByOne, 110, PathCut.Anywhere) { Words = PathWords.Short },
    ];

    /// <summary>For a sheet that is broader or higher than a screen.</summary>
    public static IReadOnlyList<PathLayout> Large { get; } = [new(1.4 * Broad, Beside, 240, PathCut.AtSteps), .. All];

    /// <summary>For rows that need more words from above than stand beside each other, where none of the others can be read.</summary>
    public static IReadOnlyList<PathLayout> Crowded { get; } =
    [
        InStairs(0.65 * Broad, 380, 240, PathCut.AtMoments),
        InStairs(0.5 * Broad, 520, 240, PathCut.AtMoments),
        InStairs(0.5 * Broad, 380, 170, PathCut.Anywhere),
        InStairs(0.4 * Broad, 300, 240, PathCut.AtMoments),
        InStairs(0.3 * Broad, 260, 208, PathCut.Anywhere),
        InStairs(0.3 * Broad, 260, 150, PathCut.Anywhere),
        InStairs(0.22 * Broad, OneByOne, 165, PathCut.Anywhere) with
        {
            Words = PathWords.Short,
        },
    ];

    private static PathLayout InStairs(double registers, double rows, double notes, PathCut cut) =>
        new(registers, rows, notes, cut) { Stairs = 4, MostSlack = 440 };
}
