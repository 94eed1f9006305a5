namespace Reckoner.Drawing;

/// <summary>How a datapath is drawn, whatever of it stands on a page.</summary>
/// <param name="Rows">How wide blocks may stand beside each other; more of them stand in rows of their own.</param>
/// <param name="Notes">How wide a line of a statement may be, at the left of the registers.</param>
/// <param name="Stairs">In how many rows, one below the other, stands what earlier parts of the figure have made.</param>
/// <param name="IsMoving">Whether it is of a cycle of a walk.</param>
/// <param name="IsBlank">Whether cells are left to be filled in.</param>
internal sealed record PathForm(double Rows, double Notes, int Stairs, bool IsMoving, bool IsBlank);

/// <summary>Marks of a page that a legend explains.</summary>
[Flags]
internal enum PathMarks
{
    None = 0,

    /// <summary>A short bar across bits that are taken off.</summary>
    Tap = 1,

    /// <summary>The width of a bus.</summary>
    Number = 2,

    /// <summary>A line that ends in a square.</summary>
    Control = 4,

    /// <summary>A broken line.</summary>
    NotTaken = 8,

    /// <summary>A hollow bar over a register.</summary>
    Arrival = 16,

    /// <summary>A box whose word an earlier part of the figure has made.</summary>
    FromAbove = 32,

    /// <summary>A heavy line through what takes longest.</summary>
    Late = 64,
}

/// <summary>
/// A page of a datapath: registers at the left, to scale in their columns, running down from ribbon to ribbon; blocks at the right,
/// each in columns that nothing else uses while its words are needed. Whatever is taken off a lane goes sideways between the
/// rows, where no block stands, so no bus can run through one.
/// </summary>
internal sealed partial class PathPage
{
    public const double TextSize = FigureHead.TextSize;
    private const double RibbonHeight = 27;
    private const double LabelHeight = 24;
    private const double TrackPitch = 19;
    private const double PortRoom = 20;
    private const double SlantHeight = 30;
    private const double BarHeight = 9;
    private const double BarGap = 11;
    private const double NoteLine = 23;
    private const double Padding = BlockSizes.Padding;
    private const double BetweenBlocks = BlockSizes.BetweenBlocks;

    /// <summary>What operands need between the registers' names and their own cells.</summary>
    private const double OverHead = 26;
    public const double ControlWidth = 1.6;
    public const double LateWidth = 4.2;

    private readonly BlockSizes sizes;
    private readonly PathForm form;
    private readonly IReadOnlyList<Level> levels;
    private readonly double edge;
    private readonly double slack;
    private readonly double right;

    private readonly Dictionary<Block, Box> boxes = [];
    private readonly Dictionary<Lane, double> lefts = [];
    private readonly Dictionary<Lane, double> starts = [];
    private readonly Dictionary<Lane, double[]> ends = [];
    private readonly Dictionary<int, Lane> shown = [];
    private readonly List<Shape> threads = [];
    private readonly List<Shape> under = [];
    private readonly List<Shape> buses = [];
    private readonly List<Shape> solids = [];
    private readonly List<Bus> all = [];

    /// <param name="edge">Where its part of the sheet begins.</param>
    /// <param name="slack">How much farther apart rows stand than they must.</param>
    public PathPage(BlockSizes sizes, PathForm form, IReadOnlyList<Level> levels, double edge, double slack)
    {
        this.sizes = sizes;
        this.form = form;
        this.edge = edge;
        this.slack = slack;
        this.levels = [.. WithControl(levels).SelectMany(l => sizes.InRows(l, form.Rows))];
        right = Grid.Right + 44;
        Place();
        Bottom = Run();
    }

    public WeaveGrid Grid => sizes.Grid;

    /// <summary>Where its part of the sheet begins.</summary>
    public double Edge => edge;

    private bool IsMoving => form.IsMoving;

    private bool IsBlank => form.IsBlank;

    public IReadOnlyList<Level> Levels => levels;

    public double Bottom { get; }

    public double Right { get; private set; }

    /// <summary>Which marks stand on the page.</summary>
    public PathMarks Marks { get; private set; }

    /// <summary>Whether any cell is hatched, since it carries nothing.</summary>
    public bool HasIdle { get; private set; }

    public IReadOnlyList<Shape> Shapes => [.. under, .. threads, .. buses, .. solids];

    /// <summary>The boxes in which something stands: blocks, ribbons, bars.</summary>
    public List<Box> Solid { get; } = [];

    public IReadOnlyList<Bus> Buses => all;

    /// <summary>Where lanes run down.</summary>
    public List<(Lane Lane, Box Box)> Runs { get; } = [];

    /// <summary>How often a bus runs across another, or across a lane that it does not take from.</summary>
    public int Crossings =>
        all.Sum(b =>
            all.Count(o => o != b && b.Left + 1 < o.Port && o.Port < b.Right - 1 && o.Y < b.Y && b.Y < o.To)
            + Runs.Where(r =>
                    r.Lane != b.From
                    && r.Box.Left < b.Right
                    && b.Left < r.Box.Right
                    && r.Box.Top < b.Y
                    && b.Y < r.Box.Bottom
                )
                .Select(r => r.Lane)
                .Distinct()
                .Count()
        );

