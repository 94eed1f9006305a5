using Reckoner.Checking;
using Reckoner.Datapaths;
using Reckoner.Reporting;
using Reckoner.Words;

namespace Reckoner.Drawing;

/// <summary>What is drawn of a datapath: rows that follow one another, and what is told of them.</summary>
/// <param name="Told">Behind the widths, below the title.</param>
/// <param name="Said">For those who cannot see it.</param>
/// <param name="Origins">Of a walk, where bits come from; null of the hardware itself.</param>
internal sealed record PathStory(IReadOnlyList<Level> Levels, string Told, string Said, Origins? Origins)
{
    public bool IsMoving => Origins is not null;

    /// <summary>The cycle that it shows alone.</summary>
    public int? Cycle { get; init; }

    /// <summary>Which bits carry nothing; null where nobody asked.</summary>
    public IdleStudy? Idle { get; init; }
}

/// <summary>What stands together on sheets: for each its parts, for each of those its rows.</summary>
/// <param name="Fits">Whether no part is higher or wider than a sheet.</param>
internal sealed record PathPlan(PathStory Story, IReadOnlyList<IReadOnlyList<IReadOnlyList<Level>>> Sheets, bool Fits);

/// <summary>A sheet of a datapath with its parts, one or more beside each other.</summary>
internal sealed record PathSheet(Scene Scene, IReadOnlyList<PathPage> Parts);

/// <summary>
/// Sheets in one layout: rows go on on another part of the sheet where it is full, and on another sheet where that is.
/// </summary>
internal sealed class PathSheets
{
    private const double HeadHeight = 126;
    private const double Foot = 14;
    private const double BetweenParts = 26;
    private const double NarrowestLegend = 760;

    private readonly Datapath datapath;
    private readonly Vocabulary words;
    private readonly bool isBlank;
    private readonly PathLayout layout;
    private readonly FigureRoom room;
    private readonly IReadOnlyList<double> names;

    /// <summary>How wide the statements at the left come out.</summary>
    private readonly double notes;

    public PathSheets(
        Datapath datapath,
        Vocabulary words,
        bool isBlank,
        IReadOnlyList<PathStory> stories,
        PathLayout layout,
        FigureRoom room
    )
    {
        this.datapath = datapath;
        this.words = words;
        this.isBlank = isBlank;
        this.layout = layout;
        this.room = room;
        names = [.. datapath.Registers.Select(r => BlockSizes.Wide(r.Name, Face.Bold))];
        notes = NoteLines
            .Of(stories.SelectMany(s => s.Levels).SelectMany(l => l.Notes), layout.Notes)
            .Select(NoteLines.Width)
            .Append(0)
            .Max();
    }

    public IReadOnlyList<PathSheet> Of(PathPlan plan) =>
        [.. plan.Sheets.Select((parts, i) => Apart(plan.Story, parts, i + 1, plan.Sheets.Count))];

    private BlockSizes Sizes(double edge)
    {
        var left = edge + WeaveGrid.Margin + notes + 22;
        return new BlockSizes(
            new WeaveGrid(datapath.Registers, 2, left, HeadHeight, names, left + layout.Registers),
            layout.Words
        );
    }

    private PathPage Page(PathStory story, IReadOnlyList<Level> rows, double edge, double slack) =>
        new(
            Sizes(edge),
            new PathForm(layout.Rows, layout.Notes, layout.Stairs, story.IsMoving, isBlank),
            rows,
            edge,
            slack
        );

    // ---- what stands together

    /// <summary>Rows in parts no higher and no wider than a sheet, where single rows are not.</summary>
    public PathPlan Plan(PathStory story)
    {
        var sizes = Sizes(0);
        var rows = story.Levels.SelectMany(l => sizes.InRows(l, layout.Rows)).ToList();
        var (parts, fits) = (new List<IReadOnlyList<Level>>(), true);
        for (var from = 0; from < rows.Count; )
        {
            var full = Full(story, rows, from);
            fits &= full > from;
            var end = End(rows, [.. Enumerable.Range(from + 1, Math.Max(1, full - from))]);
            parts.Add(rows[from..end]);
            from = end;
        }
        return new PathPlan(story, Packed(story, parts), fits);
    }

