namespace Reckoner.Drawing;

internal sealed partial class FontFile
{
    private int? Start(int glyph)
    {
        var isLong = Int16(tables["head"] + 50) != 0;
        var loca = tables["loca"];
        long Offset(int i) => isLong ? UInt32(loca + 4 * i) : 2L * UInt16(loca + 2 * i);
        var (from, to) = (Offset(glyph), Offset(glyph + 1));
        return from == to ? null : tables["glyf"] + (int)from;
    }

    /// <summary>The lowest and highest place of a glyph above the line.</summary>
    public (double Bottom, double Top) Bounds(int glyph) =>
        Start(glyph) is { } at ? (Share(Int16(at + 4)), Share(Int16(at + 8))) : (0, 0);

    /// <summary>
    /// A glyph as a path whose line stands at a place, y down. The bundled fonts have no composite glyphs; one would be refused.
    /// </summary>
    public IReadOnlyList<PathStep> Outline(int glyph, Point at, double size)
    {
        if (Start(glyph) is not { } start)
        {
            return [];
        }
        var steps = new List<PathStep>();
        foreach (var contour in Contours(start))
        {
            Add(steps, contour, p => new Point(at.X + p.X / unitsPerEm * size, at.Y - p.Y / unitsPerEm * size));
        }
        return steps;
    }

    private readonly record struct GlyphPoint(int X, int Y, bool IsOnCurve);

    private List<List<GlyphPoint>> Contours(int start)
    {
        var count = Int16(start);
        if (count < 0)
        {
            throw new InvalidDataException("composite glyphs are not read");
        }
        var ends = Enumerable.Range(0, count).Select(i => (int)UInt16(start + 10 + 2 * i)).ToList();
        var total = ends[^1] + 1;
        var at = start + 10 + 2 * count;
        at += 2 + UInt16(at);
        var flags = new List<byte>();
        while (flags.Count < total)
        {
            var flag = bytes[at++];
            var times = (flag & 8) != 0 ? bytes[at++] + 1 : 1;
            flags.AddRange(Enumerable.Repeat(flag, times));
        }
        var xs = Coordinates(flags, ref at, shortBit: 2, sameBit: 16);
        var ys = Coordinates(flags, ref at, shortBit: 4, sameBit: 32);
        var points = flags.Select((f, i) => new GlyphPoint(xs[i], ys[i], (f & 1) != 0)).ToList();
        var first = 0;
        var contours = new List<List<GlyphPoint>>();
        foreach (var end in ends)
        {
            contours.Add(points[first..(end + 1)]);
            first = end + 1;
        }
        return contours;
    }

    /// <summary>Differences from point to point: one byte and a sign in the flag, or two bytes, or none.</summary>
    private List<int> Coordinates(List<byte> flags, ref int at, int shortBit, int sameBit)
    {
        var value = 0;
        var values = new List<int>(flags.Count);
        foreach (var flag in flags)
        {
            if ((flag & shortBit) != 0)
            {
                value += (flag & sameBit) != 0 ? bytes[at] : -bytes[at];
                at++;
            }
            else if ((flag & sameBit) == 0)
            {
                value += Int16(at);
                at += 2;
            }
            values.Add(value);
        }
        return values;
    }

    /// <summary>Quadratic curves between points on the curve; between two handles one lies halfway. Written as cubic ones.</summary>
    private static void Add(List<PathStep> steps, List<GlyphPoint> contour, Func<(double X, double Y), Point> place)
    {
        (double X, double Y) At(int i) => (contour[i % contour.Count].X, contour[i % contour.Count].Y);
        (double X, double Y) Halfway((double X, double Y) a, (double X, double Y) b) =>
            ((a.X + b.X) / 2, (a.Y + b.Y) / 2);
        var first = contour.FindIndex(p => p.IsOnCurve);
        var from = first >= 0 ? At(first) : Halfway(At(0), At(contour.Count - 1));
        first = Math.Max(first, -1);
        steps.Add(PathStep.MoveTo(place(from)));
        for (var i = first + 1; i <= first + contour.Count; i++)
        {
            if (contour[i % contour.Count].IsOnCurve)
            {
                from = At(i);
                steps.Add(PathStep.LineTo(place(from)));
                continue;
            }
            var handle = At(i);
            var next = contour[(i + 1) % contour.Count];
            var to = next.IsOnCurve ? At(i + 1) : Halfway(handle, At(i + 1));
            steps.Add(
                PathStep.CurveTo(
                    place((from.X + 2 * (handle.X - from.X) / 3, from.Y + 2 * (handle.Y - from.Y) / 3)),
                    place((to.X + 2 * (handle.X - to.X) / 3, to.Y + 2 * (handle.Y - to.Y) / 3)),
                    place(to)
                )
            );
            from = to;
            i += next.IsOnCurve ? 1 : 0;
        }
        steps.Add(PathStep.Close);
    }
}
