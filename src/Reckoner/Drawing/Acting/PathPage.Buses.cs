namespace Reckoner.Drawing;

/// <summary>A bus as it is drawn: across the bits it takes, sideways, then down to its port.</summary>
/// <param name="Taken">From the first to the last bit that it takes.</param>
/// <param name="Number">Where its width stands; that of a single bit goes without saying.</param>
internal sealed record Bus(
    Lane From,
    int Width,
    (double Left, double Right) Taken,
    double Y,
    double Port,
    double To,
    NumberPlace Number
)
{
    /// <summary>Whether its width stands beside it, as far as it must be said.</summary>
    public bool Labelled => Number != NumberPlace.None;

    public double Left => Math.Min(Taken.Left, Port);
    public double Right => Math.Max(Taken.Right, Port);
}

internal sealed partial class PathPage
{
    private sealed class Port(Tap tap, double x, double room, bool acts, bool isLate)
    {
        /// <summary>Whether the longest path leads over it.</summary>
        public bool IsLate { get; } = isLate;
        public Tap Tap { get; } = tap;
        public double X { get; } = x;

        /// <summary>How far the next port is.</summary>
        public double Room { get; } = room;
        public bool Acts { get; } = acts;
        public double Track { get; set; }

        /// <summary>Where the bus's width stands, once that is known; null for nowhere.</summary>
        public Box? Number { get; set; }

        public NumberPlace Place { get; set; }
    }

    /// <summary>Ports along the top of something, in the order in which their sources stand.</summary>
    private IEnumerable<Port> Ports(IReadOnlyList<Tap> taps, double left, double end, bool acts, bool isLate)
    {
        var ordered = taps.OrderBy(t => X(t.Lane, t.High) + X(t.Lane, t.Low)).ToList();
        var wanted = ordered.Sum(BlockSizes.Port);
        var stretch = (end - left) / Math.Max(1, wanted);
        var at = left;
        foreach (var tap in ordered)
        {
            var room = BlockSizes.Port(tap) * stretch;
            // The number stands to the right of its port.
            var x = at + (tap.Width > 1 ? Math.Min(10, room / 2) : room / 2);
            yield return new Port(tap, Beside(x), room, acts && tap.Acts, isLate && tap.Lane.IsLate);
            at += room;
        }
    }

    /// <summary>A port is never in line with a bit's thread.</summary>
    private double Beside(double x) =>
        starts.Keys.Any(l => Enumerable.Range(0, l.Width).Any(b => Math.Abs(X(l, b) - x) < 2.5)) && !Grid.Folded
            ? x + 4
            : x;

    /// <summary>Gives every bus a track of its own where it would touch another; returns where the last one runs.</summary>
    private double Channel(List<Port> ports, double y)
    {
        var tracks = new List<List<(double Left, double Right)>>();
        foreach (var port in ports.OrderBy(p => Math.Abs(p.X - Middle(p.Tap))))
        {
            var (left, end) = Across(port);
            var track = tracks.FindIndex(t => t.TrueForAll(o => o.Right + 10 < left || end + 10 < o.Left));
            if (track < 0)
            {
                track = tracks.Count;
                tracks.Add([]);
            }
            tracks[track].Add((left, end));
            port.Track = track;
        }
        foreach (var port in ports)
        {
            // Short ways run lowest, next to what they lead to.
            port.Track = y + 11 + (tracks.Count - 1 - port.Track) * TrackPitch;
        }
        return y + 11 + Math.Max(0, tracks.Count - 1) * TrackPitch;
    }

    private double Middle(Tap tap) => (X(tap.Lane, tap.High) + X(tap.Lane, tap.Low)) / 2;

    private (double Left, double Right) Across(Port port)
    {
        var (left, end) = (Left(port.Tap.Lane, port.Tap.High), End(port.Tap.Lane, port.Tap.Low));
        return (Math.Min(left, port.X), Math.Max(end, port.X));
    }

    private void Draw(List<Port> ports, double to)
    {
        Number(ports, to);
        foreach (var port in ports)
        {
            Draw(port, to);
        }
    }

