using Reckoner.Costing;
using Reckoner.Datapaths;
using Reckoner.Numbers;
using Reckoner.Structure;
using Reckoner.Tables;
using Reckoner.Words;

namespace Reckoner.Reporting;

/// <summary>What machines cost: of one its area by part and the longest path of each cycle, of several their sums side by side.</summary>
internal sealed class CostDocument
{
    private readonly MachineCost cost;
    private readonly Vocabulary words;

    private CostDocument(MachineCost cost, Vocabulary words)
    {
        this.cost = cost;
        this.words = words;
    }

    public static Document Of(IReadOnlyList<MachineCost> costs, Vocabulary words)
    {
        var first = costs[0].Datapath;
        var model = CostModelText.Of(costs, words);
        if (costs.Count > 1)
        {
            var over = costs
                .Select(c => c.Activity)
                .OfType<Activity>()
                .Select(a => (a.Operations, a.IsAll))
                .Distinct()
                .Select(a => Over(a.Operations, a.IsAll, words));
            return new Document(
                "costs",
                words.Language,
                words.Say("cost.title"),
                null,
                [SideBySide(costs, words), .. over, .. Grows(costs, words), .. model]
            );
        }
        var made = new CostDocument(costs[0], words);
        return new Document(
            first.Machine.Name,
            words.Language,
            Names.Of(first, words),
            first.Machine.Title?.In(words.Language),
            [
                made.Sums(),
                made.Parts(),
                made.Steps(),
                made.Path(),
                .. costs[0].Activity is { } activity ? made.Changes(activity) : [],
                .. model,
            ]
        );
    }

    private static readonly string[] SumHeads = ["cost.area", "cost.clock", "cost.cycles", "cost.time"];

    private static Grid SideBySide(IReadOnlyList<MachineCost> costs, Vocabulary words) =>
        new(
            "costs",
            words.Say("cost.side-by-side"),
            [
                new GridColumn(words.Say("head.name"), ColumnRole.Label),
                .. SumHeads.Select(key => new GridColumn(words.Say(key), ColumnRole.Short)),
                .. Further(costs).Select(f => new GridColumn(words.Say(f.Head), ColumnRole.Short)),
            ],
            [
                .. costs.Select(c => new GridRow([
                    Cell.Of(Names.Of(c.Datapath, words)),
                    Cell.Of(Bits.Text(c.Area)),
                    Cell.Of(Bits.Text(c.Clock)),
                    Cell.Of(CostText.Cycles(c)),
                    Cell.Of(CostText.Time(c)),
                    .. Further(costs).Select(f => Cell.Of(f.Of(c) is { } n ? GrowthText.Three(n, words) : "")),
                ])),
            ]
        );

    /// <summary>What stands beside the sums where any of the machines has it.</summary>
    private static IEnumerable<(string Head, Func<MachineCost, Rational?> Of)> Further(IReadOnlyList<MachineCost> costs)
    {
        if (costs.Any(c => c.AverageTime is not null))
        {
            yield return (
                "cost.average-time",
                c => c.Cycles.Least == c.Cycles.Most ? (Rational)c.Time.Most : c.AverageTime
            );
        }
        if (costs.Any(c => c.Activity is not null))
        {
            yield return ("cost.activity", c => c.Activity?.Total);
        }
    }

    private IEnumerable<Block> Changes(Activity activity)
    {
        yield return new Grid(
            "activity",
            words.Say("cost.changes"),
            [
                new GridColumn(words.Say("compare.part"), ColumnRole.Label),
                new GridColumn(words.Say("cost.size"), ColumnRole.Short),
                new GridColumn(words.Say("cost.activity"), ColumnRole.Short),
            ],
            [
                .. activity.Toggles.Select(t => new GridRow([
                    Cell.Of(t.Unit is { } unit ? words.Say("cost.inputs", ("name", UnitName(unit))) : t.Register!.Name),
                    Cell.Of(t.Unit is { } sized ? UnitText.WidthOf(sized) : Bits.Text(t.Register!.Width)),
                    Cell.Of(GrowthText.Three(t.Average, words)),
                ])),
            ]
        );
        yield return Over(activity.Operations, activity.IsAll, words);
    }

