using Reckoner.Datapaths;
using Reckoner.Numbers;
using Reckoner.Reporting;
using Reckoner.Running;

namespace Reckoner.Drawing;

public sealed partial class Weave
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
                var said = meaning.Say(Meaning.Over(Walk.Datapath, row.Registers));
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
        var sources = Provenance.OfResults(Walk);
        foreach (var (result, bits) in Walk.Datapath.Results.Zip(sources).OrderBy(r => Left(r.Second)))
        {
            if (!IsWhole(bits))
            {
                continue;
            }
            var register = bits[0].Register!;
            var box = grid.Cells(register, bits[^1].Bit, bits[0].Bit, 0);
            var text =
                $"{result.Name} = {Bits.Text(result.Number(Walk.Results[Walk.Datapath.Results.ToList().IndexOf(result)]))}";
            var width = Width(text, Face.Bold, TextSize);
            var level = free.FindIndex(x => x < box.Left);
            if (level < 0)
            {
                level = free.Count;
                free.Add(0);
            }
            free[level] = Math.Max(box.Right, box.Left + width + 8);
            var y = line + level * 30;
            shapes.Add(
                new Stroke(
                    Trace.Through(new(box.Left, y - 5), new(box.Left, y), new(box.Right, y), new(box.Right, y - 5)),
                    Role.Ink,
                    1.4
                )
            );
            Say(text, box.Left, y + 20, Face.Bold, TextSize, Role.Ink);
        }
        return free.Count == 0 ? bottom : line + free.Count * 30 - 6;

        double Left(IReadOnlyList<BitSource> b) => IsWhole(b) ? grid.X(b[0].Register!, b[^1].Bit) : 0;
    }

    /// <summary>Whether a result is a stretch of one register.</summary>
    private static bool IsWhole(IReadOnlyList<BitSource> bits) =>
        bits[0].Kind == SourceKind.Register
        && bits.Select((b, i) => b.IsOfSame(bits[0]) && b.Bit == bits[0].Bit + i).All(x => x);

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
