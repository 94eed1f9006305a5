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
    private const double Foot = 20;
    private const double RegistersWidth = 720;

    /// <summary>Of a page that nothing is known of.</summary>
    private const double WidestRatio = 1.96;

    /// <summary>How far rows may be moved apart so that a page is no wider than that.</summary>
    private const double MostSlack = 220;

    /// <summary>The smallest text must be a fortieth of the height, so that it can be read from the back of a room.</summary>
    private const double HeightsOfText = 40;

    private readonly Datapath datapath;
    private readonly Vocabulary words;
    private readonly WeaveGrid grid;
    private readonly bool isBlank;
    private readonly IdleStudy? idle;
    private readonly FigureRoom? room;
    private readonly double rows;

    /// <param name="notes">What is said at the left of the registers.</param>
    /// <param name="rows">How wide blocks may stand beside each other.</param>
    /// <param name="registers">How wide the registers may be together.</param>
    /// <param name="room">What it is laid out for; null where nothing is given.</param>
    private DatapathView(
        Datapath datapath,
        Vocabulary words,
        bool isBlank,
        IdleStudy? idle,
        IEnumerable<string> notes,
        double registers,
        double rows,
        FigureRoom? room
    )
    {
        this.room = room;
        this.rows = rows;
        this.idle = idle;
        this.datapath = datapath;
        this.words = words;
        this.isBlank = isBlank;
        var names = datapath.Registers.Select(r => Width(r.Name, Face.Bold)).ToList();
        var widest = NoteLines.Of(notes).Select(NoteLines.Width).Append(0).Max();
        var left = WeaveGrid.Margin + widest + 22;
        grid = new WeaveGrid(datapath.Registers, 2, left, HeadHeight, names, left + registers);
    }

    private static double Width(string text, Face face) => Typeface.Of(face).Width(text, PathPage.TextSize);

    /// <summary>Every step, the load first, without operands.</summary>
    public static IReadOnlyList<Scene> Still(Datapath datapath, Vocabulary words, FigureTarget? target = null) =>
        Fitting.On(target, [.. StillPages(datapath, words, target?.Room(FigureHead.TextSize)).Select(p => p.Scene)]);

    internal static IReadOnlyList<(Scene Scene, PathPage Page)> StillPages(
        Datapath datapath,
        Vocabulary words,
        FigureRoom? room = null
    )
    {
        var levels = Wiring.Still(MachineStructure.Of(datapath), words);
        var notes = levels.SelectMany(l => l.Notes).ToList();
        var told = words.Say("figure.still", ("cycles", datapath.MostCycles));
        return Best(
            room,
            (registers, rows) =>
                new DatapathView(datapath, words, isBlank: true, idle: null, notes, registers, rows, room).Pages(
                    levels,
                    told,
                    null,
                    isMoving: false,
                    words.Say("figure.datapath-still")
                )
        );
    }

    /// <summary>
    /// The pages with registers and rows of blocks as wide as makes the fewest and largest pages of a target; without one as wide as
    /// they want to be, or where that makes pages too wide, the first that does not.
    /// </summary>
    private static IReadOnlyList<(Scene Scene, PathPage Page)> Best(
        FigureRoom? room,
        Func<double, double, IReadOnlyList<(Scene Scene, PathPage Page)>> pages
    )
    {
        (double Registers, double Rows)[] tries =
        [
            (RegistersWidth, double.PositiveInfinity),
            (RegistersWidth, 760),
            (0.8 * RegistersWidth, 520),
            (0.65 * RegistersWidth, 380),
        ];
        if (room is null)
        {
            // Every page readable, then none too wide, then as wide as it wants to be.
            var best = pages(tries[0].Registers, tries[0].Rows);
            foreach (var (registers, rows) in tries.Skip(1))
            {
                if (Faults(best) is (0, <= 2))
                {
                    break;
                }
                var next = pages(registers, rows);
                best = Faults(next).CompareTo(Faults(best)) < 0 ? next : best;
            }
            return best;
        }
        return tries
            .Append((1.4 * RegistersWidth, double.PositiveInfinity))
            .Append((0.5 * RegistersWidth, 380))
            .Select(t => pages(t.Item1, t.Item2))
            .OrderBy(p => p.Count)
            .ThenByDescending(p => p.Min(x => room.Scale(x.Scene)))
            .First();
    }

    /// <summary>How many pages are too high for their smallest text, and how wide the widest is for its height.</summary>
    private static (int TooHigh, double Widest) Faults(IReadOnlyList<(Scene Scene, PathPage Page)> pages) =>
        (
            pages.Count(p => p.Scene.Height > HeightsOfText * p.Scene.Leaves.OfType<Text>().Min(t => t.Size) + 0.01),
            Math.Max(2, pages.Max(p => p.Scene.Width / p.Scene.Height))
        );

    /// <summary>The cycles of a walk, each on a page or more.</summary>
    public static IReadOnlyList<Scene> Of(Figure figure) =>
        Fitting.On(figure.Target, [.. CyclePages(figure).Select(p => p.Scene)]);

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
        var notes = cycles.SelectMany(c => c.Item2).SelectMany(l => l.Notes).ToList();
        return Best(
            figure.Room,
            (registers, rows) =>
            {
                var view = new DatapathView(
                    datapath,
                    figure.Words,
                    figure.IsBlank,
                    figure.Idle,
                    notes,
                    registers,
                    rows,
                    figure.Room
                );
                return [.. cycles.SelectMany(c => view.Cycle(figure, c.row, c.Item2, origins))];
            }
        );
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
        var pages = Pages(levels, $"{given}; {when}", origins, isMoving: true, FigureDescription.Blank(figure, said));
        return [.. pages.Select(p => (p.Scene with { Cycle = row.Cycle }, p.Page))];
    }

    // ---- pages

    /// <summary>How high a page may be for its smallest text to be readable.</summary>
    private double Highest =>
        room?.Height
        ?? HeightsOfText * Math.Min(PathPage.TextSize, isBlank ? PathPage.TextSize : PathPage.DigitSize(grid));

    /// <summary>As many rows on a page as leave its text readable: cut between steps, else between moments, else between rows.</summary>
    private List<(Scene Scene, PathPage Page)> Pages(
        IReadOnlyList<Level> levels,
        string told,
        Origins? origins,
        bool isMoving,
        string said
    )
    {
        var parts = new List<IReadOnlyList<Level>>();
        for (var from = 0; from < levels.Count; )
        {
            var fits = Enumerable
                .Range(from + 1, levels.Count - from)
                .TakeWhile(to =>
                    to == from + 1
                    || Drawn(
                        [.. levels.Skip(from).Take(to - from)],
                        1,
                        2,
                        told,
                        origins,
                        isMoving,
                        said,
                        slack: 0
                    ).Scene.Height <= Highest
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
        return [.. parts.Select((part, i) => Drawn(part, i + 1, parts.Count, told, origins, isMoving, said))];
    }

    /// <summary>A page, its rows apart as far as makes it no wider than twice its height.</summary>
    private (Scene Scene, PathPage Page) Drawn(
        IReadOnlyList<Level> levels,
        int number,
        int count,
        string told,
        Origins? origins,
        bool isMoving,
        string said
    )
    {
        var page = Drawn(levels, number, count, told, origins, isMoving, said, slack: 0);
        var lacks = page.Scene.SafeWidth / (room?.Ratio ?? WidestRatio) - page.Scene.Height;
        var slack = Math.Min(MostSlack, Math.Min(lacks, Highest - 1 - page.Scene.Height) / page.Page.Levels.Count);
        return slack <= 0 ? page : Drawn(levels, number, count, told, origins, isMoving, said, slack);
    }

    private (Scene Scene, PathPage Page) Drawn(
        IReadOnlyList<Level> levels,
        int number,
        int count,
        string told,
        Origins? origins,
        bool isMoving,
        string said,
        double slack
    )
    {
        var page = new PathPage(grid, levels, words, HeadHeight, slack, rows, isMoving, isBlank);
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
        var entries = (origins?.All ?? [])
            .Where(o => used.Contains(o.Hue))
            .Select(o => new LegendEntry(origins!.Said(o.Origin, words), o.Hue))
            .ToList();
        if (isMoving)
        {
            entries.Add(new LegendEntry(words.Say("figure.from-constant"), Role.Neutral));
        }
        if (page.HasIdle)
        {
            entries.Add(LegendEntry.Of(idle!, words));
        }
        var wide = Math.Max(page.Right, 760);
        var (legend, bottom) = Legend.Of([.. entries, .. Marks(page.Marks)], page.Bottom + 30, wide, PathPage.TextSize);
        if (levels.Count == 1 && bottom + Foot > Highest)
        {
            // A page that is full of one row leaves the marks to the others, or none of it could be read.
            (legend, bottom) = Legend.Of(entries, page.Bottom + 30, wide, PathPage.TextSize);
            bottom = entries.Count == 0 ? page.Bottom : bottom;
        }
        shapes.AddRange(legend);
        var right = shapes.OfType<Text>().Max(t => t.Box.Right);
        var scene = new Scene(
            Math.Max(right, page.Right) + WeaveGrid.Margin,
            bottom + Foot,
            title,
            said,
            words.Language,
            shapes
        );
        return (scene, page);
    }

    /// <summary>What the marks of a page mean.</summary>
    private IEnumerable<LegendEntry> Marks(PathMarks marks)
    {
        (PathMarks Mark, string Key, LegendMark Shown)[] all =
        [
            (PathMarks.Tap, "figure.mark-tap", LegendMark.Tap),
            (PathMarks.Number, "figure.mark-number", LegendMark.Number),
            (PathMarks.Control, "figure.mark-control", LegendMark.Control),
            (PathMarks.NotTaken, "figure.mark-not-taken", LegendMark.Dashed),
            (PathMarks.Arrival, "figure.mark-arrival", LegendMark.HollowBar),
        ];
        return all.Where(m => marks.HasFlag(m.Mark))
            .Select(m => new LegendEntry(words.Say(m.Key), Role.Neutral, m.Shown));
    }
}
