using System.Globalization;
using System.Numerics;
using Reckoner.Costing;
using Reckoner.Datapaths;
using Reckoner.Numbers;
using Reckoner.Reporting;
using Reckoner.Words;

namespace Reckoner.Drawing;

/// <summary>
/// How a machine grows with its width: a row for each, down the page, in it the area as a bar by part and, in a field of its own, the
/// clock as a bar of what the path leads through that sets it. A notch across each bar stands where the law would let it end.
/// </summary>
internal sealed class GrowthView
{
    private const double TextSize = FigureHead.TextSize;
    private const double Top = 146;
    private const double Least = 38;
    private const double BetweenBars = 12;
    private const double HighestBar = 40;
    private const double Between = 90;

    /// <summary>Room for the longest bar's number.</summary>
    private const double Behind = 64;

    /// <summary>More widths than these stand for all between them.</summary>
    private const int MostRows = 16;

    /// <summary>So many widths are drawn where one alone is asked for: up to that.</summary>
    private const int RowsBelow = 8;

    private readonly IReadOnlyList<MachineCost> all;
    private readonly IReadOnlyList<MachineCost> rows;
    private readonly Vocabulary words;
    private readonly AdderChoice adders;
    private readonly List<Shape> shapes = [];
    private readonly int varying;
    private double rowHeight;

    private GrowthView(IReadOnlyList<MachineCost> all, StillForm form)
    {
        this.all = all;
        words = form.Words;
        adders = form.Adders;
        varying = Growths.Varying(all) ?? 0;
        rows = Spread(all, MostRows);
    }

    /// <summary>Whether it has a width, another below that, and no table that is too large.</summary>
    public static bool Suits(Datapath datapath) => TableGates.Refusal(datapath) is null && Below(datapath).Count > 1;

    /// <summary>Up to the width of a machine.</summary>
    public static IReadOnlyList<Scene> Of(Datapath datapath, StillForm form) => Of(Below(datapath), form);

    public static IReadOnlyList<Scene> Of(IReadOnlyList<Datapath> datapaths, StillForm form) =>
        Fitting.On(
            form.Target,
            [new GrowthView([.. datapaths.Select(d => Costs.Of(d, form.Adders, CostModel.UnitGates))], form).Drawn()]
        );

    /// <summary>The same machine at widths up to its own, the other widths and parameters as they are.</summary>
    private static IReadOnlyList<Datapath> Below(Datapath datapath)
    {
        if (datapath.Widths.Count == 0)
        {
            return [datapath];
        }
        var main = datapath.Widths[0];
        var others = datapath.Widths.Skip(1).ToDictionary(w => w.Name, w => w.Value);
        var found = new List<Datapath> { datapath };
        for (var width = main.Value - 1; width > 0 && found.Count < RowsBelow; width--)
        {
            if (datapath.Machine.Built(new Dictionary<string, BigInteger>(others) { [main.Name] = width }) is { } at)
            {
                found.Insert(0, at);
            }
        }
        return found;
    }

    private static IReadOnlyList<T> Spread<T>(IReadOnlyList<T> all, int most) =>
        all.Count <= most
            ? all
            :
            [
                .. Enumerable
                    .Range(0, most)
                    .Select(i => all[(int)Math.Round(i * (all.Count - 1.0) / (most - 1))])
                    .Distinct(),
            ];

