using Reckoner.Structure;

namespace Reckoner.Drawing;

internal sealed partial class BlockSheet
{
    private const double NarrowestThreads = 12;

    /// <summary>Bits on their way: a thread for each, or for every few of them where they are many; an arrow where they arrive.</summary>
    private void Ribbon(Way way)
    {
        foreach (var bit in Threaded(way))
        {
            Threads(way, bit);
        }
        Arrow(new Point(way.To + way.Width * grid.Pitch / 2, way.Bottom));
    }

    /// <summary>The bits that have a thread: all, or every second, fourth, eighth, and the lowest in any case.</summary>
    private IEnumerable<int> Threaded(Way way)
    {
        var every = 1;
        while (every * grid.Pitch < NarrowestThreads)
        {
            every *= 2;
        }
        return Enumerable.Range(0, way.Width).Where(bit => bit % every == 0);
    }

    /// <summary>What runs over a bar and has nothing to do with it.</summary>
    private void Pass(Way way, BlockPiece over)
    {
        foreach (var bit in Threaded(way))
        {
            var x = way.X + (way.Width - 1 - bit + 0.5) * grid.Pitch;
            var line = Trace.Through(new(x, over.Y), new(x, over.Bottom));
            shapes.Add(new Stroke(line, Role.Ground, 9));
            shapes.Add(new Strand(line, HueOf(way.Stretch.Net!), grid.Pitch > 20 ? 3.4 : 2.6));
        }
    }

    /// <summary>Straight down, then over to the place of arrival.</summary>
    private static List<Point> Line(Way way, double at)
    {
        var turn = BlockLayout.Turn(way);
        return turn >= way.Bottom - 0.5
            ? [new(way.X + at, way.Top), new(way.To + at, way.Bottom)]
            :
            [
                new(way.X + at, way.Top),
                new(way.X + at, turn),
                new(way.To + at, way.Bottom - 10),
                new(way.To + at, way.Bottom),
            ];
    }

    private void Threads(Way way, int bit)
    {
        var middle = (way.Width - 1 - bit + 0.5) * grid.Pitch;
        var chosen = Hues(way.Stretch.Net!);
        var apart = Math.Min(8, Math.Max(3, grid.Pitch / 4));
        for (var i = 0; i < chosen.Count; i++)
        {
            var at = middle + (i - (chosen.Count - 1) / 2.0) * apart;
            var points = Line(way, at);
            var trace =
                points.Count == 2
                    ? Trace.Through(points)
                    : new Trace([
                        PathStep.MoveTo(points[0]),
                        PathStep.LineTo(points[1]),
                        .. Trace.Down(points[1], points[3]).Steps.Skip(1),
                    ]);
            shapes.Add(new Strand(trace, chosen[i], grid.Pitch > 20 ? 3.4 : 2.6));
        }
    }

    /// <summary>Of what is chosen, still, the colours of the two words that come first.</summary>
    private List<int> Hues(Net net) =>
        net.Kind == NetKind.Choice && telling.Wires is null && layout.Giver(net) is { } piece
            ? [.. piece.Arms.Select(a => HueOf(a.Word)).Distinct().Take(2)]
            : [HueOf(net)];

    private void Arrow(Point tip) =>
        shapes.Add(
            new Area(Trace.Around(tip, new Point(tip.X - 8, tip.Y - 13), new Point(tip.X + 8, tip.Y - 13)), Role.Ink)
        );
}
