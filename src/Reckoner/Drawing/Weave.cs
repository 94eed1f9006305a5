using System.Globalization;
using Reckoner.Datapaths;
using Reckoner.Reporting;
using Reckoner.Running;

namespace Reckoner.Drawing;

/// <summary>
/// All cycles of a walk at once: a row for each, a cell for every register bit, and a thread from each bit to where it goes in
/// the next. A shift slants, a held register runs straight; a sum that is kept is a bar, something decided is a dot.
/// </summary>
internal sealed partial class Weave
{
    private const double TextSize = FigureHead.TextSize;

    private readonly Figure figure;
    private readonly WeavePage page;
    private readonly IReadOnlyList<ProvenanceRow> provenance;
    private readonly Origins origins;
    private readonly List<Shape> shapes = [];
    private readonly double labelWidth;

    /// <summary>A grid for each column of cycles, and the one that is being drawn.</summary>
    private readonly IReadOnlyList<WeaveGrid> grids;
    private WeaveGrid grid;
    private WeaveColumn column;

    private Weave(Figure figure, WeavePage page)
    {
        this.figure = figure;
        this.page = page;
        provenance = Provenance.Of(figure.Walk);
        origins = new Origins(Shown.Select(r => provenance[r.Cycle]));
        labelWidth = Shown.Select(Label).Append(Heading).Max(l => Width(l, Face.Plain, LabelSize));
        var reaches = Shown.Select(r => Typeface.Of(Face.Plain).Reach(Label(r), LabelSize)).ToList();
        LabelHeight = Math.Max(LabelSize, reaches.Max(r => r.Up) + reaches.Max(r => r.Down));
        var names = Registers.Select(r => Width(r.Name, Face.Bold, TextSize)).ToList();
        var meanings = MeaningsWidth();
        var left = WeaveGrid.Margin + labelWidth + 22;
        var wide = figure.Room?.Width ?? WeaveGrid.Wide;
        var rows = page.Columns.Max(c => c.Slots.Count);
        var each = (wide - WeaveGrid.Margin) / page.Columns.Count;
        grids =
        [
            .. page.Columns.Select(
                (c, i) =>
                    new WeaveGrid(
                        Registers,
                        rows,
                        left + i * each,
                        HeadHeight,
                        names,
                        (i + 1) * each + WeaveGrid.Margin - (figure.Room is null ? 0 : meanings),
                        RowsRoom,
                        meanings,
                        figure.LargestRow
                    )
            ),
        ];
        (grid, column) = (grids[0], page.Columns[0]);
    }

    /// <summary>All cycles on one page, however large it comes out.</summary>
    public static Scene Of(Figure figure) => new Weave(figure, WeaveSheets.Whole(figure)).Drawn();

    /// <summary>The pages for what the figure is drawn for.</summary>
    public static IReadOnlyList<Scene> Pages(Figure figure)
    {
        if (figure.Room is not { } room)
        {
            return [Of(figure)];
        }
        var pages = WeaveSheets.Of(figure, room, RowsRoomOf(figure, room)!.Value);
        return Fitting.On(figure.Target, [.. pages.Select(p => new Weave(figure, p).Drawn())]);
    }

    private bool HasDigits => !figure.Folds || grid.HasLegibleDigits;

    private double? RowsRoom => RowsRoomOf(figure, figure.Room);

    /// <summary>Between the head and what stands below the rows.</summary>
    private static double? RowsRoomOf(Figure figure, FigureRoom? room) =>
        room is null ? null : room.Height - HeadHeight - (figure.ShowsResults ? 60 : 0) - HoldingHeight(figure) - 84;

    private Walk Walk => figure.Walk;
    private IReadOnlyList<Register> Registers => Walk.Datapath.Registers;
    private IEnumerable<Row> Shown =>
        page.Columns.SelectMany(c => c.Slots).Where(s => s.Row is not null).Select(s => s.Row!).Distinct();

    /// <summary>Whether the last cycle that is asked for stands here.</summary>
    private bool EndsHere => Shown.Any(r => r.Cycle == figure.To);

