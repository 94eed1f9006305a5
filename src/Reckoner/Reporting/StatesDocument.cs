using Reckoner.Datapaths;
using Reckoner.Numbers;
using Reckoner.Structure;
using Reckoner.Styles;
using Reckoner.Tables;
using Reckoner.Words;

namespace Reckoner.Reporting;

/// <summary>The control unit's state table: which state follows when, and what each does under which condition.</summary>
internal sealed class StatesDocument
{
    private readonly Datapath datapath;
    private readonly Vocabulary words;

    private StatesDocument(Datapath datapath, Vocabulary words)
    {
        this.datapath = datapath;
        this.words = words;
    }

    public static Document Of(ControlStates control, HouseStyle style, Vocabulary words)
    {
        var datapath = control.Datapath;
        var states = new StatesDocument(datapath, words);
        return new Document(
            datapath.Machine.Name,
            words.Language,
            Names.Of(datapath, words),
            datapath.Machine.Title?.In(words.Language),
            [states.Next(control.Ways), states.Signals(control.States)]
        )
        {
            Paper = style.Paper,
        };
    }

    private Grid Next(IEnumerable<Transition> ways) =>
        new(
            "states",
            words.Say("states.next"),
            [
                new GridColumn(words.Say("states.state"), ColumnRole.Label, IsGroup: true),
                new GridColumn(words.Say("states.when"), ColumnRole.Sentences),
                new GridColumn(words.Say("states.follows"), ColumnRole.Short),
            ],
            [
                .. ways.Select(t => new GridRow([
                    Cell.Of(t.From is null ? words.Say("walk.load") : Name(t.From)),
                    Cell.Of(When(t.When, t.Below, t.Reached)),
                    Cell.Of(t.To is null ? words.Say("states.end") : Name(t.To)),
                ])),
            ]
        );

    /// <summary>A row for all that a state does in one moment under one condition.</summary>
    private Grid Signals(IReadOnlyList<State> states)
    {
        var done = states
            .Where(s => s.Step is not null)
            .SelectMany(s => s.Doings, (s, d) => (Step: s.Step!, d.Moment, d.When, Text: ControlText.Of(d.Act, words)))
            .Where(d => d.Text is not null)
            .ToList();
        var severalMoments = done.Exists(d => d.Moment > 1);
        var rows = done.GroupBy(d => (d.Step.Number, d.Moment, When: When(d.When, null, null)))
            .Select(g => new GridRow([
                Cell.Of(Name(g.First().Step)),
                .. severalMoments ? [Cell.Of(Bits.Text(g.Key.Moment))] : Array.Empty<Cell>(),
                Cell.Of(g.Key.When),
                new Cell([.. g.Select(d => (Content)Run.Formula(d.Text!))]),
            ]));
        return new Grid(
            "signals",
            words.Say("states.signals"),
            [
                new GridColumn(words.Say("states.state"), ColumnRole.Label, IsGroup: true),
                .. severalMoments
                    ? [new GridColumn(words.Say("states.moment"), ColumnRole.Short)]
                    : Array.Empty<GridColumn>(),
                new GridColumn(words.Say("states.when"), ColumnRole.Sentences),
                new GridColumn(words.Say("states.done"), ColumnRole.Sentences),
            ],
            [.. rows]
        );
    }

    private string Name(Step step) => StepText.Of(step, datapath, words);

    private Content When(IReadOnlyList<Guard> conditions, int? below, int? reached)
    {
        var said = conditions.Select(Said).ToList();
        if (reached is { } most)
        {
            said[0] = words.Spell("states.reached", ("condition", said[0]), ("count", most));
        }
        if (below is { } count)
        {
            said.Add(words.Spell("states.below", ("count", count)));
        }
        return said.Count == 0 ? words.Spell("states.always") : Content.Join(words.Say("states.and"), said);
    }

    private Content Said(Guard guard)
    {
        var text = ControlText.Of(guard, words);
        var isOneWord = !text.Contains(' ', StringComparison.Ordinal);
        return !guard.IsTurned
            ? Run.Formula(text)
            : words.Spell("states.not", ("condition", Run.Formula(isOneWord ? text : $"({text})")));
    }
}
