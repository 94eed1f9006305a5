using Reckoner.Costing;
using Reckoner.Datapaths;
using Reckoner.Diagnostics;
using Reckoner.Numbers;
using Reckoner.Reporting;
using Reckoner.Words;

namespace Reckoner.Drawing;

/// <summary>
/// What each version of a machine buys: its area as one bar by part, which hangs on a rail where one operation ends; time runs down.
/// Short and high up is good. From the bar of a version that another follows, a line leads to that one's. Where a loop may stop early
/// the time is the longest.
/// </summary>
internal sealed class TradeView
{
    private const double TextSize = FigureHead.TextSize;
    private const double Top = 112;
    private const double BarHeight = 30;
    private const double LineHeight = 24;

    private const double LongestBar = 700;
    private const double Rail = 360;
    private const double Lead = 34;
    private const double Lane = 18;

    private readonly Vocabulary words;
    private readonly IReadOnlyList<MachineCost> costs;
    private readonly List<Shape> shapes = [];
    private readonly Dictionary<MachineCost, IReadOnlyList<AreaStretch>> bars;
    private readonly double rail;

    /// <summary>From one bar to the next where they would stand upon each other.</summary>
    private readonly double least;
    private readonly double scale;
    private readonly double pitch;

    /// <summary>How far names reach below a bar.</summary>
    private readonly double names;

    private TradeView(IReadOnlyList<MachineCost> costs, Vocabulary words, FigureRoom? room)
    {
        this.words = words;
        this.costs = costs;
        rail = WeaveGrid.Margin + costs.Max(c => Width(Bits.Text(c.Time.Most))) + 10;
        bars = costs.ToDictionary(c => c, c => AreaBar.Of(c, words));
        // What is said of a version takes its room whatever the bars do.
        var wide = room is null
            ? LongestBar
            : Math.Max(costs.Max(c => Width(Said(c))), room.Width - Bars - WeaveGrid.Margin - LaneRoom);
        // Of hardware that is nothing but wires there is no bar, and it takes no time.
        pitch = wide / Math.Max(1, costs.Max(c => c.Area));
        names = Math.Max(wide, costs.Max(c => Width(Said(c))));
        least = BarHeight + LineHeight + 16 + bars.Values.Max(b => AreaBar.NamesBelow(b, pitch, names, words));
        // Never wider than twice its height.
        var height = room?.Height ?? (Bars + names + LaneRoom + WeaveGrid.Margin) / 2;
        scale = Math.Max(Rail, height - Top - least - LineHeight) / Math.Max(1, costs.Max(c => c.Time.Most));
    }

    private double Bars => rail + Lead;

    /// <summary>Room for a line from each version to the next.</summary>
    private double LaneRoom => (Lane * costs.Count) + 8;

    /// <summary>Whether a machine and those that it follows have tables that are small enough to be made of gates.</summary>
    public static bool Suits(Datapath datapath) => Refusal([datapath]) is null;

    /// <summary>A table that is too large to be made of gates, of one of several or of those that one follows.</summary>
    public static (int Index, Diagnostic Why)? Refusal(IReadOnlyList<Datapath> datapaths) =>
        datapaths is not [var only] ? TableGates.FirstRefusal(datapaths)
        : TableGates.FirstRefusal(ComparisonView.Lineage(only)) is var (_, why) ? (0, why)
        : null;

    /// <summary>A machine with those that it follows.</summary>
    public static IReadOnlyList<Scene> Of(Datapath datapath, StillForm form) =>
        Of(ComparisonView.Lineage(datapath), form);

    public static IReadOnlyList<Scene> Of(IReadOnlyList<Datapath> datapaths, StillForm form)
    {
        var costs = datapaths.Select(d => Costs.Of(d, form.Adders, CostModel.UnitGates)).ToList();
        return Fitting.On(form.Target, [new TradeView(costs, form.Words, form.Room).Drawn()]);
    }

    private static double Width(string text) => Typeface.Of(Face.Plain).Width(text, TextSize);

    private Scene Drawn()
    {
        var heading = words.Say("trade.title");
        shapes.AddRange(
            FigureHead.Of(
                heading,
                words.Say(
                    costs.Any(Varies) ? "trade.scale-at-most" : "trade.scale",
                    ("adder", AdderText.Of(costs[0].Adders, words))
                )
            )
        );
        var places = Places();
        Ruler(places.Values.Max());
        var before = shapes.Count;
        foreach (var (cost, y) in places)
        {
            Version(cost, y);
        }
        var versions = shapes.Skip(before).Max(Right);
        var right = Lines(places, versions + 8);
        var bottom = places.Values.Max() + least - LineHeight + 24;
        Say(words.Say("trade.order"), WeaveGrid.Margin, bottom, Role.Quiet, Anchor.Start);
        right = Math.Max(right, shapes.OfType<Text>().Max(t => t.Box.Right));
        return new Scene(
            right + WeaveGrid.Margin,
            bottom + 24,
            heading,
            words.Say(
                "figure.trade",
                ("count", costs.Count),
                ("machines", string.Join(words.Say("walk.between-effects"), costs.Select(Said)))
            ),
            words.Language,
            [.. shapes]
        );
    }

