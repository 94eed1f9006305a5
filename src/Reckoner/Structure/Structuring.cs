using Reckoner.Datapaths;
using Reckoner.Execution;
using Reckoner.Timelines;

namespace Reckoner.Structure;

/// <summary>
/// Finds the structure of a datapath: each step is executed once on the words of a graph, the registers being what they hold before
/// it; then every act is read again with the wires its values stand on.
/// </summary>
internal sealed class Structuring : Observer<int>
{
    private readonly Datapath datapath;
    private readonly WordGraph graph = new() { KeepsUnits = true };
    private readonly Execution<int> execution;
    private readonly Netting nets;
    private readonly int[] held;

    /// <summary>The number of the step being executed; 0 is the load.</summary>
    private int step;

    /// <summary>Of the moment being executed, the word of every value and the operations of units that it took.</summary>
    private readonly Dictionary<Value, (int Place, IReadOnlyList<int> Units)> seen = new(
        ReferenceEqualityComparer.Instance
    );
    private readonly List<int[]> stored = [];
    private readonly List<Draft> drafts = [];
    private readonly List<EarlyStop> stops = [];

    /// <summary>A state whose next ones are not known yet.</summary>
    private sealed record Draft(
        int Number,
        Step? Step,
        List<Doing> Doings,
        List<Entry> Entries,
        List<UnitSetting> Settings
    );

    public Structuring(Datapath datapath)
    {
        this.datapath = datapath;
        nets = new Netting(graph) { Operands = datapath.Operands, Registers = datapath.Registers };
        held = [.. datapath.Registers.Select(graph.Register)];
        execution = new Execution<int>(new GraphWords(graph, graph.Operand), this) { Last = graph.Last() };
    }

    public override void Begins(Act act) => graph.Origin = new Origin(step, act.Source, act.Line, null);

    public override void Joins(Act act) => Begins(act);

    public override void Computed(Value value, ReadOnlySpan<int> inputs, int word) =>
        seen[value] = (word, graph.TakeUnitWords());

    public MachineStructure Structure()
    {
        Load();
        foreach (var step in datapath.Steps)
        {
            Take(step);
        }
        foreach (var segment in datapath.Schedule.Where(s => s.While is not null))
        {
            stops.Add(Stop(segment));
        }
        var decisions = Decisions().ToList();
        var ways = new NextStates(datapath.Schedule, InLoop).All().ToList();
        execution.Begin(held);
        var results = datapath.Results.Select(r => nets[execution.Word(r.Value)]).ToList();
        return new MachineStructure
        {
            Datapath = datapath,
            Nets = Reached(results),
            Registers = [.. datapath.Registers.Select(Of)],
            Units = [.. datapath.Units.Select(Of)],
            Choices = [.. graph.Words.Select(ChoiceOf).OfType<Choice>()],
            Decisions = decisions,
            States =
            [
                .. drafts.Select(d => new State(
                    d.Number,
                    d.Step,
                    d.Doings,
                    d.Entries,
                    d.Settings,
                    [.. ways.Where(w => w.From == d.Step)]
                )),
            ],
            EarlyStops = stops,
            Results = results,
        };
    }

    // ---- what each state does

    private void Load()
    {
        var draft = new Draft(0, null, [], [], []);
        execution.Begin(held);
        var words = new List<int>();
        foreach (var register in datapath.Registers)
        {
            seen.Clear();
            var (value, source) = (register.Loads, register.Loads.Source!);
            var line = source.LineOf(value.Written!.Span.Start);
            graph.Origin = new Origin(0, source, line, null);
            words.Add(execution.Aloud(value));
            draft.Entries.Add(new Entry(register, register.Width - 1, 0, 0, 1, [], nets[words[^1]], source, line));
            var settings = Settings(value, 0, 1, [], source, line);
            draft.Settings.AddRange(settings.Where(s => !draft.Settings.Exists(s.DoesAs)));
        }
        stored.Add([.. words]);
        drafts.Add(draft);
    }

    private void Take(Step step)
    {
        var draft = new Draft(step.Number, step, [], [], []);
        this.step = step.Number;
        execution.Begin(held);
        for (var i = 0; i < step.Moments.Count; i++)
        {
            seen.Clear();
            execution.Execute(step.Moments[i]);
            var doings = Doing.Of(i + 1, step.Moments[i], [], WordOf).ToList();
            draft.Doings.AddRange(doings);
            draft.Entries.AddRange(doings.SelectMany(d => Entries(d, step.Number)));
            draft.Settings.AddRange(doings.SelectMany(d => Settings(d, step.Number)));
            looks.AddRange(doings.SelectMany(d => d.Looks, (d, v) => Decided(v, step.Number, d.Act.Line)));
        }
        stored.Add([.. execution.Registers]);
        drafts.Add(draft);
    }

    private Bundle WordOf(Value value) => nets[seen[value].Place];

    private IEnumerable<Entry> Entries(Doing doing, int state) =>
        doing.Act is TransferAct act ? Entries(act, doing, state, WordOf(act.Value)) : [];

