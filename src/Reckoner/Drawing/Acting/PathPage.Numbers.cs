namespace Reckoner.Drawing;

/// <summary>Where the width of a bus stands.</summary>
internal enum NumberPlace
{
    /// <summary>Nowhere: there is no room for it.</summary>
    None,

    /// <summary>Beside its port or on its way, or it is a single bit, of which nothing need be said.</summary>
    Usual,

    /// <summary>Beside what it takes, or beside its way down: to be read, but only at a second glance.</summary>
    Aside,
}

internal sealed partial class PathPage
{
    private const double NumberHeight = 18;

    /// <summary>Finds a place for the width of every bus of a channel.</summary>
    /// <param name="to">Where they end.</param>
    private void Number(List<Port> ports, double to)
    {
        foreach (var port in ports)
        {
            port.Number = port.Tap.Width == 1 ? null : Usual(port, to);
            port.Place = port.Tap.Width == 1 || port.Number is not null ? NumberPlace.Usual : NumberPlace.None;
        }
        foreach (var port in ports.Where(p => p.Place == NumberPlace.None))
        {
            List<Box> taken = [.. Solid, .. ports.Where(p => p != port).SelectMany(p => Taken(p, to))];
            port.Number = Aside(port, to)
                .Select(b => (Box?)b)
                .FirstOrDefault(b =>
                    b!.Value.Left >= Grid.Left - 20 && b.Value.Right <= Right && !taken.Exists(t => t.Overlaps(b.Value))
                );
            port.Place = port.Number is null ? NumberPlace.None : NumberPlace.Aside;
        }
    }

    /// <summary>Beside its port, or on its way; null where neither has room.</summary>
    private Box? Usual(Port port, double to)
    {
        var wide = BlockSizes.Wide($"{port.Tap.Width}");
        if (port.Room >= wide + 12)
        {
            return new Box(port.X + 3, to - PortRoom + 2, wide + 2, PortRoom - 3);
        }
        var near = Math.Clamp(port.X, Left(port.Tap.Lane, port.Tap.High), End(port.Tap.Lane, port.Tap.Low));
        var (left, end) = (Math.Min(near, port.X), Math.Max(near, port.X));
        return end - left < wide + 12
            ? null
            : new Box((left + end - wide) / 2 - 1, port.Track - NumberHeight / 2, wide + 2, NumberHeight);
    }

    /// <summary>Right and left of what it takes, then of its way down, from the top.</summary>
    private IEnumerable<Box> Aside(Port port, double to)
    {
        var wide = BlockSizes.Wide($"{port.Tap.Width}") + 2;
        var (left, end) = Across(port);
        yield return At(end + 4, port.Track - NumberHeight / 2);
        yield return At(left - 4 - wide, port.Track - NumberHeight / 2);
        for (var y = port.Track + 4; y + NumberHeight < to; y += 4)
        {
            yield return At(port.X + 3, y);
            yield return At(port.X - 3 - wide, y);
        }

        Box At(double x, double y) => new(x, y, wide, NumberHeight);
    }

    /// <summary>Where a bus runs and says how wide it is.</summary>
    private IEnumerable<Box> Taken(Port port, double to)
    {
        var (left, end) = Across(port);
        yield return new Box(left - 2, port.Track - 3, end - left + 4, 6);
        yield return new Box(port.X - 2, port.Track, 4, to - port.Track);
        if (port.Number is { } number)
        {
            yield return number;
        }
    }
}
