using Reckoner.Diagnostics;
using Reckoner.Reporting;
using Reckoner.Styles;
using Reckoner.Tables;

namespace Reckoner.Drawing;

/// <summary>The table of a walk as a figure: a row for each cycle, digits in columns, reasons in words.</summary>
internal sealed class TableView
{
    private const double TextSize = FigureHead.TextSize;
    private const double LinePitch = 25;
    private const double WidestSentences = 520;
    private const double NarrowestSentences = 230;
    private const double Narrower = 58;

    private const double Between = 30;
    private const double Top = 118;
    private const int MostBinaryDigits = 56;

    private readonly Figure figure;
    private readonly HouseStyle style;
    private readonly Grid grid;
    private readonly IReadOnlyList<string> notes;
    private readonly List<Shape> shapes = [];
    private readonly double[] lefts;
    private readonly double right;

    /// <summary>How wide sentences are before they are broken.</summary>
    private readonly double sentences;

    /// <summary>How much farther apart rows stand than they must.</summary>
    private double air;

    private TableView(Figure figure, HouseStyle style, Document document, double sentences)
    {
        this.sentences = sentences;
        this.figure = figure;
        this.style = style;
        grid = document.Grids.First();
        notes = [.. document.Signs.Select(s => s.ToString())];
        lefts = new double[grid.Columns.Count];
        var at = WeaveGrid.Margin;
        for (var i = 0; i < lefts.Length; i++)
        {
            lefts[i] = at;
            at += Wide(i) + Between;
        }
        right = at - Between;
    }

    /// <summary>All rows on one page.</summary>
    public static Scene Of(Figure figure)
    {
        var views = Views(figure);
        var scenes = views.Select(v => v.Drawn(v.All, 1, 1));
        return scenes.FirstOrDefault(s => s.Width <= Fitting.WidestRatio * s.Height) ?? views[^1].Airy();
    }

    /// <summary>Rows as far apart as makes the page no wider than twice its height.</summary>
    private Scene Airy()
    {
        var page = Drawn(All, 1, 1);
        air = (page.Width / Fitting.WidestRatio - page.Height) / All.Count;
        return Drawn(All, 1, 1);
    }

    /// <summary>Rows as they fit on what the figure is drawn for; sentences as wide as they have room.</summary>
    public static IReadOnlyList<Scene> Pages(Figure figure)
    {
        if (figure.Room is not { } room)
        {
            return [Of(figure)];
        }
        var views = Views(figure);
        var view = views.FirstOrDefault(v => v.right + WeaveGrid.Margin <= room.Width) ?? views[^1];
        var foot = view.notes.Count * (LinePitch + 4) + 26;
        var parts = Fitting.Parts([.. view.All.Select(view.Height)], room.Height - Top - 12 - foot);
        var pages = parts.Select((p, i) => view.Drawn([.. view.All.Skip(p.From).Take(p.Count)], i + 1, parts.Count));
        return Fitting.On(figure.Target, [.. pages]);
    }

    /// <summary>With sentences as wide as they may be, then narrower and narrower.</summary>
    private static List<TableView> Views(Figure figure)
    {
        var (document, found) = Made(figure);
        if (document is null)
        {
            throw new InvalidOperationException(found[0].Id.Name);
        }
        var views = new List<TableView>();
        for (var wide = WidestSentences; wide >= NarrowestSentences; wide -= Narrower)
        {
            views.Add(new TableView(figure, Style(figure), document, wide));
        }
        return views;
    }

    /// <summary>Columns that the house style asks for and the machine does not have.</summary>
    public static IReadOnlyList<Diagnostic> Lacks(Figure figure) => Made(figure).Found;

    private static (Document? Document, IReadOnlyList<Diagnostic> Found) Made(Figure figure) =>
        WalkDocument.Of(figure.Walk, Style(figure), figure.Words, oneByOne: false);

    /// <summary>Where nobody says otherwise wide machines in hexadecimal, or the digits would leave no room for the reasons.</summary>
    private static HouseStyle Style(Figure figure)
    {
        var style = figure.Style;
        var isWide = figure.Walk.Datapath.Registers.Sum(r => r.Width) > MostBinaryDigits;
        var digits = figure.Base ?? (style.Source is null && isWide ? 16 : style.Digits.Base);
        return style with { Digits = style.Digits with { Base = digits } };
    }

    private IEnumerable<GridRow> Rows => grid.Rows.Where(r => r.Cycle >= figure.From && r.Cycle <= figure.To);

    private IReadOnlyList<GridRow> All => [.. Rows];

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
        var letters = (int)(sentences / Typeface.Of(Drawing.Face.Plain).Width("n", TextSize));
        return whole.SelectMany(l => Wrapping.Lines(l, letters));
    }

    private Scene Drawn(IReadOnlyList<GridRow> rows, int page, int count)
    {
        shapes.Clear();
        var walk = figure.Walk;
        var title = FigureHead.Title(walk.Datapath, figure.Words);
        var given = FigureHead.Given(walk, figure.Words);
        if (style.Digits.Base != 2)
        {
            given += figure.Words.Say("figure.in-base", ("base", style.Digits.Base));
        }
        var pages = count == 1 ? "" : "; " + figure.Words.Say("figure.page", ("page", page), ("count", count));
        shapes.AddRange(FigureHead.Of(title, $"{Names.Widths(walk.Datapath, figure.Words)}: {given}{pages}"));
        for (var i = 0; i < lefts.Length; i++)
        {
            Say(Marks.Head(grid.Columns[i]), lefts[i], Top, Drawing.Face.Bold, TextSize, Role.Ink);
        }
        var y = Top + 12;
        Rule(y, Role.Ink);
        var width = right;
        foreach (var row in rows.Where(r => r.Cycle <= figure.Until))
        {
            var from = shapes.Count;
            y = Row(row, y);
            width = Math.Max(width, Group.From(shapes, from, row.Cycle));
            Rule(y, Role.Rule);
        }
        // A table that grows keeps the size of the whole.
        y += rows.Where(r => r.Cycle > figure.Until).Sum(Height);
        foreach (var note in notes)
        {
            y += LinePitch + 4;
            Say(note, WeaveGrid.Margin, y, Drawing.Face.Plain, TextSize, Role.Quiet);
        }
        return new Scene(
            Math.Max(width, shapes.OfType<Text>().Max(t => t.Box.Right)) + WeaveGrid.Margin,
            y + 26,
            title,
            FigureDescription.Of(figure, figure.Words.Say("figure.table"), given, FigureHead.Gives(walk, figure.Words)),
            figure.Words.Language,
            [.. shapes]
        );
    }

    private double Height(GridRow row) =>
        Enumerable.Range(0, lefts.Length).Max(i => Lines(row, i).Count()) * LinePitch + 9 + air;

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
        return y + Height(row);
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