    private static IEnumerable<Entry> Entries(TransferAct act, Doing doing, int state, Bundle word)
    {
        var low = word.Width;
        foreach (var place in act.Places)
        {
            low -= place.Width;
            yield return new Entry(
                place.Register,
                place.High,
                place.Low,
                state,
                doing.Moment,
                doing.When,
                word.Part(low, place.Width),
                act.Source,
                act.Line
            );
        }
    }

    private List<UnitSetting> Settings(Doing doing, int state)
    {
        var found = new List<UnitSetting>();
        foreach (var value in doing.Values)
        {
            // A sum and its carry are one setting.
            var settings = Settings(value, state, doing.Moment, doing.When, doing.Act.Source, doing.Act.Line);
            found.AddRange(settings.Where(s => !found.Exists(s.DoesAs)));
        }
        return found;
    }

    private IEnumerable<UnitSetting> Settings(
        Value value,
        int state,
        int moment,
        IReadOnlyList<Guard> when,
        Source source,
        int line
    )
    {
        foreach (var setting in value.Inputs.SelectMany(i => Settings(i, state, moment, when, source, line)))
        {
            yield return setting;
        }
        foreach (var place in seen.TryGetValue(value, out var found) ? found.Units : [])
        {
            var word = graph[place];
            yield return new UnitSetting(
                word.Unit!,
                state,
                moment,
                when,
                Netting.Told(word).Function,
                [.. word.Inputs.Select(i => nets[i])],
                value,
                source,
                line
            );
        }
    }

    // ---- what loops and the control unit look at

    private readonly Dictionary<Value, Bundle> inLoops = new(ReferenceEqualityComparer.Instance);
    private readonly List<Decision> looks = [];

    private EarlyStop Stop(Segment loop)
    {
        var (condition, first) = (loop.While!, loop.Steps[0]);
        seen.Clear();
        step = first.Number;
        execution.Begin(held);
        graph.Origin = new Origin(first.Number, condition.Source, loop.Line, null);
        execution.Aloud(condition);
        foreach (var value in seen.Keys)
        {
            inLoops[value] = WordOf(value);
        }
        var settings = Settings(condition, first.Number, 0, [], condition.Source!, loop.Line);
        return new EarlyStop(loop, Guard.If(condition, WordOf), [.. settings]);
    }

    private Bundle InLoop(Value value) => value.Operation == Operation.Last ? nets[execution.Last] : inLoops[value];

    private Decision Decided(Value value, int state, int line) => new(value, WordOf(value), state, value.Source!, line);

    private IEnumerable<Decision> Decisions() =>
        datapath.Schedule.SelectMany(segment =>
        {
            var steps = segment.Steps.Select(s => s.Number).ToHashSet();
            var own = looks.Where(d => steps.Contains(d.State));
            return segment.While is { } condition
                ? own.Prepend(
                    new Decision(
                        condition,
                        inLoops[condition],
                        segment.Steps[0].Number,
                        condition.Source!,
                        segment.Line
                    )
                )
                : own;
        });

    // ---- parts

    private RegisterStructure Of(Register register)
    {
        var index = register.Index;
        var writing = Enumerable.Range(1, stored.Count - 1).Where(s => stored[s][index] != held[index]).ToList();
        return new RegisterStructure(
            register,
            [.. drafts.SelectMany(d => d.Entries).Where(e => e.Register == register)],
            [.. stored.Select(s => nets[s[index]])],
            writing,
            writing.Select(s => stored[s][index]).Distinct().Count()
        );
    }

    private UnitStructure Of(Unit unit) =>
        new(
            unit,
            [
                .. drafts
                    .SelectMany(d => d.Settings)
                    .Concat(stops.SelectMany(s => s.Settings))
                    .Where(s => s.Unit == unit),
            ],
            [.. nets.Nets.Where(n => n.Unit == unit)]
        );

    private Choice? ChoiceOf(Word word, int place) =>
        word.Operation == WordOperation.Choose
            ? new Choice(
                word.Origin,
                word.Width,
                nets[word.Inputs[0]],
                nets[word.Inputs[1]],
                nets[word.Inputs[2]],
                nets[place]
            )
            : null;

    /// <summary>The nets that anything takes; the graph knows more.</summary>
    private List<Net> Reached(IEnumerable<Bundle> results)
    {
        var guards = drafts.SelectMany(d => d.Doings).SelectMany(d => d.When).Select(g => g.Word);
        var settings = drafts.SelectMany(d => d.Settings).Concat(stops.SelectMany(s => s.Settings));
        var taken = results
            .Concat(stored.SelectMany(s => s).Select(place => nets[place]))
            .Concat(guards)
            .Concat(stops.Select(s => s.Goes.Word))
            .Concat(settings.SelectMany(s => s.Operands));
        var reached = Reach.From(taken.SelectMany(b => b.Nets), n => n.Inputs.SelectMany(i => i.Nets));
        return [.. nets.Nets.Where(reached.Contains)];
    }
}