    /// <summary>How far rows go on that fit on a sheet together; where they begin if not even one does.</summary>
    private int Full(PathStory story, List<Level> rows, int from)
    {
        var share = Filled(story, rows[from..]);
        if (share <= 1 || from + 1 == rows.Count)
        {
            return share <= 1 ? rows.Count : from;
        }
        // About as many as the sheet takes of all, then one more or fewer until it is full.
        var to = from + Math.Clamp((int)((rows.Count - from) / share), 1, rows.Count - from - 1);
        while (to > from && Filled(story, rows[from..to]) > 1)
        {
            to--;
        }
        while (to > from && to + 1 < rows.Count && Filled(story, rows[from..(to + 1)]) <= 1)
        {
            to++;
        }
        return to;
    }

    private int End(List<Level> rows, List<int> fits)
    {
        bool EndsStep(int to) => to == rows.Count || rows[to].Step != rows[to - 1].Step;
        bool EndsMoment(int to) => EndsStep(to) || rows[to].Moment != rows[to - 1].Moment;
        return layout.Cut == PathCut.AtSteps && fits.Exists(EndsStep) ? fits.FindLast(EndsStep)
            : layout.Cut != PathCut.Anywhere && fits.Exists(EndsMoment) ? fits.FindLast(EndsMoment)
            : fits[^1];
    }

    /// <summary>How much of a sheet rows take, in the direction in which they take more; above 1 they do not fit.</summary>
    private double Filled(PathStory story, IReadOnlyList<Level> rows)
    {
        var page = Page(story, rows, 0, slack: 0);
        return Math.Max(
                (page.Right + WeaveGrid.Margin) / room.Width,
                (Legend(story, [page]).Bottom + Foot) / room.Height
            ) / Legibility(page.Shapes);
    }

    /// <summary>How large the smallest text is for what it is laid out for; rows may reach down as far as leaves it legible.</summary>
    private static double Legibility(IEnumerable<Shape> shapes) =>
        shapes.OfType<Text>().Select(t => t.Size / BlockSizes.TextSize).Append(1).Min();

    /// <summary>Parts that go beside each other on one sheet.</summary>
    private List<IReadOnlyList<IReadOnlyList<Level>>> Packed(PathStory story, List<IReadOnlyList<Level>> parts)
    {
        var sheets = new List<IReadOnlyList<IReadOnlyList<Level>>>();
        for (var from = 0; from < parts.Count; )
        {
            var to = from + 1;
            while (
                to < parts.Count && Pages(story, parts[from..(to + 1)], 0)[^1].Right + WeaveGrid.Margin <= room.Width
            )
            {
                to++;
            }
            sheets.Add(parts[from..to]);
            from = to;
        }
        return sheets;
    }

    private List<PathPage> Pages(PathStory story, IReadOnlyList<IReadOnlyList<Level>> parts, double slack)
    {
        var pages = new List<PathPage>();
        foreach (var part in parts)
        {
            pages.Add(Page(story, part, pages.Count == 0 ? 0 : pages[^1].Right + BetweenParts, slack));
        }
        return pages;
    }

    // ---- drawn

    /// <summary>A sheet, its rows apart as far as makes it no wider than it may be.</summary>
    private PathSheet Apart(PathStory story, IReadOnlyList<IReadOnlyList<Level>> parts, int number, int count)
    {
        var sheet = Drawn(story, parts, number, count, slack: 0);
        var lacks = Fitting.Lacking(sheet.Scene, room);
        var highest = room.Height * Legibility(sheet.Scene.Shapes);
        var rows = sheet.Parts.Max(p => p.Levels.Count);
        var slack = Math.Min(layout.MostSlack, Math.Min(lacks, highest - 1 - sheet.Scene.Height) / rows);
        return slack <= 0 ? sheet : Drawn(story, parts, number, count, slack);
    }

