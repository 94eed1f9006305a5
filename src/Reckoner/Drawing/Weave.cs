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
    private readonly IReadOnlyList<ProvenanceRow> provenance;
    private readonly Origins origins;
    private readonly WeaveGrid grid;
    private readonly List<Shape> shapes = [];
    private readonly double labelWidth;

    private Weave(Figure figure)
    {
        this.figure = figure;
        provenance = Provenance.Of(figure.Walk);
        origins = new Origins(Shown.Select(r => provenance[r.Cycle]));
        labelWidth = Shown.Select(Label).Append(Heading).Max(l => Width(l, Face.Plain, LabelSize));
        var names = Registers.Select(r => Width(r.Name, Face.Bold, TextSize)).ToList();
        var left = WeaveGrid.Margin + labelWidth + 22;
        grid = new WeaveGrid(Registers, figure.To - figure.From + 1, left, HeadHeight, names);
    }

    public static Scene Of(Figure figure)
    {
        var weave = new Weave(figure);
        return weave.Drawn();
    }

    private Walk Walk => figure.Walk;
    private IReadOnlyList<Register> Registers => Walk.Datapath.Registers;
    private IEnumerable<Row> Shown => Walk.Rows.Skip(figure.From).Take(figure.To - figure.From + 1);
    private double LabelSize => figure.To - figure.From < 12 ? TextSize : 14;

    private static double Width(string text, Face face, double size) => Typeface.Of(face).Width(text, size);

    private Scene Drawn()
    {
        Head();
        foreach (var row in Shown.TakeWhile(r => r.Cycle <= figure.Until))
        {
            if (row.Cycle > figure.From)
            {
                shapes.Add(new Group(null, [.. Threads(row)]) { Link = new Link(row.Cycle) });
            }
        }
        foreach (var row in Shown.TakeWhile(r => r.Cycle <= figure.Until))
        {
            shapes.Add(new Group(null, [.. Cells(row)]) { Link = new Link(row.Cycle) });
        }
        Meanings();
        var before = shapes.Count;
        var bottom = Results(grid.Bottom);
        if (shapes.Count > before)
        {
            // Who shows a figure cycle by cycle holds the results back until the last.
            var results = shapes[before..];
            shapes.RemoveRange(before, results.Count);
            shapes.Add(new Group(null, results) { Link = new Link(Walk.Cycles) });
        }
        bottom = Legend(bottom);
        var words = figure.Words;
        var width = Math.Max(right, grid.Right) + WeaveGrid.Margin;
        var title = FigureHead.Title(Walk.Datapath, words);
        var gives = FigureHead.Gives(Walk, words);
        var description = FigureDescription.Of(figure, words.Say("figure.weave"), Given, gives);
        return new Scene(width, bottom + 20, title, description, words.Language, shapes);
    }

    // ---- rows

    private int Place(Row row) => row.Cycle - figure.From;

    private string Heading => figure.Words.Say("walk.cycle");

    private string Label(Row row)
    {
        var cycle = row.Cycle == 0 ? figure.Words.Say("walk.load") : row.Cycle.ToString(CultureInfo.InvariantCulture);
        return row.Step?.Name is { } name ? $"{name}  {cycle}" : cycle;
    }

    private IEnumerable<Shape> Cells(Row row)
    {
        var place = Place(row);
        var box = new Box(WeaveGrid.Margin, grid.RowTop(place), labelWidth, grid.CellHeight);
        var baseline = box.Centre.Y + Typeface.Of(Face.Plain).CapitalHeight * LabelSize / 2;
        yield return new Text(
            Label(row),
            new Point(box.Right, baseline),
            Anchor.End,
            Face.Plain,
            LabelSize,
            Role.Quiet,
            Role.Ground,
            box.Grown(4)
        );
        foreach (var register in Registers)
        {
            foreach (var run in Runs(row, register))
            {
                yield return Block(run, place);
            }
        }
        if (!figure.IsBlank)
        {
            foreach (var numeral in Registers.SelectMany(r => Digits(row, r)))
            {
                yield return numeral;
            }
        }
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
        figure.Idle?.Rows[row.Cycle].CarriesNothing(register, bit) ?? false;

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