    private static Paragraph Over(int operations, bool isAll, Vocabulary words) =>
        new([words.Spell(isAll ? "cost.over-all" : "cost.over-drawn", ("operations", operations))]);

    /// <summary>Of one machine at several widths, like what its sums grow; nothing elsewhere.</summary>
    private static IReadOnlyList<Block> Grows(IReadOnlyList<MachineCost> costs, Vocabulary words)
    {
        var growths = Growths.Of(costs);
        var width = Growths.Varying(costs) is { } varying ? costs[0].Datapath.Widths[varying].Name : "";
        return growths.Count == 0
            ? []
            :
            [
                new Grid(
                    "growth",
                    words.Say("cost.growth"),
                    [
                        new GridColumn(words.Say("compare.part"), ColumnRole.Label),
                        new GridColumn(words.Say("cost.like"), ColumnRole.Short),
                        new GridColumn(words.Say("cost.deviation"), ColumnRole.Short),
                    ],
                    [
                        .. growths.Select(g => new GridRow([
                            Cell.Of(words.Say(GrowthText.SumKey(g.Of))),
                            Cell.Of(Run.Formula(GrowthText.Formula(g.Growth, width, words))),
                            Cell.Of(
                                words.Say("cost.share", ("share", GrowthText.Three(g.Growth.Deviation * 100, words)))
                            ),
                        ])),
                    ]
                ),
            ];
    }

    private Pairs Sums() =>
        new([
            Pair("cost.area", CostModelText.In(cost.Model.AreaUnit, Bits.Text(cost.Area))),
            Pair("cost.clock", CostModelText.In(cost.Model.DelayUnit, Bits.Text(cost.Clock))),
            Pair("cost.cycles", CostText.Cycles(cost)),
            .. cost.AverageCycles is { } average
                ? [Pair("cost.average-cycles", CheckAverages.Approximate(average, words))]
                : Array.Empty<Pair>(),
            Pair("cost.time", CostModelText.In(cost.Model.DelayUnit, CostText.Time(cost))),
            .. cost.AverageTime is { } time
                ?
                [
                    Pair(
                        "cost.average-time",
                        CostModelText.In(cost.Model.DelayUnit, CheckAverages.Approximate(time, words))
                    ),
                ]
                : Array.Empty<Pair>(),
        ]);

    private Pair Pair(string name, string said) => new(Content.Phrase(words.Say(name)), Content.Phrase(said));

    private Grid Parts() =>
        new(
            "area",
            words.Say("cost.area-by-part"),
            [
                new GridColumn(words.Say("compare.part"), ColumnRole.Label),
                new GridColumn(words.Say("cost.size"), ColumnRole.Short),
                .. cost.Adders.IsMixed
                    ? [new GridColumn(words.Say("cost.carries"), ColumnRole.Short)]
                    : Array.Empty<GridColumn>(),
                new GridColumn(words.Say("cost.area"), ColumnRole.Short),
            ],
            [
                .. cost.Parts.Select(p => new GridRow([
                    Cell.Of(PartName(p)),
                    Cell.Of(p.Unit is { } unit ? UnitText.WidthOf(unit) : Bits.Text(p.Bits)),
                    .. cost.Adders.IsMixed ? [Cell.Of(Carries(p.Unit))] : Array.Empty<Cell>(),
                    Cell.Of(Bits.Text(p.Area)),
                ])),
            ]
        );

    private string Carries(Unit? unit) =>
        unit is null or { Kind: UnitKind.CarrySaveAdder } ? "" : Adders.Name(cost.Adders.Of(unit));

    private string PartName(CostPart part) =>
        part.Kind switch
        {
            CostKind.Registers => words.Say("cost.part-registers"),
            CostKind.RegisterInputs => words.Say("cost.part-register-inputs"),
            CostKind.Unit => UnitName(part.Unit!),
            CostKind.UnitInputs => words.Say("cost.part-unit-inputs"),
            CostKind.Choices => words.Say("cost.part-choices"),
            CostKind.Gates => words.Say("cost.part-gates"),
            CostKind.Tables => words.Say("cost.part-tables"),
            CostKind.Counter => words.Say("cost.part-counter"),
        };