    /// <summary>How far labels must be apart: a line, or as high and deep as the letters of their names reach.</summary>
    private double LabelHeight { get; }

    private double LabelSize => figure.Room is not null || figure.To - figure.From < 12 ? TextSize : 14;

    private static double Width(string text, Face face, double size) => Typeface.Of(face).Width(text, size);

    private Scene Drawn()
    {
        Title();
        for (var i = 0; i < grids.Count; i++)
        {
            (grid, column) = (grids[i], page.Columns[i]);
            Column();
        }
        var before = shapes.Count;
        var bottom = Results(grids.Max(g => g.Bottom));
        if (shapes.Count > before)
        {
            // Who shows a figure cycle by cycle holds the results back until the last.
            var results = shapes[before..];
            shapes.RemoveRange(before, results.Count);
            shapes.Add(new Group(null, results) { Link = new Link(Walk.Cycles) });
        }
        bottom = Holding(bottom);
        bottom = Legend(bottom);
        var words = figure.Words;
        var width = Math.Max(right, grid.Right) + WeaveGrid.Margin;
        var title = FigureHead.Title(Walk.Datapath, words);
        var gives = FigureHead.Gives(Walk, words);
        var description = FigureDescription.Of(figure, words.Say("figure.weave"), Given, gives);
        return new Scene(width, bottom + 20, title, description, words.Language, shapes);
    }

    /// <summary>Cycles below each other with their registers' names above them.</summary>
    private void Column()
    {
        Head();
        var rows = column.Slots.Select(s => s.Row).OfType<Row>().TakeWhile(r => r.Cycle <= figure.Until).ToList();
        foreach (var row in rows.Where(r => column.Place(r.Cycle - 1) is not null))
        {
            shapes.Add(new Group(null, [.. Threads(row)]) { Link = new Link(row.Cycle) });
        }
        foreach (var row in rows)
        {
            shapes.Add(new Group(null, [.. Cells(row)]) { Link = new Link(row.Cycle) });
        }
        for (var place = 0; place < column.Slots.Count; place++)
        {
            if (column.Slots[place] is { Row: null } folded && folded.To <= figure.Until)
            {
                Folded(folded, place);
            }
        }
        Meanings();
    }

    /// <summary>Cycles that do what the one above them does.</summary>
    private void Folded(WeaveSlot slot, int place)
    {
        var left = grid.Left;
        var box = new Box(left, grid.RowTop(place), grid.Right - left, grid.CellHeight);
        var said = figure.Words.Say("figure.cycles-alike", ("from", slot.From), ("to", slot.To));
        var text = Text.Centred(said, box, Face.Plain, LabelSize, Role.Quiet, Role.Ground) with { Within = null };
        var rules = new[] { (left, text.Box.Left - 12), (text.Box.Right + 12, grid.Right) }
            .Where(r => r.Item2 > r.Item1)
            .SelectMany(r => Dashes.Of([new(r.Item1, box.Centre.Y), new(r.Item2, box.Centre.Y)], Role.Quiet, 1.4));
        shapes.Add(new Group(null, [.. rules, text]) { Link = new Link(slot.From) });
        right = Math.Max(right, text.Box.Right);
    }

    // ---- rows

    private int Place(Row row) => column.Place(row.Cycle)!.Value;

    private string Heading => figure.Words.Say("walk.cycle");

    private string Label(Row row)
    {
        var cycle = row.Cycle == 0 ? figure.Words.Say("walk.load") : row.Cycle.ToString(CultureInfo.InvariantCulture);
        return row.Step?.Name is { } name ? $"{name}  {cycle}" : cycle;
    }

    private IEnumerable<Shape> Cells(Row row)
    {
        var place = Place(row);
        var box = new Box(grid.Left - 22 - labelWidth, grid.RowTop(place), labelWidth, grid.CellHeight);
        var baseline = box.Centre.Y + Typeface.Of(Face.Plain).CapitalHeight * LabelSize / 2;
        if (IsLabelled(place))
        {
            yield return new Text(
                Label(row),
                new Point(box.Right, baseline),
                Anchor.End,
                Face.Plain,
                LabelSize,
                Role.Quiet,
                Role.Ground,
                box.Grown(Math.Max(4, (LabelSize - grid.CellHeight) / 2))
            );
        }
        foreach (var register in Registers)
        {
            foreach (var run in Runs(row, register))
            {
                yield return Block(run, place);
            }
        }
        if (!figure.IsBlank && HasDigits)
        {
            foreach (var numeral in Registers.SelectMany(r => Digits(row, r)))
            {
                yield return numeral;
            }
        }
    }

