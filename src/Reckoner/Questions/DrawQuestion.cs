using System.Numerics;
using Reckoner.Checking;
using Reckoner.Costing;
using Reckoner.Datapaths;
using Reckoner.Diagnostics;
using Reckoner.Drawing;
using Reckoner.Running;
using Reckoner.Styles;
using Reckoner.Words;

namespace Reckoner.Questions;

/// <summary>
/// What does a walk look like, or a machine at rest, or several beside each other? Without operands and without anything of a
/// walk that is asked for, a machine is drawn at rest where the view has such a figure.
/// </summary>
public sealed record DrawQuestion(IReadOnlyList<AskedMachine> Machines, View View, Vocabulary Words)
{
    /// <summary>A figure of more cells is refused.</summary>
    private const int MostCells = 50_000;

    /// <summary>With so many operand bits, asking every operand in every cycle takes no time that anybody notices.</summary>
    private const int IdleCaseBits = 12;

    public IReadOnlyList<AskedOperand> Operands { get; init; } = [];

    /// <summary>Whether operands are walked that the machine is not for; else they are refused.</summary>
    public bool Anyway { get; init; }

    /// <summary>One cycle alone, 0 for the load; else null, and a stretch counts.</summary>
    public BigInteger? Cycle { get; init; }

    /// <summary>The first cycle that is shown; null for the load.</summary>
    public BigInteger? From { get; init; }

    /// <summary>The last cycle that is shown; null for the walk's last.</summary>
    public BigInteger? To { get; init; }

    /// <summary>Whether a figure is made for each cycle as it grows.</summary>
    public bool IsOneByOne { get; init; }

    /// <summary>Whether cells are to be filled in by hand, instead of digits.</summary>
    public bool IsBlank { get; init; }

    public HouseStyle Style { get; init; } = HouseStyle.None;

    /// <summary>The base of digits, 2, 8, 10 or 16; null for the house's.</summary>
    public int? Base
    {
        get;
        init =>
            field = value is null or 2 or 8 or 10 or 16
                ? value
                : throw new ArgumentOutOfRangeException(nameof(value), value, "A base is 2, 8, 10 or 16.");
    }

    /// <summary>How sums by hand are laid out; null for as the house does.</summary>
    public HandLayout? Layout { get; init; }

    /// <summary>How adders hand on their carries, in figures of costs.</summary>
    public AdderChoice Adders { get; init; } = new(AdderKind.Ripple);

    /// <summary>What the figure is drawn for; null for as large as it comes out.</summary>
    public FigureTarget? Target { get; init; }

    /// <summary>Whether what holds in every round stands in it, with its numbers; where none is proved, that is remarked.</summary>
    public bool WithInvariant { get; init; }

    /// <exception cref="ArgumentException">No machine is named.</exception>
    public Answer<DrawnFigure> Ask(Means means)
    {
        if (Machines.Count == 0)
        {
            throw new ArgumentException("A figure is of one machine at least.");
        }
        var found = new Findings();
        return Drawn(means, found) is { } drawn ? found.Given(drawn) : found.Refused<DrawnFigure>();
    }

    private DrawnFigure? Drawn(Means means, Findings found)
    {
        if (Machines.Count > 1)
        {
            return Several(found);
        }
        if (View.OverWidths is not null && IsStill && Machines[0].IsRange)
        {
            return OverWidths(found);
        }
        if (Machines[0].Bound(0, found) is not { } datapath || IsRefused([datapath], found))
        {
            return null;
        }
        if (View.Still is { } draws && IsStill)
        {
            if (View.SuitsStill(datapath))
            {
                return new DrawnFigure(View) { Still = draws(datapath, AtRest), Holds = true };
            }
            AddUnsuited(datapath, View.All.Where(v => v.Still is not null && v.SuitsStill(datapath)), found);
            return null;
        }
        var question = new WalkQuestion(datapath)
        {
            Operands = Operands,
            Anyway = Anyway,
            IsTraced = View.ShowsOrigins,
        };
        var plain = question.Walked(datapath, found);
        var walk = plain is not null && WithInvariant ? AskedHolding.Beside(plain, means, found) : plain;
        return walk is not null && Figure(walk, means, found) is { } figure
            ? new DrawnFigure(View)
            {
                Figure = figure,
                IsOneByOne = IsOneByOne,
                Holds = walk.Holds,
            }
            : null;
    }

    private bool IsStill =>
        Operands.Count == 0 && !IsOneByOne && !IsBlank && !WithInvariant && Cycle is null && From is null && To is null;

    private StillForm AtRest => new(Words, Target) { Adders = Adders };

    private DrawnFigure? OverWidths(Findings found)
    {
        if (Machines[0].BoundAtAll(found) is not var (_, datapaths) || IsRefused(datapaths, found))
        {
            return null;
        }
        return new DrawnFigure(View) { Still = View.OverWidths!(datapaths, AtRest), Holds = true };
    }

