using Reckoner.Execution;
using Reckoner.Numbers;
using Reckoner.Reporting;
using Reckoner.Running;

namespace Reckoner.Drawing;

internal sealed partial class Weave
{
    private const double HeadHeight = 142;

    /// <summary>How far words have reached to the right.</summary>
    private double right;

    /// <summary>How far the columns beside the cells have reached.</summary>
    private double meaningsEnd;

    private string Given => FigureHead.Given(Walk, figure.Words);

    private void Say(string words, double x, double baseline, Face face, double size, Role ink)
    {
        var text = new Text(words, new Point(x, baseline), Anchor.Start, face, size, ink, Role.Ground, null);
        right = Math.Max(right, text.Box.Right);
        shapes.Add(text);
    }

    private void Head()
    {
        foreach (
            var text in FigureHead.Of(
                FigureHead.Title(Walk.Datapath, figure.Words),
                $"{Names.Widths(Walk.Datapath, figure.Words)}: {Given}"
            )
        )
        {
            right = Math.Max(right, text.Box.Right);
            shapes.Add(text);
        }
        var line = HeadHeight - 12;
        shapes.Add(
            new Text(
                Heading,
                new Point(WeaveGrid.Margin + labelWidth, line),
                Anchor.End,
                Face.Plain,
                LabelSize,
                Role.Quiet,
                Role.Ground,
                null
            )
        );
        foreach (var text in Registers.SelectMany(r => RegisterHead.Of(grid, r, line, TextSize, figure.Words.Language)))
        {
            right = Math.Max(right, text is Text t ? t.Box.Right : 0);
            shapes.Add(text);
        }
    }

    // ---- beside the rows

    /// <summary>What registers stand for, a column for each at the right of the cells.</summary>
    private void Meanings()
    {
        const double Between = 34;
        if (figure.IsBlank)
        {
            return;
        }
        foreach (var meaning in Walk.Datapath.Meanings)
        {
            var left = Math.Max(grid.Right, meaningsEnd) + Between;
            Beside(meaning.Name, left, HeadHeight - 12, Face.Bold, TextSize, Role.Ink);
            foreach (var row in Shown.TakeWhile(r => r.Cycle <= figure.Until && meaning.IsSoAfter(r.Step)))
            {
                var middle = grid.RowTop(Place(row)) + grid.CellHeight / 2;
                var baseline = middle + Typeface.Of(Face.Plain).CapitalHeight * LabelSize / 2;
                var said = figure.Words.Decimal(meaning.Say(NumberWords.Over(row.Registers)));
                var from = shapes.Count;
                Beside(said, left, baseline, Face.Plain, LabelSize, Role.Ink);
                // Who shows the figure cycle by cycle shows it with its row.
                var text = shapes[from];
                shapes.RemoveAt(from);
                var at = shapes.FindLastIndex(s => s is Group g && g.Link?.Cycle == row.Cycle);
                var group = (Group)shapes[at];
                shapes[at] = group with { Shapes = [.. group.Shapes, text] };
            }
        }
    }

    private void Beside(string words, double x, double baseline, Face face, double size, Role ink)
    {
        Say(words, x, baseline, face, size, ink);
        meaningsEnd = Math.Max(meaningsEnd, x + Width(words, face, size));
    }

    // ---- below the rows

    /// <summary>Under the bits that make up a result: a bracket with its name and number.</summary>
    private double Results(double bottom)
    {
        if (!figure.ShowsResults)
        {
            return bottom;
        }
        var line = bottom + 12;
        var free = new List<double>();
        var found = Walk
            .Datapath.Results.Zip(Walk.Results, Provenance.OfResults(Walk))
            .Select(r => (Result: r.First, Bits: r.Second, Boxes: Boxes(r.Third)))
            .Where(r => r.Boxes.Count > 0)
            .OrderBy(r => r.Boxes[0].Left);
        foreach (var (result, bits, boxes) in found)
        {
            var text = $"{result.In(figure.Words.Language)} = {Bits.Text(result.Number(bits))}";
            var width = Width(text, Face.Bold, TextSize);
            var left = boxes[0].Left;
            var level = free.FindIndex(x => x < left);
            if (level < 0)
            {
                level = free.Count;
                free.Add(0);
            }
            free[level] = Math.Max(boxes[^1].Right, left + width + 8);
            var y = line + level * 30;
            shapes.Add(new Stroke(Bracket(boxes, y), Role.Ink, 1.4));
            Say(text, left, y + 20, Face.Bold, TextSize, Role.Ink);
        }
        return free.Count == 0 ? bottom : line + free.Count * 30 - 6;
    }

    /// <summary>Under one stretch of cells after the other, joined where they belong together.</summary>
    private static Trace Bracket(IReadOnlyList<Box> boxes, double y)
    {
        var points = new List<Point>();
        foreach (var box in boxes)
        {
            if (points.Count > 0)
            {
                points.AddRange([new(points[^1].X, y), new(box.Left, y)]);
            }
            points.AddRange([new(box.Left, y - 5), new(box.Left, y), new(box.Right, y), new(box.Right, y - 5)]);
        }
        return Trace.Through([.. points]);
    }

    /// <summary>
    /// The stretches of cells that a result stands in, from left to right; none where it does not stand in registers as it is read, from the
    /// highest place on, in one register or going on in the next.
    /// </summary>
    private List<Box> Boxes(IReadOnlyList<BitSource> bits)
    {
        var boxes = new List<Box>();
        for (var high = bits.Count - 1; high >= 0; )
        {
            var (register, low) = (bits[high].Register, high);
            while (low > 0 && bits[low - 1].IsOfSame(bits[high]) && bits[low - 1].Bit == bits[low].Bit - 1)
            {
                low--;
            }
            var follows = high == bits.Count - 1 || register?.Index == bits[high + 1].Register!.Index + 1;
            if (register is null || !follows)
            {
                return [];
            }
            boxes.Add(grid.Cells(register, bits[high].Bit, bits[low].Bit, 0));
            high = low - 1;
        }
        return boxes;
    }

    /// <summary>What the colours stand for, in lines as wide as the cells.</summary>
    private double Legend(double bottom)
    {
        var entries = origins.All.Select(o => new LegendEntry(o.Origin.Said(figure.Words), o.Hue)).ToList();
        if (HasConstants())
        {
            entries.Add(new LegendEntry(figure.Words.Say("figure.from-constant"), Role.Neutral));
        }
        if (figure.Idle is { } study)
        {
            entries.Add(LegendEntry.Of(study, figure.Words));
        }
        var (drawn, below) = Drawing.Legend.Of(entries, bottom + 36, Math.Max(grid.Right, 560), TextSize);
        shapes.AddRange(drawn);
        right = Math.Max(right, drawn.OfType<Text>().Select(t => t.Box.Right).DefaultIfEmpty(0).Max());
        return below;
    }

    private bool HasConstants() =>
        Shown.Any(r => provenance[r.Cycle].Origins.Any(bits => bits.Any(b => b.Kind == SourceKind.Constant)));
}
