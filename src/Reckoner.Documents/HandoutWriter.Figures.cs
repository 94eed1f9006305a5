using Reckoner.Drawing;

namespace Reckoner.Documents;

internal sealed partial class HandoutWriter
{
    /// <summary>The size of the letters in a figure as it is drawn.</summary>
    private const double FigureLetters = 18;

    /// <summary>They come out no larger than those of the text.</summary>
    private const double LargestFigure = Size / FigureLetters;

    /// <summary>Where they would come out smaller than anybody reads, the page is turned.</summary>
    private const double SmallestFigure = GridColumns.SmallestSize / FigureLetters;

    /// <summary>A figure that would nearly fit on the rest of the page is made smaller by so much at most to get there.</summary>
    private const double Squeeze = 0.75;

    private static double Scale(double width, double height, double largest, Paper paper) =>
        Math.Min(largest, Math.Min(paper.TextWidth / width, (paper.Bottom - paper.Margin) / height));

    private bool IsWide(Scene scene)
    {
        var asItIs = Scale(scene.Width, scene.Height, LargestFigure, upright);
        return asItIs < SmallestFigure && asItIs < Scale(scene.Width, scene.Height, LargestFigure, Across);
    }

    private double Scale(Scene scene) =>
        Scale(scene.Width, scene.Height, LargestFigure, IsWide(scene) ? Across : upright);

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

    /// <summary>How much of a block must stand right below its heading.</summary>
    private double Beginning(Block? block) =>
        block?.Match<double>(
            heading: _ => 0,
            paragraph: _ => 0,
            listing: _ => 0,
            verbatim: _ => 0,
            grid: Beginning,
            picture: p => Squeeze * p.Scene.Height * Scale(p.Scene),
            photograph: _ => 0,
            pageEnd: _ => 0
        )
        ?? 0;

    private Box Place(Scene scene) => Place(scene.Width, scene.Height, Scale(scene));

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