    private DrawnFigure? Several(Findings found)
    {
        if (Count(View, Machines.Count, "draw") is { } count)
        {
            found.AddRange([count]);
            return null;
        }
        var answer = new CompareQuestion(Machines) { Operands = Operands, Anyway = Anyway }.Ask();
        found.AddRange(answer.Found);
        return answer.Data is { } compared && !IsRefused(compared.Datapaths, found)
            ? new DrawnFigure(View) { Still = View.OfSeveral!(compared.Datapaths, AtRest), Holds = compared.Holds }
            : null;
    }

    private bool IsRefused(IReadOnlyList<Datapath> datapaths, Findings found)
    {
        if (View.Refuses(datapaths) is not var (index, why))
        {
            return false;
        }
        found.AddRange([new Finding(why, AskedPart.Machine, index)]);
        return true;
    }

    /// <summary>What is wrong with so many machines in a figure; null where it can show them.</summary>
    /// <param name="asked">The verb that was used, for the sentence.</param>
    public static Finding? Count(View view, int machines, string asked) =>
        machines == 1 ? null
        : view.OfSeveral is not null ? CompareQuestion.Count(machines, asked)
        : new Finding(
            new Diagnostic(
                Id.ViewOfOne,
                null,
                default,
                [
                    ("view", view.Name),
                    ("found", machines),
                    ("views", View.All.Where(v => v.OfSeveral is not null).Select(v => v.Name).ToList()),
                ]
            ),
            AskedPart.Machine,
            1
        );

    private Figure? Figure(Walk walk, Means means, Findings found)
    {
        var cycle = Known(Cycle, AskedPart.Cycle, walk, found);
        var from = cycle is { } only ? View.FirstWith(only) : Known(From, AskedPart.From, walk, found) ?? 0;
        var to = cycle ?? Known(To, AskedPart.To, walk, found) ?? walk.Cycles;
        if (from > to)
        {
            found.Add(
                Id.CyclesTurned,
                From is null ? AskedPart.To : AskedPart.From,
                0,
                ("from", from),
                ("to", to),
                ("first", AskedWord.From),
                ("last", AskedWord.To)
            );
        }
        if (!View.Suits(walk))
        {
            AddUnsuited(walk.Datapath, View.All.Where(v => v.Suits(walk)), found);
        }
        var cells = (long)(to - from + 1) * walk.Datapath.Registers.Sum(r => r.Width);
        if (cells > MostCells)
        {
            found.Add(
                Id.FigureTooLarge,
                AskedPart.Whole,
                0,
                ("cells", cells),
                ("limit", MostCells),
                ("first", AskedWord.From),
                ("last", AskedWord.To),
                ("width", AskedWord.Width)
            );
        }
        if (found.HasErrors)
        {
            return null;
        }
        var figure = new Figure(walk, Words, from, to, to, IsBlank, Idle(walk.Datapath, means))
        {
            Style = Style,
            Base = Base,
            Layout = Layout,
            Target = Target,
            Adders = Adders,
            Folds = !IsOneByOne,
        };
        var lacks = View.Lacks(figure);
        found.AddRange(lacks.Select(d => new Finding(d, AskedPart.Style)));
        return lacks.Count > 0 ? null : figure;
    }

    private IdleStudy? Idle(Datapath datapath, Means means) =>
        View.ShowsIdle
            ? new IdleQuestion(datapath) { CaseBits = IdleCaseBits }
                .Ask(means)
                .Data
            : null;

    /// <summary>Null where nothing is asked, or nothing that the walk has: then the findings say so.</summary>
    private static int? Known(BigInteger? asked, AskedPart part, Walk walk, Findings found)
    {
        if (asked is not { } cycle)
        {
            return null;
        }
        if (cycle < 0 || cycle > walk.Cycles)
        {
            found.Add(Id.NoSuchCycle, part, 0, ("cycle", cycle), ("last", walk.Cycles));
            return null;
        }
        return (int)cycle;
    }

    private void AddUnsuited(Datapath datapath, IEnumerable<View> others, Findings found) =>
        found.Add(
            Id.ViewUnsuited,
            AskedPart.View,
            0,
            ("view", View.Name),
            ("machine", datapath.Machine.Name),
            ("views", others.Select(v => v.Name).ToList())
        );
}

/// <summary>What is drawn: a figure of a walk, whose pages are drawn when they are asked for, or one of machines at rest.</summary>
public sealed record DrawnFigure(View View)
{
    /// <summary>Null where there is no walk.</summary>
    public Figure? Figure { get; init; }

    /// <summary>The pages of a figure of machines at rest.</summary>
    public IReadOnlyList<Scene> Still { get; init; } = [];

    /// <summary>Whether every law holds in the walks that the operands gave, if any.</summary>
    public bool Holds { get; init; }

    internal bool IsOneByOne { get; init; }

    /// <summary>The pages of the whole figure, or those of each cycle as it grows.</summary>
    public IEnumerable<IReadOnlyList<Scene>> Pages() =>
        Figure is not { } figure ? [Still]
        : IsOneByOne
            ? Enumerable
                .Range(figure.From, figure.To - figure.From + 1)
                .Select(cycle => View.Draws(figure with { From = View.Grows ? figure.From : cycle, Until = cycle }))
        : [View.Draws(figure)];
}
