using Reckoner.Datapaths;
using Reckoner.Numbers;
using Reckoner.Reporting;
using Reckoner.Running;
using Reckoner.Structure;
using Reckoner.Words;

namespace Reckoner.Drawing;

/// <summary>
/// The hardware in one glance, for a screen of 16 to 9: registers as bars to scale, what meets below each other as on paper, choices
/// as strips, and what the registers hold behind the edge. A sheet for each step of the schedule, on one grid; machines that follow
/// one another share it.
/// </summary>
internal static class BlocksView
{
    private const double Left = 172;

    public static IReadOnlyList<Scene> Still(Datapath datapath, Vocabulary words, FigureTarget? target) =>
        On(target, [.. StillSheets(datapath, words, target).Select(s => s.Scene())]);

    /// <summary>Machines one after the other, each with what it saved over the one before it.</summary>
    public static IReadOnlyList<Scene> Of(IReadOnlyList<Datapath> datapaths, Vocabulary words, FigureTarget? target)
    {
        var structures = datapaths.Select(MachineStructure.Of).ToList();
        var grids = BlockGrid.Of(structures, Left, target);
        var sheets = structures.SelectMany(
            (s, i) => Sheets(s, grids[i], i == 0 ? null : (structures[i - 1], grids[i - 1]), words)
        );
        return On(target, [.. sheets.Select(sheet => sheet.Scene())]);
    }

    /// <summary>On a sheet that is upright several stand below each other.</summary>
    private static IReadOnlyList<Scene> On(FigureTarget? target, IReadOnlyList<Scene> sheets) =>
        target is null ? sheets : Fitting.On(target, Fitting.Stacked(sheets, BlockGrid.Below(target)));

    /// <summary>Whether there is anything to draw: a register, and a step in which something may happen.</summary>
    public static bool Suits(Datapath datapath) =>
        datapath.Registers.Count > 0 && (datapath.MostCycles > 0 || MachineStructure.Of(datapath).States.Any(HasSheet));

    private static bool HasSheet(State state) => state.Step is not null || state.Settings.Count > 0;

    internal static IReadOnlyList<BlockSheet> StillSheets(
        Datapath datapath,
        Vocabulary words,
        FigureTarget? target = null
    )
    {
        var (structure, grid, saved) = Placed(datapath, target);
        return [.. Sheets(structure, grid, saved, words)];
    }

    private static (MachineStructure, BlockGrid, (MachineStructure, BlockGrid)?) Placed(
        Datapath datapath,
        FigureTarget? target
    )
    {
        var structures = ComparisonView.Lineage(datapath).TakeLast(4).Select(MachineStructure.Of).ToList();
        var grids = BlockGrid.Of(structures, Left, target);
        return (structures[^1], grids[^1], structures.Count > 1 ? (structures[^2], grids[^2]) : null);
    }

    private static List<BlockSheet> Sheets(
        MachineStructure structure,
        BlockGrid grid,
        (MachineStructure, BlockGrid)? saved,
        Vocabulary words
    )
    {
        var states = structure.States.Where(HasSheet);
        var laid = states.SelectMany(s => Layouts(structure, grid, s, words)).ToList();
        return
        [
            .. laid.Select(
                (l, i) =>
                    new BlockSheet(
                        structure,
                        grid,
                        l.Layout,
                        l.Names,
                        words,
                        new BlockTelling(
                            Second(structure.Datapath, l.State, i + 1, laid.Count, words),
                            words.Say("figure.blocks-still"),
                            null,
                            saved
                        )
                    )
            ),
        ];
    }

    /// <summary>A state on one sheet, or on as few as its registers fit on, one group of them after the other.</summary>
    private static IEnumerable<(State State, NetNames Names, BlockLayout Layout)> Layouts(
        MachineStructure structure,
        BlockGrid grid,
        State state,
        Vocabulary words
    )
    {
        var names = new NetNames(structure, state, words);
        var left = structure.Datapath.Registers.ToList();
        while (left.Count > 0)
        {
            var fits = Enumerable
                .Range(1, left.Count)
                .Reverse()
                .Select(count => (count, layout: Laid(left.Take(count))))
                .First(l => l.count == 1 || l.layout.Lowest <= grid.LowestBar);
            yield return (state, names, fits.layout);
            left = [.. left.Skip(fits.count).SkipWhile(r => left.Count > fits.count && Laid([r]).IsEmpty)];
        }

        BlockLayout Laid(IEnumerable<Register> shown)
        {
            var set = shown.ToHashSet();
            var layouts = Enum.GetValues<Thrift>()
                .Select(thrift => new BlockLayout(
                    structure,
                    grid,
                    BlockPlan.Of(structure, state, names, set.Contains),
                    thrift
                ));
            var tried = new List<BlockLayout>();
            foreach (var layout in layouts)
            {
                tried.Add(layout);
                // What only decides makes room where it would stand in the way of what is stored.
                if (tried.Count > 1 && layout.Lowest <= grid.LowestBar)
                {
                    return tried[0].Lowest <= grid.LowestBar && tried[0].Arriving >= layout.Arriving
                        ? tried[0]
                        : layout;
                }
            }
            return tried.MinBy(l => l.Lowest)!;
        }
    }

