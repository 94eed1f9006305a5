using Reckoner.Datapaths;

namespace Reckoner.Drawing;

/// <summary>Puts the pages of a figure on what it is drawn for.</summary>
internal static class Fitting
{
    /// <summary>A page that nothing is known of is no more than twice as wide as high.</summary>
    public const double WidestRatio = 2;

    /// <summary>Machines of so many bits go on a board; what is wider may come out wider.</summary>
    private const int FewBits = 8;

    private const double WidestOfMany = 4;

    /// <summary>
    /// What can be read from the back of a room where nothing is known of it, laid out in text of the figures' size. What does not
    /// go on a board may be wider than that, rather than go on for many pages.
    /// </summary>
    public static FigureRoom Free(Datapath datapath)
    {
        var bits = datapath.Machine.Widths.Select(w => datapath.Numbers[w.Name.Text].Numerator).DefaultIfEmpty(0).Max();
        var height = FigureTarget.HeightsOfText * FigureHead.TextSize;
        return new FigureRoom((bits <= FewBits ? WidestRatio : WidestOfMany) * height, height) { Widest = WidestRatio };
    }

    /// <summary>How much higher a page must be to be no wider, for its height, than it may.</summary>
    public static double Lacking(Scene page, FigureRoom? room = null) =>
        page.SafeWidth / (room?.Wanted ?? WidestRatio) - page.Height;

    /// <summary>Pages as large as the target takes them, all to one measure, each in its middle.</summary>
    public static IReadOnlyList<Scene> On(FigureTarget? target, IReadOnlyList<Scene> pages)
    {
        if (target is null)
        {
            return pages;
        }
        var by = pages.Min(p => Math.Min(target.Width / p.SafeWidth, target.Height / p.Height));
        return [.. pages.Select(p => On(target, p, by))];
    }

    /// <summary>Pages below each other, so many on each of those that come out.</summary>
    public static IReadOnlyList<Scene> Stacked(IReadOnlyList<Scene> pages, int each) =>
        [.. pages.Chunk(each).Select(p => p.Length == 1 && pages.Count == 1 ? p[0] : Below(p, each))];

    private static Scene Below(IReadOnlyList<Scene> pages, int places)
    {
        var high = pages.Max(p => p.Height);
        return pages[0] with
        {
            Width = pages.Max(p => p.SafeWidth),
            Height = high * places,
            Description = string.Join(' ', pages.Select(p => p.Description).Distinct()),
            Shapes = [.. pages.SelectMany((p, i) => p.Shapes.Select(new Placed(1, 0, i * high).Of))],
        };
    }

    /// <summary>Rows on as few pages as there must be, about as much on each.</summary>
    /// <param name="heights">Of the rows.</param>
    /// <param name="room">How much a page takes; one row stands on each in any case.</param>
    public static IReadOnlyList<(int From, int Count)> Parts(IReadOnlyList<double> heights, double room)
    {
        var fewest = Cut(heights, room);
        for (var even = heights.Sum() / fewest.Count; even < room; even += room / 20)
        {
            if (Cut(heights, even) is var cut && cut.Count == fewest.Count)
            {
                return cut;
            }
        }
        return fewest;
    }

    private static List<(int From, int Count)> Cut(IReadOnlyList<double> heights, double room)
    {
        var parts = new List<(int From, int Count)>();
        for (var from = 0; from < heights.Count; )
        {
            var (to, left) = (from + 1, room - heights[from]);
            while (to < heights.Count && heights[to] <= left)
            {
                left -= heights[to++];
            }
            parts.Add((from, to - from));
            from = to;
        }
        return parts.Count == 0 ? [(0, 0)] : parts;
    }

    private static Scene On(FigureTarget target, Scene page, double by)
    {
        var placed = new Placed(by, (target.Width - page.SafeWidth * by) / 2, (target.Height - page.Height * by) / 2);
        return page with { Width = target.Width, Height = target.Height, Shapes = [.. page.Shapes.Select(placed.Of)] };
    }

    /// <summary>Shapes made larger or smaller and moved.</summary>
    private sealed record Placed(double By, double Right, double Down)
    {
        public Shape Of(Shape shape) =>
            shape.Match<Shape>(
                group: g => g with { Shapes = [.. g.Shapes.Select(Of)] },
                area: a => a with { Outline = Of(a.Outline), EdgeWidth = a.EdgeWidth * By },
                stroke: s => s with { Outline = Of(s.Outline), Width = s.Width * By },
                strand: s => s with { Trace = Of(s.Trace), Width = s.Width * By },
                text: t => t with { At = Of(t.At), Size = t.Size * By, Within = t.Within is { } box ? Of(box) : null }
            );

        private Outline Of(Outline outline) =>
            outline.Match<Outline>(
                r => new Rectangle(Of(r.Box), r.Radius * By),
                d => new Disc(Of(d.Centre), d.Radius * By),
                Of
            );

        private Trace Of(Trace trace) =>
            new([.. trace.Steps.Select(s => s with { First = Of(s.First), Second = Of(s.Second), To = Of(s.To) })]);

        private Box Of(Box box) => new(box.Left * By + Right, box.Top * By + Down, box.Width * By, box.Height * By);

        private Point Of(Point at) => new(at.X * By + Right, at.Y * By + Down);
    }
}