    public IEnumerable<int> Hues =>
        levels.SelectMany(l => l.Before.Concat(l.After)).Concat(Words).SelectMany(l => l.Hues);

    private IEnumerable<Lane> Words =>
        levels.SelectMany(l => l.Blocks).SelectMany(b => b.Gives.Concat(b.Taps.Select(t => t.Lane)));

    private double X(Lane lane, int bit) =>
        lane.Register is { } register ? Grid.X(register, bit) : lefts[lane] + (lane.Width - 1 - bit + 0.5) * Grid.Pitch;

    private double Left(Lane lane, int bit) => X(lane, bit) - Grid.CellWidth / 2;

    private double End(Lane lane, int bit) => X(lane, bit) + Grid.CellWidth / 2;

    // ---- columns

    /// <summary>What is taken in a row.</summary>
    private static IEnumerable<Tap> Taken(Level level) =>
        level.Blocks.SelectMany(b => b.Taps).Concat(level.Arrivals.SelectMany(a => a.Taps));

    private void Place()
    {
        var until = new Dictionary<Lane, int>();
        for (var row = 0; row < levels.Count; row++)
        {
            foreach (var tap in Taken(levels[row]).Where(t => t.Lane.Register is null))
            {
                until[tap.Lane] = row;
            }
        }
        var made = levels.SelectMany(l => l.Blocks).ToHashSet();
        var placed = made.SelectMany(b => b.Gives).ToHashSet();
        foreach (var lane in until.Keys.Where(l => !placed.Contains(l)))
        {
            sources.Add(new Block("", "") { Acts = IsMoving, Gives = { lane } });
        }
        var taken = new List<(double Left, double Right, int From, int To)>();
        foreach (var (source, left) in OverRegisters())
        {
            taken.Add((left, left + Width(source), -1, -1));
            Place(source, left);
        }
        if (form.Stairs > 1)
        {
            foreach (var (source, lane) in InStairs([.. sources.Where(s => !boxes.ContainsKey(s))]))
            {
                taken.Add((lane.Left, lane.Right, -1, Math.Max(-1, until[source.Gives[0]] - 1)));
            }
        }
        foreach (
            var (block, row) in sources
                .Where(s => !boxes.ContainsKey(s))
                .Select(b => (b, -1))
                .Concat(levels.SelectMany((l, i) => l.Blocks.Select(b => (b, i))))
        )
        {
            var width = Width(block);
            // What is taken last in a row ends above the row's blocks, so one of them may stand right under it.
            var to = Math.Max(row, block.Gives.Select(l => until.GetValueOrDefault(l, row)).Max() - 1);
            var left = Free(taken, width, row, to);
            taken.Add((left, left + width, row, to));
            Place(block, left);
        }
        Right = Math.Max(Right, Grid.Right);
    }

    private void Place(Block block, double left)
    {
        var width = Width(block);
        boxes.Add(block, new Box(left, 0, width, LabelHeight + RibbonHeight + 6));
        var at = left + Padding;
        foreach (var lane in block.Gives)
        {
            lefts.Add(lane, at + sizes.Lead(lane));
            at += sizes.Lead(lane) + lane.Width * Grid.Pitch + sizes.Apart;
        }
        Right = Math.Max(Right, left + width);
    }

    /// <summary>At the load an operand stands over the register that takes it, where there is room for all of them.</summary>
    private List<(Block Source, double Left)> OverRegisters()
    {
        if (levels[0].Before.Count > 0)
        {
            return [];
        }
        var found = new List<(Block Source, double Left)>();
        foreach (var source in sources.Where(s => s.Gives[0].IsOperand))
        {
            var lane = source.Gives[0];
            var homes = levels[0].Arrivals.Where(a => a.Taps.Any(t => t.Lane == lane)).ToList();
            if (homes is not [var home] || home.Taps is not [{ Steers: false } tap])
            {
                return [];
            }
            var end = Grid.X(home.Register, home.Low) + Grid.Pitch / 2;
            var left = end - (lane.Width - tap.Low) * Grid.Pitch - Padding - sizes.Lead(lane);
            found.Add((source, left));
        }
        var boxes = found.OrderBy(f => f.Left).ToList();
        var areApart = boxes.Zip(boxes.Skip(1)).All(p => p.First.Left + Width(p.First.Source) + 8 <= p.Second.Left);
        return areApart && boxes.All(b => b.Left >= edge + WeaveGrid.Margin) ? found : [];
    }

    private readonly List<Block> sources = [];