    /// <summary>A step's name, with what it is for where the description says so.</summary>
    private static string Step(Step? step, Vocabulary words) =>
        step?.In(words.Language) is not { } name ? ""
        : step.Phrase?.In(words.Language) is { } phrase ? $"{name}: {phrase}"
        : name;

    /// <summary>What a sheet is of: in full, without what the step is for, and without the loop.</summary>
    private static string[] Second(Datapath datapath, State state, int sheet, int sheets, Vocabulary words)
    {
        var segment = datapath.Schedule.FirstOrDefault(s => state.Step is not null && s.Steps.Contains(state.Step));
        string[] told =
        [
            Names.Widths(datapath, words),
            segment is null ? words.Say("walk.load")
            : !segment.IsLoop ? ""
            : segment.While is { } condition
                ? words.Say("blocks.while", ("count", segment.Count), ("condition", WrittenText.Of(condition, words)))
            : words.Say("blocks.rounds", ("count", segment.Count)),
            Step(state.Step, words),
            sheets == 1 ? "" : words.Say("figure.page", ("page", sheet), ("count", sheets)),
        ];
        string[] few = [told[0], state.Step?.In(words.Language) ?? "", told[3]];
        return
        [
            .. new[] { told, [told[0], told[1], few[1], told[3]], few }.Select(t =>
                string.Join("; ", t.Where(s => s.Length > 0))
            ),
        ];
    }

    /// <summary>A sheet for each cycle of a walk.</summary>
    public static IReadOnlyList<Scene> Of(Figure figure) =>
        On(
            figure.Target,
            [.. Cycles(figure).SelectMany(c => c.Sheets.Select(s => s.Scene() with { Cycle = c.Cycle }))]
        );

    internal static IReadOnlyList<BlockSheet> CycleSheets(Figure figure) =>
        [.. Cycles(figure).SelectMany(c => c.Sheets)];

    private static IEnumerable<(int Cycle, IEnumerable<BlockSheet> Sheets)> Cycles(Figure figure)
    {
        var (structure, grid, saved) = Placed(figure.Walk.Datapath, figure.Target);
        var rows = figure.Walk.Rows.Skip(figure.From).Take(figure.Until - figure.From + 1);
        return rows.Select(row => (row.Cycle, Cycle(structure, grid, saved, figure, row)));
    }

    private static IEnumerable<BlockSheet> Cycle(
        MachineStructure structure,
        BlockGrid grid,
        (MachineStructure, BlockGrid)? saved,
        Figure figure,
        Row row
    )
    {
        var words = figure.Words;
        var state = structure.States[row.Step?.Number ?? 0];
        var wires = new CycleWires(structure, state, figure.Walk, row);
        var given = FigureHead.Given(figure.Walk, words);
        var count = structure
            .Datapath.Schedule.FirstOrDefault(s => row.Step is not null && s.Steps.Contains(row.Step))
            ?.Count;
        var when =
            row.Step is null ? words.Say("figure.at-load")
            : row.Round == 0 ? words.Say("figure.at-cycle", ("cycle", row.Cycle))
            : words.Say("figure.at-round", ("cycle", row.Cycle), ("round", row.Round), ("count", count ?? 0));
        var numbers = string.Join(
            ", ",
            figure.Walk.Datapath.Operands.Select(o => Bits.Text(o.Number(figure.Walk.Operands[o.Index])))
        );
        string[] second =
        [
            .. new[] { given, numbers, "" }.Select(g =>
                string.Join("; ", new[] { g, when, row.Step?.In(words.Language) ?? "" }.Where(s => s.Length > 0))
            ),
        ];
        var said = words.Say("figure.blocks-cycle", ("when", when), ("operands", given));
        var telling = new BlockTelling(second, said, wires, saved);
        return Layouts(structure, grid, state, words)
            .Select(l => new BlockSheet(structure, grid, l.Layout, l.Names, words, telling));
    }
}
