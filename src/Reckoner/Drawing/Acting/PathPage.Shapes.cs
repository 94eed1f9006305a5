using System.Globalization;
using Reckoner.Checking;

namespace Reckoner.Drawing;

internal sealed partial class PathPage
{
    private void Draw(Block block, double y)
    {
        var box = boxes[block] with { Top = y };
        boxes[block] = box;
        Solid.Add(box);
        var link = new Link(Line: block.Line);
        solids.Add(new Area(new Rectangle(box, 4), Role.Ground, Role.Ink, Thickness(block)) { Link = link });
        if (BlockSizes.IsFromAbove(block, sources.Contains(block)))
        {
            Marks |= PathMarks.FromAbove;
        }
        var baseline = y + LabelHeight - 7;
        var x = box.Left + Padding;
        var kind = BlockSizes.Kind(block, sources.Contains(block));
        if (kind.Length > 0)
        {
            Say(kind, x, baseline, Face.Bold, Role.Ink, box);
            x += BlockSizes.BesideKind(kind);
        }
        Say(sizes.Said(block, sources.Contains(block)), x, baseline, Face.Plain, Role.Quiet, box);
        if (block.At is { } at)
        {
            Marks |= PathMarks.Late;
            Flag(at, box);
        }
        foreach (var lane in block.Gives)
        {
            Cells(lane, y + LabelHeight);
        }
        var last = block.Gives[^1];
        Say(
            BlockSizes.Named(block, sources.Contains(block)),
            End(last, 0) + 8,
            y + LabelHeight + 20,
            Face.Plain,
            Role.Ink,
            box
        );
    }

    private double Thickness(Block block) =>
        block.At is not null ? 3
        : block.Acts && IsMoving ? 2
        : 1.2;

    /// <summary>The time behind a block that the longest path leads through, on a flag in its upper corner.</summary>
    private void Flag(int at, Box box)
    {
        var text = BlockSizes.Time(at);
        var wide = BlockSizes.Wide(text, Face.Bold) + 10;
        var flag = new Box(box.Right - wide, box.Top, wide, LabelHeight - 2);
        solids.Add(new Area(new Rectangle(flag, 4), Role.Ink));
        solids.Add(Text.Centred(text, flag, Face.Bold, TextSize, Role.Ground, Role.Ink));
    }

    private void Say(string words, double x, double baseline, Face face, Role ink, Box? within)
    {
        if (words.Length > 0)
        {
            solids.Add(new Text(words, new Point(x, baseline), Anchor.Start, face, TextSize, ink, Role.Ground, within));
        }
    }

    private void Ribbon(Lane lane, double y, IdleRow? idle)
    {
        var box = new Box(Left(lane, lane.Width - 1), y, End(lane, 0) - Left(lane, lane.Width - 1), RibbonHeight);
        Solid.Add(box);
        Cells(lane, y, idle);
        starts[lane] = y + RibbonHeight;
        shown[lane.Register!.Index] = lane;
    }

    private void Cells(Lane lane, double y, IdleRow? idle = null)
    {
        bool IsIdle(int bit) => idle?.CarriesNothing(lane.Register!, bit) ?? false;
        foreach (var (high, low, hue) in Alike(lane, i => (lane.Hues[i], IsIdle(i))))
        {
            var box = new Box(Left(lane, high), y, End(lane, low) - Left(lane, high), RibbonHeight);
            HasIdle |= IsIdle(low);
            solids.Add(
                new Area(
                    new Rectangle(box, Grid.Folded ? 2 : 4),
                    Role.Tint(hue),
                    Role.Edge(hue),
                    Grid.Folded ? 0.9 : 1.3,
                    IsIdle(low)
                )
                {
                    Link =
                        lane.Register is { } register ? new Link(Register: register, Bit: high == low ? low : null)
                        : lane.Maker?.Line is { } line ? new Link(Line: line)
                        : null,
                }
            );
        }
        if (lane.Bits is not { } bits || IsBlank)
        {
            return;
        }
        var together = sizes.BitsOfDigit;
        for (var low = 0; low < lane.Width; low += together)
        {
            var high = Math.Min(low + together, lane.Width) - 1;
            var digit = ((int)((bits >> low) & ((1 << together) - 1))).ToString("X", CultureInfo.InvariantCulture);
            var size = sizes.DigitSize;
            // A digit of fewer than four bits may be wider than they are; it ends where they end.
            var wide = Math.Max(End(lane, low) - Left(lane, high), Typeface.Of(Face.Mono).Width("0", size));
            var box = new Box(End(lane, low) - wide, y, wide, RibbonHeight);
            solids.Add(Text.Centred(digit, box, Face.Mono, size, Role.Ink, Role.Tint(lane.Hues[low])));
        }
    }

    /// <summary>Single bits, or where they are narrow runs of one origin within a part.</summary>
    private IEnumerable<(int High, int Low, int Hue)> Alike(Lane lane) => Alike(lane, i => (lane.Hues[i], false));

