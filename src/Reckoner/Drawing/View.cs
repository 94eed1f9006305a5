using Reckoner.Checking;
using Reckoner.Costing;
using Reckoner.Datapaths;
using Reckoner.Diagnostics;
using Reckoner.Running;
using Reckoner.Styles;
using Reckoner.Words;

namespace Reckoner.Drawing;

/// <summary>What is to be drawn of a walk.</summary>
/// <param name="From">The first cycle that has a place on the page; 0 is the load.</param>
/// <param name="To">The last cycle that has a place.</param>
/// <param name="Until">The last cycle that is shown; earlier than <paramref name="To"/> while a figure grows.</param>
/// <param name="IsBlank">Cells to be filled in by hand, instead of digits.</param>
/// <param name="Idle">Which bits carry nothing; null where nobody has asked.</param>
public sealed record Figure(Walk Walk, Vocabulary Words, int From, int To, int Until, bool IsBlank, IdleStudy? Idle)
{
    /// <summary>What the house writes otherwise: the columns and rows of a table, bases, the layout of sums by hand.</summary>
    public HouseStyle Style { get; init; } = HouseStyle.None;

    /// <summary>The base asked for this figure, 2, 8, 10 or 16; null for the house's.</summary>
    public int? Base { get; init; }

    /// <summary>How sums by hand are laid out in this figure; null for as the house does.</summary>
    public HandLayout? Layout { get; init; }

    /// <summary>What it is drawn for; null for as large as it comes out.</summary>
    public FigureTarget? Target { get; init; }

    /// <summary>How far apart rows stand at most, where something else stands on the same screen; null for as far as looks well.</summary>
    internal double? LargestRow { get; init; }

    /// <summary>
    /// Whether it is to be taken in at one glance: of many cycles that do the same the first and the last stand, and digits that
    /// would be too many or too small give way to the shape.
    /// </summary>
    public bool Folds { get; init; }

    /// <summary>Whether what comes out stands in it.</summary>
    internal bool ShowsResults => !IsBlank && Until == Walk.Cycles;

    internal int SumBase => Base ?? Style.Digits.Base;

    internal HandLayout SumLayout => Layout ?? Style.Sums;

    /// <summary>How adders hand on their carries, where costs are drawn.</summary>
    public AdderChoice Adders { get; init; } = new(AdderKind.Ripple);

    /// <summary>The same for machines at rest.</summary>
    internal StillForm AtRest => new(Words, Target) { Adders = Adders };

    /// <summary>The room to be laid out for, where a target gives one.</summary>
    internal FigureRoom? Room => Target?.Room(FigureHead.TextSize);

    public static Figure Of(Walk walk, Vocabulary words) =>
        new(walk, words, 0, walk.Cycles, walk.Cycles, IsBlank: false, Idle: null);
}

/// <summary>What can be asked of a figure besides its walk.</summary>
public enum FigureOption
{
    Cycle,
    From,
    To,
    OneByOne,
    Blank,
    Base,
    Layout,
    Reasons,
    Size,

    /// <summary>What holds in every round, with its numbers.</summary>
    Invariant,

    /// <summary>How adders hand on their carries.</summary>
    Adder,
}

/// <summary>A kind of figure.</summary>
/// <param name="Takes">What changes something in it; the rest is refused, since it would do nothing.</param>
/// <param name="Draws">Pages in the order in which one turns them over; most views make one.</param>
public sealed record View(string Name, IReadOnlyList<FigureOption> Takes, Func<Figure, IReadOnlyList<Scene>> Draws)
{
    /// <summary>For a figure of a walk that shows digits as they are.</summary>
    private static readonly IReadOnlyList<FigureOption> OfWalk =
    [
        FigureOption.Cycle,
        FigureOption.From,
        FigureOption.To,
        FigureOption.OneByOne,
        FigureOption.Blank,
        FigureOption.Size,
    ];

    /// <summary>What is drawn where no operands are given; null where there is nothing to see without.</summary>
    public Func<Datapath, StillForm, IReadOnlyList<Scene>>? Still { get; init; }

    /// <summary>A figure of one machine at several widths, in their order; null where a figure is of one width.</summary>
    public Func<IReadOnlyList<Datapath>, StillForm, IReadOnlyList<Scene>>? OverWidths { get; init; }

    /// <summary>What of the house style the machine does not have; such a figure cannot be drawn.</summary>
    public Func<Figure, IReadOnlyList<Diagnostic>> Lacks { get; init; } = _ => [];

    /// <summary>Why there is no figure of machines, one or several, and the place of the one to blame; null where nothing is in the way.</summary>
    internal Func<IReadOnlyList<Datapath>, (int Index, Diagnostic Why)?> Refuses { get; init; } = _ => null;

    /// <summary>A figure of several machines, in their order; null where a figure is of one.</summary>
    public Func<IReadOnlyList<Datapath>, StillForm, IReadOnlyList<Scene>>? OfSeveral { get; init; }