    private void Draw(Port port, double to)
    {
        var tap = port.Tap;
        for (var bit = tap.Low; bit <= tap.High; bit++)
        {
            Reach(tap.Lane, bit, port.Track);
        }
        var (left, end) = (Left(tap.Lane, tap.High), End(tap.Lane, tap.Low));
        var near = Math.Clamp(port.X, left, end);
        var y = port.Track;
        if (port.Number is { } number)
        {
            solids.Add(new Area(new Rectangle(number, 3), Role.Ground));
            solids.Add(Text.Centred($"{tap.Width}", number, Face.Plain, TextSize, Role.Ink, Role.Ground));
        }
        all.Add(new Bus(tap.Lane, tap.Width, (left, end), y, port.X, to, port.Place));
        Marks |= tap.Width > 1 ? PathMarks.Tap | PathMarks.Number : PathMarks.Tap;
        if (IsMoving && !port.Acts)
        {
            // What is not taken runs below whatever is.
            Marks |= PathMarks.NotTaken;
            under.AddRange(Dashes.Of([new(near, y), new(port.X, y), new(port.X, to)], Role.Quiet, 1.4));
            under.Add(new Stroke(Trace.Through(new(left, y), new(end, y)), Role.Quiet, 3.4));
            return;
        }
        buses.Add(
            new Stroke(
                Trace.Through(new(Math.Min(left, port.X) - 2, y), new(Math.Max(end, port.X) + 2, y)),
                Role.Ground,
                9
            )
        );
        if (port.IsLate)
        {
            Late([new(near, y), new(port.X, y), new(port.X, to)], tap.Steers);
        }
        else if (tap.Steers)
        {
            Control(tap, new(near, y), new(port.X, y), new(port.X, to));
        }
        else if (!port.Acts)
        {
            buses.Add(new Stroke(Trace.Through(new(near, y), new(port.X, y), new(port.X, to)), Role.Quiet, 1.7));
        }
        else
        {
            Data(tap, near, y, port.X, to);
        }
        if (!port.Acts)
        {
            buses.Add(
                new Stroke(
                    Trace.Through(new(left, y), new(end, y)),
                    port.IsLate ? Role.Ink : Role.Quiet,
                    tap.Steers ? 2 : 3.4
                )
            );
            return;
        }
        for (var high = tap.High; high >= tap.Low; )
        {
            var low = high;
            while (low > tap.Low && tap.Lane.Hues[low - 1] == tap.Lane.Hues[high])
            {
                low--;
            }
            var box = new Box(Left(tap.Lane, high), y - 3, End(tap.Lane, low) - Left(tap.Lane, high), 6);
            var hue = tap.Lane.Hues[high];
            buses.Add(new Area(new Rectangle(box, 3), Role.Full(hue), Role.Edge(hue), 1));
            high = low - 1;
        }
    }

    /// <summary>A heavy line: nothing in the step comes later than what runs there.</summary>
    private void Late(Point[] way, bool steers)
    {
        const double Square = 11;
        Marks |= PathMarks.Late;
        buses.Add(new Stroke(Trace.Through(way), Role.Ink, LateWidth));
        if (steers)
        {
            Marks |= PathMarks.Control;
            var to = way[^1];
            solids.Add(new Area(new Rectangle(new Box(to.X - Square / 2, to.Y - Square, Square, Square)), Role.Ink));
        }
    }

    /// <summary>A thin line that ends in a square: what runs there decides and is not carried on.</summary>
    private void Control(Tap tap, Point from, Point turn, Point to)
    {
        const double Square = 7;
        Marks |= PathMarks.Control;
        buses.Add(new Stroke(Trace.Through(from, turn, to), Role.Ink, tap.Width > 1 ? 2 * ControlWidth : ControlWidth));
        solids.Add(new Area(new Rectangle(new Box(to.X - Square / 2, to.Y - Square, Square, Square)), Role.Ink));
    }

    /// <summary>A strand for each origin of the bits, up to four.</summary>
    private void Data(Tap tap, double near, double y, double port, double to)
    {
        const double Thick = 3.4;
        var hues = tap.Hues;
        for (var i = 0; i < hues.Count && i < 4; i++)
        {
            var by = (i - (Math.Min(4, hues.Count) - 1) / 2.0) * (Thick + 0.8);
            var x = port - by * Math.Sign(near - port);
            var way = Trace.Through(new(near, y + by), new(x, y + by), new(x, to));
            buses.Add(new Strand(way, hues[i], hues[i] == Role.Neutral ? 1.6 : Thick));
        }
    }
}
