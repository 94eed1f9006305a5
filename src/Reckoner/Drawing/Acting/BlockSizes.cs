using System.Globalization;

namespace Reckoner.Drawing;

/// <summary>How wide what stands in a datapath is on a grid, and what is written in its boxes.</summary>
internal sealed class BlockSizes(WeaveGrid grid, PathWords said)
{
    public const double TextSize = FigureHead.TextSize;
    public const double Padding = 8;
    public const double BetweenBlocks = 16;

    public WeaveGrid Grid { get; } = grid;

    public static double Wide(string text, Face face = Face.Plain) => Typeface.Of(face).Width(text, TextSize);

    /// <summary>Whether a binary digit can be read in a cell; else four cells share a hexadecimal one.</summary>
    public bool IsBinary { get; } = grid.Digits;

    public int BitsOfDigit => IsBinary ? 1 : 4;

    /// <summary>As large as a cell takes it, or four cells where they are narrow.</summary>
    public double DigitSize =>
        Math.Min(TextSize, 0.93 * (IsBinary ? Grid.CellWidth : 4 * Grid.Pitch) / Typeface.Of(Face.Mono).Width("0", 1));

    /// <summary>Between the two words that a block gives.</summary>
    public double Apart => Grid.Folded ? 24 : 10;

    /// <summary>How far the first digit of a word reaches out of its cells at the left, where cells are narrow.</summary>
    public double Lead(Lane lane)
    {
        var cells = ((lane.Width - 1) % BitsOfDigit + 1) * Grid.Pitch;
        return Math.Max(0, Typeface.Of(Face.Mono).Width("0", DigitSize) - cells);
    }

    /// <param name="isSource">Whether it only brings a word that is there already.</param>
    public double Width(Block block, bool isSource)
    {
        var cells = block.Gives.Sum(l => Lead(l) + l.Width * Grid.Pitch + Apart) - Apart;
        var name = Named(block, isSource) is { Length: > 0 } text ? Wide(text) + 10 : 0;
        var ports = block.Taps.Sum(Port);
        var flag = block.At is { } at ? Wide(Time(at), Face.Bold) + 14 : 0;
        var head = BesideKind(Kind(block, isSource)) + Wide(Said(block, isSource)) + flag;
        return 2 * Padding + Math.Max(Math.Max(head, cells + name), ports);
    }

    public static string Time(int at) => at.ToString(CultureInfo.InvariantCulture);

    public static double Port(Tap tap) => tap.Width > 1 ? 16 + Wide($"{tap.Width}") : 18;

    public static string Kind(Block block, bool isSource) => isSource ? "" : block.Kind;

    public string Said(Block block, bool isSource) =>
        block.Gives[0].IsOperand && said == PathWords.Short ? block.Gives[0].Name
        : block.Gives[0].IsOperand ? $"{block.Gives[0].From} {block.Gives[0].Name}"
        : block.Gives[0].IsControl ? block.Gives[0].From
        : !isSource ? Short(block.Words)
        : block.Gives[0].Maker is { } maker ? Called(block.Gives[0], maker)
        : block.Gives[0].From;

    /// <summary>The name of a word that stands above; of one without a name what it is, where that is soon said.</summary>
    private static string Called(Lane word, Block maker) =>
        word.Name.Length > 0 ? word.Name
        : maker.Gives.Count == 1 && maker.Words.Length <= 10 ? maker.Words
        : maker.Kind;

    private int LongestWords =>
        said switch
        {
            PathWords.Whole => 34,
            PathWords.Short => 22,
        };

    private string Short(string words) => words.Length > LongestWords ? words[..(LongestWords - 1)] + "…" : words;

    public static string Named(Block block, bool isSource) =>
        block.Gives[0].IsOperand || IsFromAbove(block, isSource)
            ? ""
            : string.Join(", ", block.Gives.Select(l => l.Name).Where(n => n.Length > 0));

    /// <summary>Whether it brings a word that an earlier part of the figure has made; its name stands above it.</summary>
    public static bool IsFromAbove(Block block, bool isSource) => isSource && block.Gives[0].Maker is not null;

    /// <summary>Where a block's statement begins, clear of its kind in whatever letters that is set.</summary>
    public static double BesideKind(string kind) => Wide(kind, Face.Bold) * Typeface.WidestInstead + 8;

    /// <summary>Blocks that do not wait for one another, in as many rows as they need.</summary>
    /// <param name="wide">How wide they may stand beside each other.</param>
    public IEnumerable<Level> InRows(Level level, double wide)
    {
        var row = new List<Block>();
        foreach (var block in level.Blocks)
        {
            if (row.Count > 0 && row.Append(block).Sum(b => Width(b, isSource: false) + BetweenBlocks) > wide)
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
