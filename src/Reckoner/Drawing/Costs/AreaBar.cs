using Reckoner.Costing;
using Reckoner.Reporting;
using Reckoner.Words;

namespace Reckoner.Drawing;

/// <summary>A part of a machine's area as a stretch of its bar.</summary>
/// <param name="Hue">As the weave has it: where the bits of a register or unit come from; none for what belongs to no one.</param>
internal sealed record AreaStretch(string Name, long Area, int Hue)
{
    /// <summary>Whether its name has room in it, where a unit of area has this width.</summary>
    public bool HoldsName(double pitch) => AreaBar.Width(Name) + 8 <= Area * pitch;
}

/// <summary>A machine's area as one bar: its registers, its units, then choices, gates, tables and the round counter.</summary>
internal static class AreaBar
{
    /// <summary>What names take below a bar, of stretches too narrow for them.</summary>
    public const double NamesBelow = 28;

    public static IReadOnlyList<AreaStretch> Of(MachineCost cost, Vocabulary words)
    {
        var hues = new BlockHues(cost.Structure);
        return
        [
            .. cost.Datapath.Registers.Select(r => new AreaStretch(
                r.Name,
                (long)r.Width * cost.Model.Register.Area,
                hues.Of(r)
            )),
            .. cost
                .Parts.Where(p => p.Unit is not null)
                .Select(p => new AreaStretch(UnitText.Short(p.Unit!, cost.Datapath, words), p.Area, hues.Of(p.Unit!))),
            .. Summed("trade.choices", CostKind.RegisterInputs, CostKind.UnitInputs, CostKind.Choices),
            .. Summed("trade.gates", CostKind.Gates),
            .. Summed("cost.part-tables", CostKind.Tables),
            .. Summed("cost.part-counter", CostKind.Counter),
        ];

        IEnumerable<AreaStretch> Summed(string key, params CostKind[] kinds)
        {
            var area = cost.Parts.Where(p => kinds.Contains(p.Kind)).Sum(p => p.Area);
            return area > 0 ? [new AreaStretch(words.Say(key), area, Role.Neutral)] : [];
        }
    }

    internal static double Width(string text) => Typeface.Of(Face.Plain).Width(text, FigureHead.TextSize);

    /// <param name="pitch">The width of a unit of area.</param>
    public static IEnumerable<Shape> Drawn(
        IReadOnlyList<AreaStretch> stretches,
        double x,
        double y,
        double height,
        double pitch
    )
    {
        var free = x;
        var isPlain = false;
        foreach (var stretch in stretches)
        {
            var box = new Box(x, y, stretch.Area * pitch, height);
            // What belongs to no one is told apart by turns.
            isPlain = stretch.Hue == Role.Neutral && !isPlain;
            var tint =
                stretch.Hue != Role.Neutral ? Role.Tint(stretch.Hue)
                : isPlain ? Role.Plain
                : Role.Ground;
            yield return new Area(new Rectangle(box, 3), tint, Role.Edge(stretch.Hue), 1.3);
            if (stretch.HoldsName(pitch))
            {
                yield return Text.Centred(stretch.Name, box, Face.Plain, FigureHead.TextSize, Role.Ink, tint);
            }
            else
            {
                var (from, width) = (new Point((box.Left + box.Right) / 2, box.Bottom), Width(stretch.Name));
                var left = Math.Max(free, from.X - (width / 2));
                yield return new Stroke(Trace.Through(from, new(left + (width / 2), box.Bottom + 9)), Role.Rule, 1.5);
                yield return new Text(
                    stretch.Name,
                    new Point(left, box.Bottom + 24),
                    Anchor.Start,
                    Face.Plain,
                    FigureHead.TextSize,
                    Role.Quiet,
                    Role.Ground,
                    null
                );
                free = left + width + 14;
            }
            x = box.Right;
        }
    }
}
