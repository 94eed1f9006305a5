using System.Globalization;
using Reckoner.Datapaths;
using Reckoner.Diagnostics;
using Reckoner.Running;
using Reckoner.Styles;
using Reckoner.Tables;
using Reckoner.Words;

namespace Reckoner.Reporting;

/// <summary>The table of a walk in a house style: what a row is, which columns there are, what their cells show.</summary>
internal sealed class WalkGrid
{
    private readonly Walk walk;
    private readonly HouseStyle style;
    private readonly Speech speech;
    private readonly bool oneByOne;
    private readonly Report report;
    private readonly List<WalkColumn> columns = [];

    private WalkGrid(Walk walk, HouseStyle style, Speech speech, bool oneByOne)
    {
        this.walk = walk;
        this.style = style;
        this.speech = speech;
        this.oneByOne = oneByOne;
        report = new Report(style.Source);
    }

    private Datapath Datapath => walk.Datapath;

    private Vocabulary Words => speech.Words;

    /// <summary>The table with what its columns stand for, or what the style asks for and the machine does not have.</summary>
    /// <param name="oneByOne">Whether each event is a sentence of its own.</param>
    public static (Grid Grid, IReadOnlyList<(Content Name, Content Said)> Legend, IReadOnlyList<Diagnostic> Found) Of(
        Walk walk,
        HouseStyle style,
        Speech speech,
        bool oneByOne
    )
    {
        var made = new WalkGrid(walk, style, speech, oneByOne);
        made.Choose();
        var rows = WalkRow
            .Of(walk, style)
            .Select(row => new GridRow([.. made.columns.Select(c => c.Cell(row))], row.IsStored)
            {
                Cycle = row.Row.Cycle,
            });
        var grid = new Grid(
            "walk",
            speech.Say("table.caption", ("machine", walk.Datapath.Machine.Name)),
            [.. made.columns.Select(c => c.Head)],
            [.. rows]
        );
        return (
            grid,
            [
                .. made.columns.SelectMany(c => c.Legend).Distinct(),
                .. made.columns.Exists(c => c.Head.Role == ColumnRole.Sentences)
                    ? EveryCycle.Of(walk, speech).Select(e => (e.Name, e.Said))
                    : [],
            ],
            made.report.InOrder()
        );
    }

    private void Choose()
    {
        if (style.Columns.Count == 0)
        {
            Usual();
        }
        foreach (var asked in style.Columns)
        {
            Add(asked);
        }
        if (style.Columns.All(c => c.Kind != ColumnKind.Invariant))
        {
            Holding(null);
        }
        if (columns.Count == 0 && !report.HasErrors)
        {
            report.Add(
                Id.StyleWithoutColumns,
                style.Columns[0].Span,
                ("machine", Datapath.Machine.Name),
                ("known", Known)
            );
        }
    }

    /// <summary>Label, step where there are several, registers and what they stand for, reasons.</summary>
    private void Usual()
    {
        var loops = Datapath.Schedule.Where(s => s.IsLoop).ToList();
        Simple(ColumnKind.Label, null);
        if (style.Rows != RowUnit.Round && (loops.Count > 1 || loops.Exists(s => s.Steps.Count > 1)))
        {
            Simple(ColumnKind.Round, null);
        }
        if (style.Rows != RowUnit.Round && Datapath.Steps.Any(s => s.Name is not null))
        {
            Simple(ColumnKind.Step, null);
        }
        columns.AddRange(Datapath.Registers.Select(r => WalkColumn.Of(r, r.Name, style.Digits, Words)));
        columns.AddRange(Datapath.Meanings.Select(m => WalkColumn.Of(m, m.Name, Words)));
        Simple(ColumnKind.Why, null);
    }