    /// <summary>Where each bar stands: at its time, or below the one before it where there is no room.</summary>
    private Dictionary<MachineCost, double> Places()
    {
        var places = new Dictionary<MachineCost, double>();
        var free = Top;
        foreach (var cost in costs.OrderBy(c => c.Time.Most))
        {
            var y = Math.Max(free, At(cost) - (BarHeight / 2));
            places[cost] = y;
            free = y + least;
        }
        return places;
    }

    private double At(MachineCost cost) => Top + (cost.Time.Most * scale);

    private void Ruler(double last)
    {
        var bottom = Math.Max(last + (BarHeight / 2), costs.Max(At));
        shapes.Add(new Stroke(Trace.Through(new(rail, Top), new(rail, bottom)), Role.Rule, 1.5));
        shapes.Add(new Stroke(Trace.Through(new(rail - 6, Top), new(rail + 6, Top)), Role.Rule, 1.5));
        Say("0", rail - 10, Top + 6, Role.Quiet, Anchor.End);
        var free = Top + 12.0;
        foreach (var time in costs.Select(c => c.Time.Most).Distinct().Order())
        {
            var y = Top + (time * scale);
            shapes.Add(new Stroke(Trace.Through(new(rail - 6, y), new(rail + 6, y)), Role.Ink, 1.5));
            // Two times that are nearly the same have no room for two numbers; both stand beside their bars.
            if (y - 12 >= free)
            {
                Say(Bits.Text(time), rail - 10, y + 6, Role.Ink, Anchor.End);
                free = y + 12;
            }
        }
    }

    private void Version(MachineCost cost, double y)
    {
        var middle = y + (BarHeight / 2);
        shapes.Add(new Stroke(Trace.Through(new(rail + 6, At(cost)), new(Bars, middle)), Role.Ink, 1.5));
        shapes.AddRange(AreaBar.Drawn(bars[cost], new(Bars, y), BarHeight, pitch, names, words));
        Say(Said(cost), Bars, y - 8, Role.Ink, Anchor.Start);
    }

    private string Said(MachineCost cost) =>
        words.Say(
            Varies(cost) ? "trade.version-at-most" : "trade.version",
            ("machine", Names.Of(cost.Datapath, words)),
            ("area", cost.Area),
            ("clock", cost.Clock),
            ("cycles", cost.Cycles.Most),
            ("time", cost.Time.Most)
        );

    private static double Right(Shape shape) =>
        shape switch
        {
            Text text => text.Box.Right,
            Area { Outline: Rectangle { Box: var box } } => box.Right,
            _ => 0,
        };

    private static bool Varies(MachineCost cost) => cost.Cycles.Least != cost.Cycles.Most;

    /// <summary>From each version to the one that follows it, right of all bars and of what is said of them.</summary>
    /// <returns>How far they reach.</returns>
    private double Lines(Dictionary<MachineCost, double> places, double x)
    {
        var followers = costs
            .Select(c => (Cost: c, Before: Followed(c)!))
            .Where(f => f.Before is not null)
            // The shortest way inside, so that lines cross as seldom as can be.
            .OrderBy(f => Math.Abs(places[f.Cost] - places[f.Before]));
        foreach (var (cost, before) in followers)
        {
            x += Lane;
            var (from, to) = (places[before] + (BarHeight * 2 / 3), places[cost] + (BarHeight / 3));
            var (start, end) = (End(before), End(cost));
            shapes.Add(
                new Stroke(Trace.Through(new(start, from), new(x, from), new(x, to), new(end + 9, to)), Role.Quiet, 1.7)
            );
            shapes.Add(new Area(new Disc(new(end + 7, to), 4), Role.Ink));
        }
        return x;
    }

    private double End(MachineCost cost) => Bars + (cost.Area * pitch);

    /// <summary>The nearest of the others that it follows.</summary>
    private MachineCost? Followed(MachineCost cost)
    {
        for (var machine = cost.Datapath.Machine.Followed; machine is not null; machine = machine.Followed)
        {
            if (costs.FirstOrDefault(c => c != cost && c.Datapath.Machine.Hash == machine.Hash) is { } other)
            {
                return other;
            }
        }
        return null;
    }

    private void Say(string said, double x, double baseline, Role ink, Anchor anchor) =>
        shapes.Add(new Text(said, new Point(x, baseline), anchor, Face.Plain, TextSize, ink, Role.Ground, null));
}