    /// <summary>The first cycle that is shown where one alone is asked for.</summary>
    public Func<int, int> FirstWith { get; init; } = cycle => cycle;

    /// <summary>Whether the figures of one cycle after the other add up to one; else each is of its cycle alone.</summary>
    public bool Grows { get; init; }

    /// <summary>Whether bits that carry nothing are marked, so that somebody must ask which those are.</summary>
    public bool ShowsIdle { get; init; }

    /// <summary>Whether it shows where bits come from, so that walks for it note that on the way.</summary>
    internal bool ShowsOrigins { get; init; }

    /// <summary>Whether there is such a figure of a walk.</summary>
    public Func<Walk, bool> Suits { get; init; } = _ => true;

    /// <summary>Whether there is such a figure of a machine without operands.</summary>
    public Func<Datapath, bool> SuitsStill { get; init; } = _ => true;

    /// <summary>Whether it is laid out for a screen that it has for itself, and is none of the page's readings of a walk.</summary>
    public bool HasOwnScreen { get; init; }

    /// <summary>The list of views; the command knows no other.</summary>
    public static IReadOnlyList<View> All { get; } =
    [
        new("weave", [.. OfWalk, FigureOption.Invariant], Weave.Pages)
        {
            // Threads come from the cycle before.
            FirstWith = cycle => Math.Max(0, cycle - 1),
            Grows = true,
            ShowsIdle = true,
            ShowsOrigins = true,
        },
        new("blocks", [.. OfWalk.Except([FigureOption.Blank])], BlocksView.Of)
        {
            Suits = walk => BlocksView.Suits(walk.Datapath),
            SuitsStill = BlocksView.Suits,
            Still = (datapath, form) => BlocksView.Still(datapath, form.Words, form.Target),
            OfSeveral = (datapaths, form) => BlocksView.Of(datapaths, form.Words, form.Target),
            HasOwnScreen = true,
        },
        new("datapath", OfWalk, DatapathView.Of)
        {
            Still = (datapath, form) => DatapathView.Still(datapath, form.Words, form.Target),
            ShowsIdle = true,
            ShowsOrigins = true,
        },
        // A line of a sum means nothing without those above it.
        new("paper", [.. OfWalk.Except([FigureOption.From]), FigureOption.Base, FigureOption.Layout], PaperView.Pages)
        {
            Suits = PaperView.Suits,
            FirstWith = _ => 0,
            Grows = true,
            // Which cycles did a line is told by the bits of the result.
            ShowsOrigins = true,
        },
        new("table", [.. OfWalk, FigureOption.Base, FigureOption.Reasons, FigureOption.Invariant], TableView.Pages)
        {
            Lacks = TableView.Lacks,
            Grows = true,
        },
        new(
            "comparison",
            [FigureOption.Size],
            figure => ComparisonView.Of(figure.Walk.Datapath, figure.Words, figure.Target)
        )
        {
            Suits = walk => ComparisonView.Suits(walk.Datapath),
            SuitsStill = ComparisonView.Suits,
            Still = (datapath, form) => ComparisonView.Of(datapath, form.Words, form.Target),
            OfSeveral = (datapaths, form) => ComparisonView.Of(datapaths, form.Words, form.Target),
        },
        new(
            "trade",
            [FigureOption.Size, FigureOption.Adder],
            figure => TradeView.Of(figure.Walk.Datapath, figure.AtRest)
        )
        {
            Refuses = TradeView.Refusal,
            Suits = walk => TradeView.Suits(walk.Datapath),
            SuitsStill = TradeView.Suits,
            Still = TradeView.Of,
            OfSeveral = TradeView.Of,
        },
        new(
            "timing",
            [FigureOption.Size, FigureOption.Adder],
            figure => DatapathView.Timed(figure.Walk.Datapath, figure.AtRest)
        )
        {
            Refuses = TableGates.FirstRefusal,
            Suits = walk => TableGates.Refusal(walk.Datapath) is null,
            SuitsStill = datapath => TableGates.Refusal(datapath) is null,
            Still = DatapathView.Timed,
            HasOwnScreen = true,
        },
        new(
            "growth",
            [FigureOption.Size, FigureOption.Adder],
            figure => GrowthView.Of(figure.Walk.Datapath, figure.AtRest)
        )
        {
            Refuses = TableGates.FirstRefusal,
            Suits = walk => GrowthView.Suits(walk.Datapath),
            SuitsStill = GrowthView.Suits,
            Still = GrowthView.Of,
            OverWidths = GrowthView.Of,
            HasOwnScreen = true,
        },
        new(
            "adder",
            [FigureOption.Size, FigureOption.Adder],
            figure => AdderView.Of(figure.Walk.Datapath, figure.AtRest)
        )
        {
            Suits = walk => AdderView.Suits(walk.Datapath),
            SuitsStill = AdderView.Suits,
            Still = AdderView.Of,
            HasOwnScreen = true,
        },
    ];
}