    private void Add(StyleColumn asked)
    {
        Action add = asked.Kind switch
        {
            ColumnKind.Named => () => Found(asked, name => WalkColumn.Named(walk, name, asked, style, Words)),
            ColumnKind.Writes or ColumnKind.Moves => () =>
                Found(asked, name => WalkColumn.Signal(walk, name, asked.Kind, asked.Heading, Words)),
            ColumnKind.Signals => Signals,
            ColumnKind.Invariant => () => Holding(asked.Heading),
            ColumnKind.Label
            or ColumnKind.Cycle
            or ColumnKind.Round
            or ColumnKind.Step
            or ColumnKind.Remaining
            or ColumnKind.Why
            or ColumnKind.Outcome => () =>
            {
                Simple(asked.Kind, asked.Heading);
                Empty(asked);
            },
        };
        add();
    }

    private void Signals() =>
        columns.AddRange(
            WalkColumn.Signals(Datapath).Select(s => WalkColumn.Signal(walk, s.Name, s.Kind, null, Words)!)
        );

    /// <summary>What holds in every round, where the walk knows it.</summary>
    private void Holding(string? heading)
    {
        if (walk.Holding is { } holding)
        {
            columns.Add(
                new WalkColumn(
                    new GridColumn(heading ?? Words.Say("table.invariant"), ColumnRole.Sentences),
                    row => new Cell([
                        .. (row.IsStored ? holding.Rows.GetValueOrDefault(row.Row.Cycle) ?? [] : []).Select(f =>
                            (Content)Run.Formula(f)
                        ),
                    ])
                )
            );
        }
    }

    private void Found(StyleColumn asked, Func<string, WalkColumn?> column)
    {
        if (asked.Names.Select(column).FirstOrDefault(c => c is not null) is { } found)
        {
            columns.Add(found);
        }
        else if (!asked.IsOptional)
        {
            report.Add(
                Id.StyleColumn,
                asked.Span,
                ("machine", Datapath.Machine.Name),
                ("name", string.Join(" / ", asked.Names)),
                ("known", Known),
                ("near", NearNames.Of(asked.Names[0], Known.Concat(StyleReader.ColumnWords)))
            );
        }
    }

    /// <summary>
    /// Reports a column, just added, in which no row after the load has anything; and labels of which any is missing, since they say
    /// which row it is.
    /// </summary>
    private void Empty(StyleColumn asked)
    {
        var cells = WalkRow.Of(walk, style).Where(r => !r.IsLoad).Select(columns[^1].Cell).ToList();
        if (
            cells.Count > 0
            && (asked.Kind == ColumnKind.Label ? cells.Exists(c => c.IsEmpty) : cells.TrueForAll(c => c.IsEmpty))
        )
        {
            report.Add(Id.StyleColumnEmpty, asked.Span, ("machine", Datapath.Machine.Name));
        }
    }

    private IReadOnlyList<string> Known =>
        [
            .. Datapath
                .Registers.SelectMany(r => r.Parts.Select(p => p.Name).Prepend(r.Name))
                .Concat(Datapath.Meanings.Select(m => m.Name))
                .Concat(WalkColumn.Wires(Datapath).Select(w => w.Name))
                .Concat(Datapath.Operands.Select(o => o.Name))
                .Distinct(),
        ];

    private void Simple(ColumnKind kind, string? heading)
    {
        var (key, role, cell) = kind switch
        {
            ColumnKind.Label => (LabelHeading, ColumnRole.Label, r => Cell.Of(Label(r))),
            ColumnKind.Cycle => ("walk.cycle", ColumnRole.Label, r => Cell.Of(CycleOf(r))),
            ColumnKind.Round => ("walk.round", ColumnRole.Short, r => Cell.Of(RoundOf(r))),
            ColumnKind.Step => ("walk.step", ColumnRole.Short, r => Cell.Of(r.Row.Step?.In(Words.Language) ?? "")),
            ColumnKind.Remaining => ("table.remaining", ColumnRole.Short, r => Cell.Of(RemainingOf(r))),
            ColumnKind.Why => ("table.why", ColumnRole.Sentences, (Func<WalkRow, Cell>)(r => new Cell(Why(r)))),
            ColumnKind.Outcome => (
                "table.outcome",
                ColumnRole.Short,
                r => Outcome(r) is { IsEmpty: false } o ? Cell.Of(o) : Cell.Empty
            ),
            ColumnKind.Named or ColumnKind.Writes or ColumnKind.Moves or ColumnKind.Signals or ColumnKind.Invariant =>
                throw new InvalidOperationException($"{kind} needs a name"),
        };
        var steps = kind is ColumnKind.Step or ColumnKind.Label ? EveryCycle.Phrases(Datapath, speech) : [];
        columns.Add(
            // Reasons that go on being the same are said once.
            new WalkColumn(
                new GridColumn(
                    heading ?? Words.Say(key),
                    role,
                    IsGroup: kind == ColumnKind.Why && style.Reasons == ReasonForm.Short
                ),
                cell
            )
            {
                Legend =
                [
                    .. steps.Where(s => !style.Labels.Any(l => l.Name == s.Step.Name)).Select(s => (s.Name, s.Said)),
                ],
            }
        );
    }