    private PathSheet Drawn(
        PathStory story,
        IReadOnlyList<IReadOnlyList<Level>> parts,
        int number,
        int count,
        double slack
    )
    {
        var pages = Pages(story, parts, slack);
        var title = FigureHead.Title(datapath, words);
        List<Shape> shapes = [.. FigureHead.Of(title, Second(story, parts, number, count))];
        var (legend, bottom) = Legend(story, pages);
        foreach (var (page, i) in pages.Select((p, i) => (p, i)))
        {
            if (i > 0)
            {
                var x = page.Edge;
                shapes.Add(
                    new Stroke(Trace.Through(new(x, HeadHeight - 40), new(x, pages.Max(p => p.Bottom))), Role.Rule, 1.6)
                );
            }
            foreach (var register in datapath.Registers)
            {
                shapes.AddRange(
                    RegisterHead.Of(page.Grid, register, HeadHeight - 10, BlockSizes.TextSize, words.Language)
                );
            }
            shapes.AddRange(page.Shapes);
        }
        shapes.AddRange(legend);
        var right = shapes.OfType<Text>().Max(t => t.Box.Right);
        var scene = new Scene(
            Math.Max(right, pages[^1].Right) + WeaveGrid.Margin,
            bottom + Foot,
            title,
            story.Said,
            words.Language,
            shapes
        )
        {
            Cycle = story.Cycle,
        };
        return new PathSheet(scene, pages);
    }

    private string Second(PathStory story, IReadOnlyList<IReadOnlyList<Level>> parts, int number, int count)
    {
        var steps = parts.SelectMany(p => p).Select(l => l.Name).Where(n => n.Length > 0 && !story.IsMoving);
        string[] told =
        [
            $"{Names.Widths(datapath, words)}: {story.Told}",
            string.Join(", ", steps.Distinct()),
            count > 1 ? words.Say("figure.page", ("page", number), ("count", count)) : "",
        ];
        return string.Join("; ", told.Where(t => t.Length > 0));
    }

    private (IReadOnlyList<Shape> Shapes, double Bottom) Legend(PathStory story, IReadOnlyList<PathPage> pages)
    {
        var used = pages.SelectMany(p => p.Hues).ToHashSet();
        var entries = (story.Origins?.All ?? [])
            .Where(o => used.Contains(o.Hue))
            .Select(o => new LegendEntry(story.Origins!.Said(o.Origin, words), o.Hue))
            .ToList();
        if (story.IsMoving)
        {
            entries.Add(new LegendEntry(words.Say("figure.from-constant"), Role.Neutral));
        }
        if (pages.Any(p => p.HasIdle))
        {
            entries.Add(LegendEntry.Of(story.Idle!, words));
        }
        var below = pages.Max(p => p.Bottom);
        var wide = Math.Max(pages[^1].Right, NarrowestLegend);
        var marks = Marks(pages.Aggregate(PathMarks.None, (all, p) => all | p.Marks));
        var whole = Drawing.Legend.Of([.. entries, .. marks], below + 30, wide, BlockSizes.TextSize);
        if (pages is not [{ Levels.Count: 1 }] || whole.Bottom + Foot <= room.Height)
        {
            return whole;
        }
        // A page that is full of one row leaves the marks to the others, or none of it could be read.
        var few = Drawing.Legend.Of(entries, below + 30, wide, BlockSizes.TextSize);
        return (few.Shapes, entries.Count == 0 ? below : few.Bottom);
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
            (PathMarks.FromAbove, "figure.from-above", LegendMark.Box),
            (PathMarks.Late, "figure.mark-late", LegendMark.Late),
        ];
        return all.Where(m => marks.HasFlag(m.Mark))
            .Select(m => new LegendEntry(words.Say(m.Key), Role.Neutral, m.Shown));
    }
}
