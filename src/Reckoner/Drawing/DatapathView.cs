using Reckoner.Checking;
using Reckoner.Datapaths;
using Reckoner.Reporting;
using Reckoner.Running;
using Reckoner.Structure;
using Reckoner.Words;

namespace Reckoner.Drawing;

/// <summary>
/// The hardware of a machine, registers to scale in bit columns and what stands between their ribbons: still, every step of it, or
/// in the cycles of a walk, with threads that carry their bits through whatever acts.
/// </summary>
internal sealed class DatapathView
{
    private const double HeadHeight = 132;
    private const double RegistersWidth = 720;

    /// <summary>The smallest text must be a fortieth of the height, so that it can be read from the back of a room.</summary>
    private const double HeightsOfText = 40;

    private readonly Datapath datapath;
    private readonly Vocabulary words;
    private readonly WeaveGrid grid;
    private readonly bool isBlank;
    private readonly IdleStudy? idle;

    /// <param name="notes">What is said at the left of the registers.</param>
    private DatapathView(Datapath datapath, Vocabulary words, bool isBlank, IdleStudy? idle, IEnumerable<string> notes)
    {
        this.idle = idle;
        this.datapath = datapath;
        this.words = words;
        this.isBlank = isBlank;
        var names = datapath.Registers.Select(r => Width(r.Name, Face.Bold)).ToList();
        var widest = NoteLines.Of(notes).Select(NoteLines.Width).Append(0).Max();
        var left = WeaveGrid.Margin + widest + 22;
        grid = new WeaveGrid(datapath.Registers, 2, left, HeadHeight, names, left + RegistersWidth);
    }

    private static double Width(string text, Face face) => Typeface.Of(face).Width(text, PathPage.TextSize);

    /// <summary>Every step, the load first, without operands.</summary>
    public static IReadOnlyList<Scene> Still(Datapath datapath, Vocabulary words) =>
        [.. StillPages(datapath, words).Select(p => p.Scene)];

    internal static IReadOnlyList<(Scene Scene, PathPage Page)> StillPages(Datapath datapath, Vocabulary words)
    {
        var levels = Wiring.Still(MachineStructure.Of(datapath), words);
        var view = new DatapathView(datapath, words, isBlank: true, idle: null, levels.SelectMany(l => l.Notes));
        var told = words.Say("figure.still", ("cycles", datapath.MostCycles));
        return view.Pages(levels, told, [], isMoving: false, words.Say("figure.datapath-still"));
    }

    /// <summary>The cycles of a walk, each on a page or more.</summary>
    public static IReadOnlyList<Scene> Of(Figure figure) => [.. CyclePages(figure).Select(p => p.Scene)];

    internal static IReadOnlyList<(Scene Scene, PathPage Page)> CyclePages(Figure figure)
    {
        var provenance = Provenance.Of(figure.Walk);
        var datapath = figure.Walk.Datapath;
        var origins = new Origins(
            provenance,
            datapath
                .Units.SelectMany(u => u.Uses)
                .Select(u => Wiring.SourceOf(u.Value))
                .Concat([new BitSource(SourceKind.Decision, 0), new BitSource(SourceKind.Gates, 0)])
                .Concat(Tables(datapath))
        );
        var states = MachineStructure.Of(datapath).States;
        var cycles = figure
            .Walk.Rows.Skip(figure.From)
            .Take(figure.Until - figure.From + 1)
            .Select(row => (row, Levels(figure, row, states, provenance, origins)))
            .ToList();
        var notes = cycles.SelectMany(c => c.Item2).SelectMany(l => l.Notes);
        var view = new DatapathView(datapath, figure.Words, figure.IsBlank, figure.Idle, notes);
        return [.. cycles.SelectMany(c => view.Cycle(figure, c.row, c.Item2, origins))];
    }

    private static IEnumerable<BitSource> Tables(Datapath datapath) =>
        datapath.Tables.Select(t => new BitSource(
            SourceKind.Table,
            0,
            Value: new Value(Operation.Lookup, t.Size, t.Reading) { Table = t }
        ));

    private static IReadOnlyList<Level> Levels(
        Figure figure,
        Running.Row row,
        IReadOnlyList<State> states,
        IReadOnlyList<ProvenanceRow> provenance,
        Origins origins
    ) =>
        Judged(
            figure.Idle,
            row.Cycle,
            row.Step is { } step
                ? Wiring.OfState(
                    states[step.Number],
                    figure.Walk,
                    row,
                    figure.Words,
                    provenance[row.Cycle - 1],
                    origins
                )
                : Wiring.OfLoad(figure.Walk, figure.Words, origins)
        );

    /// <summary>What registers hold before a cycle and behind it is known to carry something or nothing; what is written amid it is not.</summary>
    private static IReadOnlyList<Level> Judged(IdleStudy? idle, int cycle, IReadOnlyList<Level> levels)
    {
        if (idle is null)
        {
            return levels;
        }
        foreach (var lane in levels[0].Before.Where(l => l.Register is not null))
        {
            lane.Idle = idle.Rows[cycle - 1];
        }
        return [.. levels.SkipLast(1), levels[^1] with { IdleAfter = idle.Rows[cycle] }];
    }