    private static string OutputKey(UnitOutput output) =>
        output switch
        {
            UnitOutput.Result => "cost.output-result",
            UnitOutput.Carry => "cost.output-carry",
            UnitOutput.Borrow => "cost.output-borrow",
            UnitOutput.CarryWord => "cost.output-carry-word",
            UnitOutput.Less => "cost.output-less",
            UnitOutput.Equal => "cost.output-equal",
        };

    private string UnitName(Unit unit) =>
        unit.Name is { } name
            ? words.Say("aloud.said", ("name", name), ("what", UnitText.KindOf(unit, words)))
            : Short(unit);

    private string Short(Unit unit) => UnitText.Short(unit, cost.Datapath, words);

    private Grid Steps() =>
        new(
            "steps",
            words.Say("cost.steps"),
            [
                new GridColumn(words.Say("states.state"), ColumnRole.Label),
                new GridColumn(words.Say("cost.longest"), ColumnRole.Short),
            ],
            [.. cost.Paths.Select(p => new GridRow([Cell.Of(StepName(p)), Cell.Of(Bits.Text(p.Delay))]))]
        );

    private string GoesOn(Segment loop)
    {
        var source = loop.Steps[0].Source;
        return source == cost.Datapath.Machine.Description.Source
            ? words.Say("cost.goes-on", ("line", loop.Line))
            : words.Say("cost.goes-on-of", ("line", loop.Line), ("source", source.Name));
    }

    private string StepName(StepPath path) =>
        path.Loop is { } loop ? GoesOn(loop)
        : path.Step is { } step ? StepText.Of(step, cost.Datapath, words)
        : words.Say("walk.load");

    private Grid Path() =>
        new(
            "path",
            words.Say("cost.path", ("step", StepName(cost.Critical))),
            [
                new GridColumn(words.Say("cost.through"), ColumnRole.Label),
                new GridColumn(words.Say("cost.adds"), ColumnRole.Short),
                new GridColumn(words.Say("cost.at"), ColumnRole.Short),
            ],
            [
                .. cost
                    .Critical.Hops.Where(h =>
                        h.Delay > 0 || h.Kind is PathKind.Register or PathKind.Operand or PathKind.Control
                    )
                    .Select(h => new GridRow([
                        Cell.Of(HopName(h)),
                        Cell.Of(Bits.Text(h.Delay)),
                        Cell.Of(Bits.Text(h.At)),
                    ])),
            ]
        );

    private string HopName(PathHop hop) =>
        hop.Kind switch
        {
            PathKind.Register => hop.Register!.Name,
            PathKind.Operand => hop.Operand!.In(words.Language),
            PathKind.Control => words.Say("hardware.control"),
            PathKind.Last => words.Say("hardware.last-decoded"),
            PathKind.And or PathKind.Or or PathKind.Xor or PathKind.Not => OnLine(
                Operations.Row(Gate(hop.Kind)).Written,
                hop
            ),
            PathKind.Equal => OnLine(words.Say("cost.compared"), hop),
            PathKind.Choice => OnLine(words.Say("cost.choice"), hop),
            PathKind.Lookup => words.Say("cost.table", ("name", hop.Table!.Name)),
            PathKind.UnitInput => words.Say("cost.before", ("name", Short(hop.Unit!))),
            PathKind.Unit => words.Say(
                "cost.output",
                ("name", Short(hop.Unit!)),
                ("output", words.Say(OutputKey(hop.Output)))
            ),
            PathKind.RegisterInput => words.Say("cost.before", ("name", hop.Register!.Name)),
        };

    private static Operation Gate(PathKind kind) =>
        kind switch
        {
            PathKind.And => Operation.And,
            PathKind.Or => Operation.Or,
            PathKind.Xor => Operation.Xor,
            _ => Operation.Not,
        };

    private string OnLine(string what, PathHop hop) =>
        UnitText.OnLine(what, hop.Line, hop.Source, cost.Datapath, words);
}
