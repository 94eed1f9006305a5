using Reckoner.Drawing;

namespace Reckoner.Documents;

internal sealed partial class HandoutWriter
{
    /// <summary>The size of most letters in a figure as it is drawn.</summary>
    private const double FigureLetters = 18;

    /// <summary>The letters of a figure; one that is drawn for a wall has larger ones, and none that count are smaller.</summary>
    private static double Letters(Scene scene) =>
        Math.Max(FigureLetters, scene.Leaves.OfType<Text>().Select(t => t.Size).DefaultIfEmpty(FigureLetters).Min());

    /// <summary>They come out no larger than those of the text.</summary>
    private static double Largest(Scene scene) => Size / Letters(scene);

    /// <summary>A figure that would nearly fit on the rest of the page is made smaller by so much at most to get there.</summary>
    private const double Squeeze = 0.75;

    private static double Scale(double width, double height, double largest, Paper paper) =>
        Math.Min(largest, Math.Min(paper.TextWidth / width, (paper.Bottom - paper.Margin) / height));

    private bool IsWide(Scene scene)
    {
        // Where its letters would come out smaller than anybody reads, the page is turned.
        var asItIs = Scale(scene.Width, scene.Height, Largest(scene), upright);
        return asItIs * Letters(scene) < GridColumns.SmallestSize
            && asItIs < Scale(scene.Width, scene.Height, Largest(scene), Across);
    }

    private double Scale(Scene scene) =>
        Scale(scene.Width, scene.Height, Largest(scene), IsWide(scene) ? Across : upright);

    /// <summary>Goes on to a page across where a figure needs its width; the text goes on below the figure.</summary>
    private void TurnFor(Block? block)
    {
        if (block is Picture { Scene: var s } && IsWide(s))
        {
            var hasRoom = pages.Count > 0 && y + Squeeze * s.Height * Scale(s) <= paper.Bottom;
            if (paper != Across || !hasRoom)
            {
                NewPage(Across);
            }
        }
    }

    /// <summary>How much must stand right below a heading: all of a table that stays whole, the beginning of the rest.</summary>
    private double Beginning(int index) =>
        blocks.ElementAtOrDefault(index) is not { } block ? 0
        : Whole(index) is > 0 and var whole ? whole
        : block.Match<double>(
            heading: _ => 0,
            paragraph: _ => 0,
            listing: _ => 0,
            verbatim: _ => 0,
            grid: Beginning,
            picture: p => Squeeze * p.Tall * Scale(p.Scene),
            photograph: _ => 0,
            pageEnd: _ => 0,
            room: r => Math.Min(r.Lines, 3) * WritingPitch
        );

    /// <summary>The height of a table with what is said below it, where a page has room for that; else 0, and it may be parted.</summary>
    private double Whole(int index)
    {
        if (blocks.ElementAtOrDefault(index) is not Grid grid)
        {
            return 0;
        }
        var page = upright.Bottom - upright.Margin;
        var height = Height(grid);
        if (height > page)
        {
            return 0;
        }
        foreach (var below in blocks.Skip(index + 1).TakeWhile(b => b is Paragraph { IsBelow: true }).Cast<Paragraph>())
        {
            height += Between + Setting.Lines(below.Runs, TextWidth, Size).Count * Size * Leading;
        }
        return Math.Min(height, page);
    }

    private Box Place(Picture picture)
    {
        var scene = picture.Scene;
        var given = Place(scene.Width, picture.Tall, Scale(scene));
        return given with { Height = given.Width * scene.Height / scene.Width };
    }

    /// <summary>Takes the room for something of this size.</summary>
    private Box Place(double width, double height, double scale)
    {
        var left = paper.Bottom - y;
        if (height * scale > left && height * scale * Squeeze <= left)
        {
            scale = left / height;
        }
        Need(height * scale);
        var place = new Box(paper.Margin, y, width * scale, height * scale);
        y += place.Height;
        return place;
    }
}
