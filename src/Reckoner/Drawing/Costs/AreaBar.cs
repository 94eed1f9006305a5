using Reckoner.Costing;
using Reckoner.Reporting;
using Reckoner.Structure;
using Reckoner.Words;

namespace Reckoner.Drawing;

/// <summary>A part of a machine's area as a stretch of its bar.</summary>
/// <param name="Hue">As the weave has it: where the bits of a register or unit come from; none for what belongs to no one.</param>
internal sealed record AreaStretch(string Name, long Area, int Hue);

/// <summary>A machine's area as one bar: its registers, its units, then choices, gates, tables and the round counter.</summary>
internal static class AreaBar
{
    public static IReadOnlyList<AreaStretch> Of(MachineCost cost, Vocabulary words)
    {
        var hues = new BlockHues(MachineStructure.Of(cost.Datapath));
        return
        [
            .. cost.Datapath.Registers.Select(r => new AreaStretch(
                r.Name,
                (long)r.Width * cost.Model.Register.Area,
                hues.Of(r)
            )),
            .. cost
                .Parts.Where(p => p.Unit is not null)
                .Select(p => new AreaStretch(p.Unit!.Name ?? UnitText.KindOf(p.Unit, words), p.Area, hues.Of(p.Unit))),
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

    /// <param name="pitch">The width of a unit of area.</param>
    public static IEnumerable<Shape> Drawn(
        IReadOnlyList<AreaStretch> stretches,
        double x,
        double y,
        double height,
        double pitch
    )
    {
        foreach (var stretch in stretches)
        {
            var box = new Box(x, y, stretch.Area * pitch, height);
            var tint = stretch.Hue == Role.Neutral ? Role.Plain : Role.Tint(stretch.Hue);
            yield return new Area(new Rectangle(box, 3), tint, Role.Edge(stretch.Hue), 1.3);
            if (Typeface.Of(Face.Plain).Width(stretch.Name, FigureHead.TextSize) + 8 <= box.Width)
            {
                yield return Text.Centred(stretch.Name, box, Face.Plain, FigureHead.TextSize, Role.Ink, tint);
            }
            x = box.Right;
        }
    }
}