    private string LabelHeading => style.Rows == RowUnit.Round ? "walk.round" : "walk.cycle";

    private static string Text(int number) => number.ToString(CultureInfo.InvariantCulture);

    private string CycleOf(WalkRow row) => row.IsLoad ? Words.Say("walk.load") : Text(row.Row.Cycle);

    private static string RoundOf(WalkRow row) => row.IsLoad || row.Row.Round > 0 ? Text(row.Row.Round) : "";

    private static string RemainingOf(WalkRow row) => row.Remaining is { } left ? Text(left) : "";

    private static int MomentOf(WalkRow row) => row.Moments[^1].Moment;

    /// <summary>What the style's own words say of a row, the most particular first; else its cycle, with its moment if it has several.</summary>
    private string Label(WalkRow row)
    {
        var rule = row.IsLoad
            ? Rule(row, LabelCondition.Load, _ => true)
            : Rule(row, LabelCondition.Step, l => l.Name == row.Row.Step?.Name)
                ?? Rule(row, LabelCondition.Moment, l => l.Number == MomentOf(row))
                ?? Rule(row, LabelCondition.Always, _ => true);
        if (rule is not null)
        {
            return rule
                .Text.Replace("{cycle}", CycleOf(row), StringComparison.Ordinal)
                .Replace("{round}", RoundOf(row), StringComparison.Ordinal)
                .Replace("{moment}", Text(MomentOf(row)), StringComparison.Ordinal)
                .Replace("{step}", row.Row.Step?.In(Words.Language) ?? "", StringComparison.Ordinal)
                .Replace("{remaining}", RemainingOf(row), StringComparison.Ordinal)
                .Replace("{way}", WayOf(row), StringComparison.Ordinal)
                .Replace("{outcome}", $"{Outcome(row)}", StringComparison.Ordinal);
        }
        return row.IsOneOfSeveral ? $"{CycleOf(row)}.{MomentOf(row)}"
            : style.Rows == RowUnit.Round && row.Row.Round > 0 ? RoundOf(row)
            : CycleOf(row);
    }

    /// <summary>The first rule that fits; one for the way of a decision before one for any.</summary>
    private LabelRule? Rule(WalkRow row, LabelCondition when, Func<LabelRule, bool> fits) =>
        style
            .Labels.Where(l => l.When == when && fits(l) && (l.Way is null || l.Way == row.Way))
            .OrderBy(l => l.Way is null)
            .FirstOrDefault();

    /// <summary>a for the first way of a decision, b for the second.</summary>
    private static string WayOf(WalkRow row) => row.Way is { } way and <= 26 ? $"{(char)('a' + way - 1)}" : "";

    /// <summary>What was decided in a row, in a clause.</summary>
    private Content Outcome(WalkRow row) =>
        Content.Join(
            "; ",
            row.IsLoad ? [] : Reasons.Of(row.Moments, row.Row, speech with { Form = ReasonForm.Short }, oneByOne: false)
        );

    private IReadOnlyList<Content> Why(WalkRow row) => Reasons.Of(row.Moments, row.Row, speech, oneByOne);
}
