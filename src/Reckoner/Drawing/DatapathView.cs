using Reckoner.Checking;
using Reckoner.Costing;
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
internal static class DatapathView
{
    /// <summary>Every step, the load first, without operands.</summary>
    public static IReadOnlyList<Scene> Still(Datapath datapath, Vocabulary words, FigureTarget? target = null) =>
        Fitting.On(target, [.. StillSheets(datapath, words, target?.Room(FigureHead.TextSize)).Select(p => p.Scene)]);

    internal static IReadOnlyList<PathSheet> StillSheets(Datapath datapath, Vocabulary words, FigureRoom? room = null)
    {
        var story = new PathStory(
            Wiring.Still(MachineStructure.Of(datapath), words),
            words.Say("figure.still", ("cycles", datapath.MostCycles)),
            words.Say("figure.datapath-still"),
            Origins: null
        );
        return PathSearch.Best(datapath, words, isBlank: true, [story], room);
    }

    /// <summary>The same, with the longest path of each step under the unit-gate model.</summary>
    public static IReadOnlyList<Scene> Timed(Datapath datapath, StillForm form)
    {
        var cost = Costs.Of(datapath, form.Adders, CostModel.UnitGates);
        var words = form.Words;
        var story = new PathStory(
            LongestPaths.Marked(Wiring.Still(cost.Structure, words), cost, words),
            words.Say("figure.timing", ("clock", cost.Clock), ("adder", AdderText.Of(form.Adders, words))),
            words.Say("figure.datapath-timing"),
            Origins: null
        );
        var sheets = PathSearch.Best(datapath, words, isBlank: true, [story], form.Room);
        return Fitting.On(form.Target, [.. sheets.Select(p => p.Scene)]);
    }

    /// <summary>The cycles of a walk, each on a sheet or more.</summary>
    public static IReadOnlyList<Scene> Of(Figure figure) =>
        Fitting.On(figure.Target, [.. CycleSheets(figure).Select(p => p.Scene)]);

    internal static IReadOnlyList<PathSheet> CycleSheets(Figure figure)
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
        var stories = figure
            .Walk.Rows.Skip(figure.From)
            .Take(figure.Until - figure.From + 1)
            .Select(row => Cycle(figure, row, Levels(figure, row, states, provenance, origins), origins))
            .ToList();
        return PathSearch.Best(datapath, figure.Words, figure.IsBlank, stories, figure.Room);
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

    private static PathStory Cycle(Figure figure, Running.Row row, IReadOnlyList<Level> levels, Origins origins)
    {
        var words = figure.Words;
        var given = FigureHead.Given(figure.Walk, words);
        var segment = figure.Walk.Datapath.Schedule.FirstOrDefault(s =>
            row.Step is not null && s.Steps.Contains(row.Step)
        );
        var when =
            row.Step is null ? words.Say("figure.at-load")
            : row.Round == 0 ? words.Say("figure.at-cycle", ("cycle", row.Cycle))
            : words.Say("figure.at-round", ("cycle", row.Cycle), ("round", row.Round), ("count", segment!.Count));
        var said = words.Say("figure.datapath-cycle", ("when", when), ("operands", given));
        return new PathStory(levels, $"{given}; {when}", FigureDescription.Blank(figure, said), origins)
        {
            Cycle = row.Cycle,
            Idle = figure.Idle,
        };
    }
}