    /// <summary>The leftmost columns that nothing uses from a row to another; a hair off the grid of others, on its own.</summary>
    private double Free(List<(double Left, double Right, int From, int To)> taken, double width, int from, int to)
    {
        var left = right;
        while (
            taken.Find(t =>
                t.From <= to && from <= t.To && t.Left < left + width + BetweenBlocks && left < t.Right + BetweenBlocks
            )
                is { Right: > 0 } other
        )
        {
            left = other.Right + BetweenBlocks + 0.5;
        }
        return left;
    }

    private double Width(Block block) => sizes.Width(block, sources.Contains(block));

    // ---- rows

    private double Run()
    {
        var y = sources.Exists(s => s.Gives[0].IsOperand) ? Grid.Top + OverHead : Grid.Top;
        foreach (var lane in levels[0].Before)
        {
            Ribbon(lane, y, lane.Idle);
        }
        foreach (var block in sources)
        {
            var down = y + stairs.GetValueOrDefault(block) * StairHeight;
            Draw(block, down - LabelHeight);
            starts[block.Gives[0]] = down + RibbonHeight + 6;
        }
        if (levels[0].Before.Count > 0 || sources.Count > 0)
        {
            y += RibbonHeight + 6 + StairsDown;
        }
        for (var row = 0; row < levels.Count; row++)
        {
            var level = levels[row];
            Follow(level);
            var endsStep = row + 1 == levels.Count || levels[row + 1].Step != level.Step;
            y = level.IsArrival ? Arrive(level, y + slack, endsStep) : Blocks(level, y + slack);
        }
        foreach (var lane in starts.Keys)
        {
            Thread(lane);
        }
        return y;
    }

    /// <summary>The lanes of a step begin where those of the step before it ended.</summary>
    private void Follow(Level level)
    {
        foreach (var lane in level.Before.Where(l => !starts.ContainsKey(l)))
        {
            if (shown.TryGetValue(lane.Register!.Index, out var before))
            {
                starts.Add(lane, starts[before]);
                Thread(before);
                starts.Remove(before);
                shown[lane.Register.Index] = lane;
            }
        }
    }

    private double Blocks(Level level, double y)
    {
        var ports = level
            .Blocks.SelectMany(b => Ports(b.Taps, boxes[b].Left, boxes[b].Right, b.Acts, b.At is not null))
            .ToList();
        var line = Channel(ports, y) + PortRoom;
        Draw(ports, line);
        foreach (var block in level.Blocks)
        {
            Draw(block, line);
            foreach (var lane in block.Gives)
            {
                starts[lane] = boxes[block].Bottom;
            }
        }
        return line + LabelHeight + RibbonHeight + 6;
    }

    private double Arrive(Level level, double y, bool endsStep)
    {
        var ports = level
            .Arrivals.SelectMany(a => Ports(a.Taps, Columns(a).Left, Columns(a).Right, IsMoving, a.IsLate))
            .ToList();
        var line = Channel(ports, y) + (ports.Exists(p => p.Tap.Width > 1) ? PortRoom : 8);
        var slants = level.Arrivals.SelectMany(a => a.Moves).Any(m => m.Lane is not null);
        var bar = line + (slants ? SlantHeight : 0);
        var hasBars = level.Arrivals.Any(a => a.HasBar);
        var ribbon = Math.Max(
            bar + (hasBars ? BarHeight + BarGap : 4),
            Beside(level, y) + NoteLines.Of(level.Notes, form.Notes).Count * NoteLine - RibbonHeight
        );
        bar = ribbon - (hasBars ? BarHeight + BarGap : 4);
        line = bar - (slants ? SlantHeight : 0);
        Draw(ports, bar);
        Notes(level, ribbon);
        var written = level.Arrivals.Select(a => a.Register.Index).ToHashSet();
        foreach (var arrival in level.Arrivals)
        {
            Draw(arrival, level, line, bar, ribbon);
        }
        foreach (var next in level.After.Where(l => written.Contains(l.Register!.Index) || endsStep))
        {
            if (shown.TryGetValue(next.Register!.Index, out var old))
            {
                for (var bit = 0; bit < old.Width; bit++)
                {
                    var under = level.Arrivals.FirstOrDefault(a =>
                        a.Register == old.Register && a.Low <= bit && bit <= a.High
                    );
                    if (under is null || under.Stays)
                    {
                        Reach(old, bit, under is null ? ribbon : bar);
                    }
                }
                Thread(old);
                starts.Remove(old);
            }
            Ribbon(next, ribbon, level.IdleAfter ?? next.Idle);
        }
        return ribbon + RibbonHeight;
    }

    private Box Columns(Arrival arrival)
    {
        var cells = Grid.Cells(arrival.Register, arrival.High, arrival.Low, 0);
        return Grid.Folded ? cells : cells with { Left = cells.Left - 1, Width = cells.Width + 2 };
    }

    private void Reach(Lane lane, int bit, double y)
    {
        if (!ends.TryGetValue(lane, out var reached))
        {
            ends.Add(lane, reached = new double[lane.Width]);
        }
        reached[bit] = Math.Max(reached[bit], y);
    }
}
