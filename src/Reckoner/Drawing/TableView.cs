using Reckoner.Datapaths;
using Reckoner.Numbers;
using Reckoner.Reporting;
using Reckoner.Running;
using Reckoner.Styles;
using Reckoner.Tables;

namespace Reckoner.Drawing;

/// <summary>The table of a walk as a figure: a row for each cycle, digits in columns, reasons in words.</summary>
public sealed class TableView
{
    private const double TitleSize = 24;
    private const double TextSize = 18;
    private const double LinePitch = 25;
    private const double Sentences = 520;
    private const double Between = 30;
    private const double Top = 118;
    private const int MostBinaryDigits = 56;

    private readonly Figure figure;
    private readonly Grid grid;
    private readonly List<Shape> shapes = [];
    private readonly double[] lefts;
    private readonly double right;

    private TableView(Figure figure, Grid grid)
    {
        this.figure = figure;
        this.grid = grid;
        lefts = new double[grid.Columns.Count];
        var at = WeaveGrid.Margin;
        for (var i = 0; i < lefts.Length; i++)
        {
            lefts[i] = at;
            at += Wide(i) + Between;
        }
        right = at - Between;
    }

    public static Scene Of(Figure figure)
    {
        var (document, _) = WalkDocument.Of(figure.Walk, Style(figure.Walk), figure.Words, oneByOne: false);
        return new TableView(figure, document!.Grids.First()).Drawn();
    }

    /// <summary>Wide machines in hexadecimal, or the digits would leave no room for the reasons.</summary>
    private static HouseStyle Style(Walk walk) =>
        walk.Datapath.Registers.Sum(r => r.Width) <= MostBinaryDigits
            ? HouseStyle.None
            : HouseStyle.None with
            {
                Digits = new Digits(16),
            };

    private IEnumerable<GridRow> Rows => grid.Rows.Skip(figure.From).Take(figure.To - figure.From + 1);

    private static Face Face(int column, Grid grid) =>
        grid.Columns[column].Role == ColumnRole.Digits ? Drawing.Face.Mono : Drawing.Face.Plain;

    private double Wide(int column)
    {
        var head = Typeface.Of(Drawing.Face.Bold).Width(Marks.Head(grid.Columns[column]), TextSize);
        var cells = Rows.SelectMany(r => Lines(r, column))
            .Select(l => Typeface.Of(Face(column, grid)).Width(l, TextSize));
        return cells.Append(head).Max();
    }

    /// <summary>The lines of a cell as they stand; sentences are broken where their column ends.</summary>
    private IEnumerable<string> Lines(GridRow row, int column)
    {
        var whole = Marks
            .Cells(grid, row)
            .ElementAt(column)
            .Lines.Select(l => string.Concat(l.Runs.Select(run => run.Text)));
        if (grid.Columns[column].Role != ColumnRole.Sentences)
        {
            return whole;
        }
        var letters = (int)(Sentences / Typeface.Of(Drawing.Face.Plain).Width("n", TextSize));
        return whole.SelectMany(l => Wrapping.Lines(l, letters));
    }

    private Scene Drawn()
    {
        var walk = figure.Walk;
        var title = walk.Datapath.Machine.Title?.In(figure.Words.Language) ?? walk.Datapath.Machine.Name;
        var widths = string.Join(", ", walk.Datapath.Widths.Select(w => $"{w.Name} = {w.Value}"));
        var given = string.Join(
            figure.Words.Say("walk.between-names"),
            walk.Datapath.Operands.Select(o => $"{o.Name} = {Bits.Text(Evaluator.Number(o, walk.Operands[o.Index]))}")
        );
        Say(title, WeaveGrid.Margin, 44, Drawing.Face.Bold, TitleSize, Role.Ink);
        if (Style(walk).Digits.Base != 2)
        {
            given += figure.Words.Say("figure.in-base", ("base", Style(walk).Digits.Base));
        }
        Say($"{widths}: {given}", WeaveGrid.Margin, 72, Drawing.Face.Plain, TextSize, Role.Quiet);
        for (var i = 0; i < lefts.Length; i++)
        {
            Say(Marks.Head(grid.Columns[i]), lefts[i], Top, Drawing.Face.Bold, TextSize, Role.Ink);
        }
        var y = Top + 12;
        Rule(y, Role.Ink);
        foreach (var row in Rows.Take(figure.Until - figure.From + 1))
        {
            y = Row(row, y);
        }
        // A table that grows keeps the size of the whole.
        y += Rows.Skip(figure.Until - figure.From + 1).Sum(Height);
        return new Scene(
            Math.Max(right, shapes.OfType<Text>().Max(t => t.Box.Right)) + WeaveGrid.Margin,
            y + 26,
            title,
            figure.Words.Say("figure.table", ("operands", given)),
            figure.Words.Language,
            shapes
        );
    }

    private double Height(GridRow row) =>
        Enumerable.Range(0, lefts.Length).Max(i => Lines(row, i).Count()) * LinePitch + 9;

    private double Row(GridRow row, double y)
    {
        for (var i = 0; i < lefts.Length; i++)
        {
            var isGiven = grid.Columns[i].Role == ColumnRole.Label;
            if (figure.IsBlank && !isGiven)
            {
                var box = new Box(
                    lefts[i] - 4,
                    y + 5,
                    (i + 1 < lefts.Length ? lefts[i + 1] - Between : right) - lefts[i] + 8,
                    Height(row) - 9
                );
                shapes.Add(new Area(new Rectangle(box, 3), null, Role.Quiet, 1));
                continue;
            }
            var baseline = y + LinePitch - 4;
            foreach (var line in Lines(row, i))
            {
                Say(line, lefts[i], baseline, Face(i, grid), TextSize, isGiven ? Role.Quiet : Role.Ink);
                baseline += LinePitch;
            }
        }
        y += Height(row);
        Rule(y, Role.Rule);
        return y;
    }

    private void Rule(double y, Role role) =>
        shapes.Add(new Stroke(Trace.Through(new(WeaveGrid.Margin, y), new(right, y)), role, 1.2));

    private void Say(string words, double x, double baseline, Face face, double size, Role ink)
    {
        if (words.Length > 0)
        {
            shapes.Add(new Text(words, new Point(x, baseline), Anchor.Start, face, size, ink, Role.Ground, null));
        }
    }
}
