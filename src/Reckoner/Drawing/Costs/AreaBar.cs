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
    private const double NameLine = 24;
    private const double Between = 14;

    /// <summary>What names take below a bar, of stretches too narrow for them.</summary>
    /// <param name="room">How far names may reach from the bar's left end; null where names that no stretch has room for are told elsewhere.</param>
    public static double NamesBelow(
        IReadOnlyList<AreaStretch> stretches,
        double pitch,
        double room,
        Vocabulary words
    ) =>
        stretches.All(s => s.HoldsName(pitch))
            ? 0
            : 4 + (NameLine * Math.Max(1, Listed(stretches, pitch, room, words).Count));

    /// <summary>
    /// Names that would not fit below the bar, each led to from its stretch: in lines, in their order, led to from nowhere. Empty where
    /// they fit.
    /// </summary>
    private static List<string> Listed(
        IReadOnlyList<AreaStretch> stretches,
        double pitch,
        double room,
        Vocabulary words
    )
    {
        var (x, free) = (0.0, 0.0);
        var names = new List<string>();
        foreach (var stretch in stretches)
        {
            if (!stretch.HoldsName(pitch))
            {
                names.Add(stretch.Name);
                free = Beside(x + (stretch.Area * pitch / 2), free, stretch.Name) + Width(stretch.Name) + Between;
            }
            x += stretch.Area * pitch;
        }
        if (free - Between <= room)
        {
            return [];
        }
        var said = words.Say("trade.narrow", ("names", string.Join(words.Say("walk.between-effects"), names)));
        var lines = new List<string>();
        foreach (var word in said.Split(' '))
        {
            if (lines.Count > 0 && Width($"{lines[^1]} {word}") <= room)
            {
                lines[^1] += $" {word}";
            }
            else
            {
                lines.Add(word);
            }
        }
        return lines;
    }

    /// <summary>Where a name begins: below the middle of its stretch, or right of the name before it.</summary>
    private static double Beside(double middle, double free, string name) => Math.Max(free, middle - (Width(name) / 2));

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
    /// <param name="room">How far names may reach from the bar's left end; null where names that no stretch has room for are told elsewhere.</param>
    public static IEnumerable<Shape> Drawn(
        IReadOnlyList<AreaStretch> stretches,
        Point corner,
        double height,
        double pitch,
        double? room,
        Vocabulary words
    )
    {
        var listed = room is { } reach ? Listed(stretches, pitch, reach, words) : [];
        foreach (var (index, line) in listed.Index())
        {
            yield return Below(line, corner.X, corner.Y + height + (index * NameLine));
        }
        var (x, free) = (corner.X, corner.X);
        var isPlain = false;
        foreach (var stretch in stretches)
        {
            var box = new Box(x, corner.Y, stretch.Area * pitch, height);
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
            else if (room is not null && listed.Count == 0)
            {
                var (from, width) = (new Point((box.Left + box.Right) / 2, box.Bottom), Width(stretch.Name));
                var left = Beside(from.X, free, stretch.Name);
                yield return new Stroke(Trace.Through(from, new(left + (width / 2), box.Bottom + 9)), Role.Rule, 1.5);
                yield return Below(stretch.Name, left, box.Bottom);
                free = left + width + Between;
            }
            x = box.Right;
        }
    }

    private static Text Below(string said, double x, double bottom) =>
        new(
            said,
            new Point(x, bottom + NameLine),
            Anchor.Start,
            Face.Plain,
            FigureHead.TextSize,
            Role.Quiet,
            Role.Ground,
            null
        );
}