    /// <summary>The same for runs that look alike.</summary>
    private IEnumerable<(int High, int Low, int Hue)> Alike(Lane lane, Func<int, (int Hue, bool IsIdle)> look)
    {
        var cuts = lane.Register is { } register ? Reporting.Columns.Cuts(register) : [];
        for (var high = lane.Width - 1; high >= 0; )
        {
            var low = high;
            while (Grid.Folded && low > 0 && look(low - 1) == look(high) && !cuts.Contains(low))
            {
                low--;
            }
            yield return (high, low, lane.Hues[high]);
            high = low - 1;
        }
    }

    /// <summary>The threads of a lane, as far down as somebody takes them.</summary>
    private void Thread(Lane lane)
    {
        if (!ends.TryGetValue(lane, out var reached))
        {
            return;
        }
        ends.Remove(lane);
        var from = starts[lane];
        foreach (var run in Alike(lane))
        {
            for (var high = run.High; high >= run.Low; )
            {
                var low = high;
                while (low > run.Low && Math.Abs(reached[low - 1] - reached[high]) < 0.01)
                {
                    low--;
                }
                if (reached[high] > from)
                {
                    Upright(lane, high, low, from, reached[high], run.Hue);
                }
                high = low - 1;
            }
        }
    }

    private void Upright(Lane lane, int high, int low, double from, double to, int hue)
    {
        var box = new Box(Left(lane, high), from, End(lane, low) - Left(lane, high), to - from);
        Runs.Add((lane, box));
        if (Grid.Folded)
        {
            threads.Add(new Area(new Rectangle(box), Role.Tint(hue), Role.Edge(hue), 0.7));
            return;
        }
        for (var bit = low; bit <= high; bit++)
        {
            threads.Add(Strand(hue, Trace.Through(new(X(lane, bit), from), new(X(lane, bit), to))));
        }
    }

    private static Strand Strand(int hue, Trace trace) => new(trace, hue, hue == Role.Neutral ? 1.4 : 3.2);

    /// <summary>Bits that move, and under a bar what was chosen.</summary>
    private void Draw(Arrival arrival, Level level, double line, double bar, double ribbon)
    {
        var next = level.After.First(l => l.Register == arrival.Register);
        var to = arrival.HasBar ? bar : ribbon;
        for (var low = 0; low < arrival.Moves.Count; )
        {
            var high = low;
            var source = arrival.Moves[low];
            while (
                Grid.Folded && high + 1 < arrival.Moves.Count && GoesOn(arrival.Moves[high], arrival.Moves[high + 1])
            )
            {
                high++;
            }
            if (source.Lane is { } lane)
            {
                for (var i = low; i <= high; i++)
                {
                    Reach(lane, arrival.Moves[i].Index, line);
                }
                Slant(
                    lane,
                    arrival.Moves[high].Index,
                    source.Index,
                    next,
                    arrival.Low + high,
                    arrival.Low + low,
                    line,
                    to
                );
            }
            low = high + 1;
        }
        if (!arrival.HasBar)
        {
            return;
        }
        Marks |= PathMarks.Arrival;
        var box = Columns(arrival) with { Top = bar, Height = BarHeight };
        Solid.Add(box);
        solids.Add(
            new Area(new Rectangle(box, BarHeight / 2), arrival.IsLate ? Role.Ink : Role.Plain, Role.Ink, 1.3)
            {
                Link = new Link(Line: arrival.Line),
            }
        );
        for (var bit = arrival.Low; bit <= arrival.High; bit++)
        {
            if (!Grid.Folded || bit == arrival.Low)
            {
                var end = Grid.Folded ? arrival.High : bit;
                Upright(next, end, bit, bar + BarHeight, ribbon, next.Hues[bit]);
            }
        }
    }

    private static bool GoesOn(LaneBit here, LaneBit above) =>
        here.Lane is { } lane
        && above.Lane == lane
        && above.Index == here.Index + 1
        && lane.Hues[here.Index] == lane.Hues[above.Index]
        && !Reporting.Columns.Cuts(lane.Register!).Contains(above.Index);

    private void Slant(Lane from, int fromHigh, int fromLow, Lane to, int high, int low, double y, double end)
    {
        var hue = from.Hues[fromLow];
        if (Grid.Folded)
        {
            // As broad above as below, also where a gap between parts lies on one side.
            var broad = Math.Min(End(from, fromLow) - Left(from, fromHigh), End(to, low) - Left(to, high));
            var trace = Trace.Around(
                new(End(from, fromLow) - broad, y),
                new(End(from, fromLow), y),
                new(End(to, low), end),
                new(End(to, low) - broad, end)
            );
            threads.Add(new Area(trace, Role.Tint(hue), Role.Edge(hue), 0.7));
            return;
        }
        threads.Add(Strand(hue, Trace.Down(new(X(from, fromLow), y), new(X(to, low), end))));
    }

    private void Notes(Level level, double ribbon)
    {
        var lines = NoteLines.Of(level.Notes, form.Notes);
        var baseline = ribbon + 20 - (lines.Count - 1) * NoteLine;
        foreach (var line in lines)
        {
            Say(line, edge + WeaveGrid.Margin, baseline, Face.Plain, Role.Ink, null);
            baseline += NoteLine;
        }
    }
}
