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

    private void Title()
    {
        foreach (
            var text in FigureHead.Of(
                FigureHead.Title(Walk.Datapath, figure.Words),
                $"{Names.Widths(Walk.Datapath, figure.Words)}: {Given}{Number}"
            )
        )
        {
            right = Math.Max(right, text.Box.Right);
            shapes.Add(text);
        }
    }

    private string Number =>
        page.Count == 1 ? "" : "; " + figure.Words.Say("figure.page", ("page", page.Number), ("count", page.Count));

    /// <summary>The names of the registers above their cells.</summary>
    private void Head()
    {
        var line = HeadHeight - 12;
        shapes.Add(
            new Text(
                Heading,
                new Point(grid.Left - 22, line),
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
        meaningsEnd = 0;
        foreach (var meaning in Walk.Datapath.Meanings)
        {
            var left = Math.Max(grid.Right, meaningsEnd) + Between;
            Beside(meaning.Name, left, HeadHeight - 12, Face.Bold, TextSize, Role.Ink);
            var rows = column.Slots.Select(s => s.Row).OfType<Row>().TakeWhile(r => r.Cycle <= figure.Until);
            foreach (var row in rows.Where(r => meaning.IsSoAfter(r.Step) && IsLabelled(Place(r))))
            {
                var middle = grid.RowTop(Place(row)) + grid.CellHeight / 2;
                var baseline = middle + Typeface.Of(Face.Plain).CapitalHeight * LabelSize / 2;
                var said = figure.Words.Decimal(meaning.Say(NumberWords.Over(row.Registers)));
                var from = shapes.Count;
                Beside(said, left, baseline, Face.Plain, LabelSize, Role.Ink);
                // Who shows the figure cycle by cycle shows it with its row.
                var text = shapes[from];
                shapes.RemoveAt(from);
                // The last row of a column stands once more above the next.
                var at = shapes.FindLastIndex(s => s is Group g && g.Link?.Cycle == row.Cycle);
                var group = (Group)shapes[at];
                shapes[at] = group with { Shapes = [.. group.Shapes, text] };
            }
        }
    }

    /// <summary>How far what registers stand for may reach beside a column of cycles.</summary>
    private double MeaningsWidth() =>
        figure.IsBlank
            ? 0
            : Walk.Datapath.Meanings.Sum(m =>
                34
                + Shown
                    .Where(r => m.IsSoAfter(r.Step))
                    .Select(r =>
                        Width(figure.Words.Decimal(m.Say(NumberWords.Over(r.Registers))), Face.Plain, LabelSize)
                    )
                    .Append(Width(m.Name, Face.Bold, TextSize))
                    .Max()
            );

    private void Beside(string words, double x, double baseline, Face face, double size, Role ink)
    {
        Say(words, x, baseline, face, size, ink);
        meaningsEnd = Math.Max(meaningsEnd, x + Width(words, face, size));
    }

    // ---- below the rows

    /// <summary>Under the bits that make up a result: a bracket with its name and number.</summary>
    private double Results(double bottom)
    {
        if (!figure.ShowsResults || !EndsHere)
        {
            return bottom;
        }
        (grid, column) = (grids[^1], page.Columns[^1]);
        var line = grid.Bottom + 12;
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
        return free.Count == 0 ? bottom : Math.Max(bottom, line + free.Count * 30 - 6);
    }

    /// <summary>What holds in every round: a line with names, and one with the numbers of the last row that is shown.</summary>
    private double Holding(double bottom)
    {
        if (!EndsHere)
        {
            return bottom;
        }
        foreach (var (formula, place) in HoldingLines(figure).Select((f, place) => (f, place)))
        {
            Say(formula, grid.Left, bottom + (place + 2) * HoldingPitch, Face.Plain, TextSize, Role.Ink);
        }
        return bottom + HoldingHeight(figure);
    }

    private const double HoldingPitch = 24;

    private static double HoldingHeight(Figure figure) =>
        HoldingLines(figure) is { Count: > 0 and var count } ? (count + 1) * HoldingPitch : 0;

    private static IReadOnlyList<string> HoldingLines(Figure figure) =>
        figure.Walk.Holding is not { } holding || figure.IsBlank ? []
        : figure.ShowsResults ? [.. holding.Ends, .. holding.At(figure.Until)]
        : [.. holding.Formulas, .. holding.At(figure.Until)];

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
        var entries = origins.All.Select(Told).ToList();
        if (dropped is { } hue)
        {
            entries.Add(new LegendEntry(figure.Words.Say("figure.dropped"), hue, LegendMark.HollowBar));
        }
        if (HasConstants())
        {
            entries.Add(new LegendEntry(figure.Words.Say("figure.from-constant"), Role.Neutral));
        }
        if (figure.Idle is { } study && HasDigits)
        {
            entries.Add(LegendEntry.Of(study, figure.Words));
        }
        var wide = Math.Max(grids[^1].Right, figure.Room is { } room ? room.Width - WeaveGrid.Margin : 560);
        var (drawn, below) = Drawing.Legend.Of(entries, bottom + 36, wide, TextSize);
        shapes.AddRange(drawn);
        right = Math.Max(right, drawn.OfType<Text>().Select(t => t.Box.Right).DefaultIfEmpty(0).Max());
        return below;
    }

    private LegendEntry Told((Origin Origin, int Hue) of) =>
        of.Origin.Kind == SourceKind.Decision
            ? new LegendEntry(DecidedBy(), of.Hue, LegendMark.Dot)
            : new LegendEntry(origins.Said(of.Origin, figure.Words), of.Hue);

    /// <summary>What the dots stand for: that something was decided, and by what where that is soon said.</summary>
    private string DecidedBy()
    {
        const int Most = 48;
        var asked = Shown
            .SelectMany(r => provenance[r.Cycle].Sources)
            .SelectMany(s => s)
            .Where(s => s.Kind == SourceKind.Decision)
            .Select(s => s.Value is { Written: not null } value ? WrittenText.Of(value, figure.Words) : null)
            .Distinct()
            .ToList();
        var told = string.Join(figure.Words.Say("walk.between-names"), asked);
        return asked.Count == 0 || asked.Contains(null) || told.Length > Most
            ? figure.Words.Say("figure.from-decision")
            : figure.Words.Say("figure.decided-by", ("what", told));
    }

    private bool HasConstants() =>
        Shown.Any(r => provenance[r.Cycle].Origins.Any(bits => bits.Any(b => b.Kind == SourceKind.Constant)));
}