    private List<(Scene Scene, PathPage Page)> Cycle(
        Figure figure,
        Running.Row row,
        IReadOnlyList<Level> levels,
        Origins origins
    )
    {
        var given = FigureHead.Given(figure.Walk, words);
        var segment = datapath.Schedule.FirstOrDefault(s => row.Step is not null && s.Steps.Contains(row.Step));
        var when =
            row.Step is null ? words.Say("figure.at-load")
            : row.Round == 0 ? words.Say("figure.at-cycle", ("cycle", row.Cycle))
            : words.Say("figure.at-round", ("cycle", row.Cycle), ("round", row.Round), ("count", segment!.Count));
        var said = words.Say("figure.datapath-cycle", ("when", when), ("operands", given));
        var pages = Pages(
            levels,
            $"{given}; {when}",
            origins.All,
            isMoving: true,
            FigureDescription.Blank(figure, said)
        );
        return [.. pages.Select(p => (p.Scene with { Cycle = row.Cycle }, p.Page))];
    }

    // ---- pages

    /// <summary>As many rows on a page as leave its text readable: cut between steps, else between moments, else between rows.</summary>
    private List<(Scene Scene, PathPage Page)> Pages(
        IReadOnlyList<Level> levels,
        string told,
        IReadOnlyList<(Origin Origin, int Hue)> origins,
        bool isMoving,
        string said
    )
    {
        var smallest = Math.Min(PathPage.TextSize, isBlank ? PathPage.TextSize : PathPage.DigitSize(grid));
        var highest = HeightsOfText * smallest;
        var parts = new List<IReadOnlyList<Level>>();
        for (var from = 0; from < levels.Count; )
        {
            var fits = Enumerable
                .Range(from + 1, levels.Count - from)
                .TakeWhile(to =>
                    to == from + 1 || Draw([.. levels.Skip(from).Take(to - from)], 1, 2).Scene.Height <= highest
                )
                .ToList();
            bool EndsStep(int to) => to == levels.Count || levels[to].Step != levels[to - 1].Step;
            bool EndsMoment(int to) => EndsStep(to) || levels[to].Moment != levels[to - 1].Moment;
            var end =
                fits.Exists(EndsStep) ? fits.FindLast(EndsStep)
                : fits.Exists(EndsMoment) ? fits.FindLast(EndsMoment)
                : fits[^1];
            parts.Add([.. levels.Skip(from).Take(end - from)]);
            from = end;
        }
        return [.. parts.Select((part, i) => Draw(part, i + 1, parts.Count))];

        (Scene Scene, PathPage Page) Draw(IReadOnlyList<Level> part, int page, int count) =>
            Drawn(part, page, count, told, origins, isMoving, said);
    }

    private (Scene Scene, PathPage Page) Drawn(
        IReadOnlyList<Level> levels,
        int number,
        int count,
        string told,
        IReadOnlyList<(Origin Origin, int Hue)> origins,
        bool isMoving,
        string said
    )
    {
        var page = new PathPage(grid, levels, words, HeadHeight, isMoving, isBlank);
        var shapes = new List<Shape>();
        var title = FigureHead.Title(datapath, words);
        var steps = string.Join(", ", levels.Select(l => l.Name).Where(n => n.Length > 0).Distinct());
        var second = $"{Names.Widths(datapath, words)}: {told}" + (steps.Length > 0 && !isMoving ? $"; {steps}" : "");
        if (count > 1)
        {
            second += "; " + words.Say("figure.page", ("page", number), ("count", count));
        }
        shapes.AddRange(FigureHead.Of(title, second));
        foreach (var register in datapath.Registers)
        {
            shapes.AddRange(RegisterHead.Of(grid, register, HeadHeight - 10, PathPage.TextSize, words.Language));
        }
        shapes.AddRange(page.Shapes);
        var used = page.Hues.ToHashSet();
        var entries = origins
            .Where(o => used.Contains(o.Hue))
            .Select(o => new LegendEntry(o.Origin.Said(words), o.Hue))
            .ToList();
        if (entries.Count > 0)
        {
            entries.Add(new LegendEntry(words.Say("figure.from-constant"), Role.Neutral));
        }
        if (page.HasIdle)
        {
            entries.Add(LegendEntry.Of(idle!, words));
        }
        var wide = Math.Max(page.Right, 760);
        var (legend, bottom) = Legend.Of(entries, page.Bottom + 30, wide, PathPage.TextSize);
        shapes.AddRange(legend);
        if (entries.Count == 0)
        {
            bottom = page.Bottom;
        }
        var right = shapes.OfType<Text>().Max(t => t.Box.Right);
        var scene = new Scene(
            Math.Max(right, page.Right) + WeaveGrid.Margin,
            bottom + 20,
            title,
            said,
            words.Language,
            shapes
        );
        return (scene, page);
    }
}