    private Scene Drawn()
    {
        var last = rows[^1];
        var name = Names.Of(last.Datapath, words);
        shapes.AddRange(
            FigureHead.Of(
                words.Say("growth.title", ("machine", last.Datapath.Machine.Name)),
                words.Say("growth.scale", ("adder", AdderText.Of(adders, words)))
            )
        );
        var left = WeaveGrid.Margin + rows.Max(c => Width(Said(c))) + 18;
        var laws = Growths.Of(all).ToDictionary(g => g.Of, g => g.Growth);
        // Many rows are high, and have room for long bars beside that; without a law there is less to say above the bars.
        var (areaField, clockField) =
            rows.Count >= 10 ? (620.0, 420.0)
            : laws.Count > 0 ? (450.0, 380.0)
            : (330.0, 220.0);
        var clocks = left + areaField + Between;
        var wide = clocks + clockField + Behind + WeaveGrid.Margin;
        rowHeight = Math.Max(Least, ((wide / Fitting.WidestRatio) - Top - 60) / rows.Count);
        var barHeight = Math.Min(rowHeight - BetweenBars, HighestBar);
        var (area, clock) = (
            areaField / Math.Max(1, rows.Max(c => c.Area)),
            clockField / Math.Max(1, rows.Max(c => c.Clock))
        );
        Head(left, CostSum.Area, laws);
        Head(clocks, CostSum.Clock, laws);
        var y = Top;
        foreach (var cost in rows)
        {
            var line = y + (barHeight / 2) + 6;
            Say(Said(cost), left - 12, line, Role.Ink, Anchor.End);
            shapes.AddRange(AreaBar.Drawn(AreaBar.Of(cost, words), new(left, y), barHeight, area, room: null, words));
            shapes.AddRange(AreaBar.Drawn(Path(cost), new(clocks, y), barHeight, clock, room: null, words));
            Ends(cost, CostSum.Area, cost.Area, left, area);
            Ends(cost, CostSum.Clock, cost.Clock, clocks, clock);
            y += rowHeight;
        }
        var bottom = y + 4;
        // What no bar has room for; a part that belongs to no one is told by where it stands.
        var unnamed = AreaBar
            .Of(last, words)
            .Where(p => p.Hue != Role.Neutral && !p.HoldsName(area))
            .Concat(Path(last).Where(p => p.Hue != Role.Neutral && !p.HoldsName(clock)))
            .Select(p => new LegendEntry(p.Name, p.Hue))
            .Distinct()
            .ToList();
        if (unnamed.Count > 0)
        {
            (var legend, bottom) = Legend.Of(unnamed, bottom + 20, wide, TextSize);
            shapes.AddRange(legend);
        }
        string[] notes =
            laws.Count > 0 ? [words.Say("growth.order"), words.Say("growth.notch")] : [words.Say("growth.order")];
        foreach (var note in NoteLines.Of(notes, wide - (2 * WeaveGrid.Margin)))
        {
            bottom += 26;
            Say(note, WeaveGrid.Margin, bottom, Role.Quiet, Anchor.Start);
        }
        return new Scene(
            shapes.OfType<Text>().Max(t => t.Box.Right) + WeaveGrid.Margin,
            bottom + 24,
            words.Say("growth.title", ("machine", last.Datapath.Machine.Name)),
            words.Say(
                "figure.growth",
                ("machine", name),
                ("count", rows.Count),
                ("area", last.Area),
                ("clock", last.Clock)
            ),
            words.Language,
            [.. shapes]
        );

        // Where the law ends a bar, and behind both how long the bar is.
        void Ends(MachineCost cost, CostSum of, long value, double x, double pitch)
        {
            var end = x + (value * pitch);
            if (laws.TryGetValue(of, out var law))
            {
                var at = x + (pitch * law.Says((int)cost.Datapath.Widths[varying].Value));
                shapes.Add(new Stroke(Trace.Through(new(at, y - 5), new(at, y + barHeight + 5)), Role.Ink, 2.2));
                end = Math.Max(end, at);
            }
            Say(Bits.Text(value), end + 10, y + (barHeight / 2) + 6, Role.Ink, Anchor.Start);
        }
    }

    private string Said(MachineCost cost) =>
        cost.Datapath.Widths.Count == 0
            ? ""
            : $"{cost.Datapath.Widths[varying].Name} = {cost.Datapath.Widths[varying].Value.ToString(CultureInfo.InvariantCulture)}";

    /// <summary>What the sum is called, and like what it grows.</summary>
    private void Head(double x, CostSum of, Dictionary<CostSum, Growth> laws)
    {
        var what = words.Say(GrowthText.SumKey(of));
        Say(
            laws.TryGetValue(of, out var law)
                ? words.Say(
                    "growth.like",
                    ("sum", what),
                    ("law", GrowthText.Formula(law, rows[0].Datapath.Widths[varying].Name, words)),
                    ("share", GrowthText.Three(law.Deviation * 100, words))
                )
                : what,
            x,
            Top - 22,
            Role.Ink,
            Anchor.Start
        );
    }

    /// <summary>What the path that sets the clock leads through, as far as it takes time.</summary>
    private IReadOnlyList<AreaStretch> Path(MachineCost cost)
    {
        var hues = new BlockHues(cost.Structure);
        return
        [
            .. cost
                .Critical.Hops.Where(h => h.Delay > 0)
                .Select(h =>
                    h.Unit is { } unit && h.Kind == PathKind.Unit
                        ? new AreaStretch(UnitText.Short(unit, cost.Datapath, words), h.Delay, hues.Of(unit))
                        : new AreaStretch(
                            h.Table?.Name
                                ?? words.Say(
                                    h.Kind is PathKind.Choice or PathKind.UnitInput or PathKind.RegisterInput
                                        ? "cost.choice"
                                        : "trade.gates"
                                ),
                            h.Delay,
                            Role.Neutral
                        )
                )
                .Aggregate(
                    new List<AreaStretch>(),
                    (joined, next) =>
                        joined.Count > 0 && joined[^1].Name == next.Name && joined[^1].Hue == next.Hue
                            ? [.. joined[..^1], next with { Area = joined[^1].Area + next.Area }]
                            : [.. joined, next]
                ),
        ];
    }

    private static double Width(string text) => Typeface.Of(Face.Plain).Width(text, TextSize);

    private void Say(string said, double x, double baseline, Role ink, Anchor anchor) =>
        shapes.Add(new Text(said, new Point(x, baseline), anchor, Face.Plain, TextSize, ink, Role.Ground, null));
}