    /// <summary>Where rows are lower than a line of text, some say which they are: the first, the last, every few between.</summary>
    private bool IsLabelled(int place)
    {
        var every = (int)Math.Ceiling(LabelHeight / grid.RowPitch);
        var last = column.Slots.Count - 1;
        return place == last || (place % every == 0 && last - place >= every);
    }

    /// <summary>Neighbouring bits of one register that look alike.</summary>
    private sealed record Run(Register Register, int High, int Low, int Hue, bool IsIdle);

    /// <summary>In a weave that is not folded every bit is a run of its own.</summary>
    private IEnumerable<Run> Runs(Row row, Register register)
    {
        var bits = provenance[row.Cycle].Origins[register.Index];
        var cuts = Columns.Cuts(register);
        Run? run = null;
        for (var bit = register.Width - 1; bit >= 0; bit--)
        {
            var (hue, idle) = (origins.Hue(bits[bit]), IsIdle(row, register, bit));
            if (run is not null && grid.Folded && run.Hue == hue && run.IsIdle == idle && !cuts.Contains(bit + 1))
            {
                run = run with { Low = bit };
                continue;
            }
            if (run is not null)
            {
                yield return run;
            }
            run = new Run(register, bit, bit, hue, idle);
        }
        yield return run!;
    }

    private bool IsIdle(Row row, Register register, int bit) =>
        HasDigits && (figure.Idle?.Rows[row.Cycle].CarriesNothing(register, bit) ?? false);

    private Area Block(Run run, int place)
    {
        var box = grid.Cells(run.Register, run.High, run.Low, place);
        return new Area(
            new Rectangle(box, grid.Folded ? 2 : Math.Min(5, grid.CellWidth / 5)),
            Role.Tint(run.Hue),
            Role.Edge(run.Hue),
            grid.Folded ? 0.8 : 1.3,
            run.IsIdle
        )
        {
            Link = new Link(Register: run.Register, Bit: run.Low),
        };
    }

    private IEnumerable<Shape> Digits(Row row, Register register)
    {
        var bits = row.Registers[register.Index];
        var place = Place(row);
        if (!grid.Digits)
        {
            return Hexadecimal(bits, register, place);
        }
        return Enumerable
            .Range(0, register.Width)
            .Reverse()
            .Select(bit =>
            {
                var origin = provenance[row.Cycle].Origins[register.Index][bit];
                var numeral = (bits >> bit).IsEven ? "0" : "1";
                var box = grid.Cells(register, bit, bit, place);
                return Text.Centred(
                    numeral,
                    box,
                    Face.Mono,
                    grid.DigitSize,
                    Ink(origin),
                    Role.Tint(origins.Hue(origin))
                );
            });
    }

    /// <summary>What came from somewhere is to be read first.</summary>
    private static Role Ink(BitSource origin) => origin.Kind == SourceKind.Constant ? Role.Quiet : Role.Ink;

    /// <summary>A digit for every four bits from the lowest; that of a lone top bit is wider than its cell.</summary>
    private IEnumerable<Shape> Hexadecimal(System.Numerics.BigInteger bits, Register register, int place)
    {
        for (var low = 0; low < register.Width; low += 4)
        {
            var high = Math.Min(low + 3, register.Width - 1);
            var numeral = ((int)((bits >> low) & 15)).ToString("X", CultureInfo.InvariantCulture);
            var box = grid.Cells(register, high, low, place);
            yield return Text.Centred(numeral, box, Face.Mono, Math.Min(grid.DigitSize, 14), Role.Ink, Role.Plain) with
            {
                Within = box.Grown(grid.Pitch * 1.5),
            };
        }
    }
}
