using Reckoner.Datapaths;
using Reckoner.Execution;
using Reckoner.Timelines;

namespace Reckoner.Structure;

/// <summary>
/// Finds the structure of a datapath: each step is executed once on the words of a graph, the registers being what they hold before
/// it; then every act is read again with the wires its values stand on.
/// </summary>
internal sealed partial class Structuring : Observer<int>
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
    )
    {
        public List<Named> Named { get; } = [];

        public List<Amid> Amid { get; } = [];
    }

    public Structuring(Datapath datapath)
    {
        this.datapath = datapath;
        nets = new Netting(graph) { Operands = datapath.Operands, Registers = datapath.Registers };
        held = [.. datapath.Registers.Select(graph.Register)];
        execution = new Execution<int>(new GraphWords(graph, graph.Operand), this) { Last = graph.Last() };
    }

    public override void Begins(Act act)
    {
        Settle();
        graph.Origin = new Origin(step, act.Source, act.Line, null);
    }

    public override void Joins(Act act) => Begins(act);

    public override void Computed(Value value, ReadOnlySpan<int> inputs, int word) => Sees(value, word);

    /// <summary>A second output is not heard while it is computed: with its name comes what its unit does for it.</summary>
    public override void Names(Wire wire, int word)
    {
        if (wire.Value.IsSecondOutput)
        {
            Sees(wire.Value, word);
        }
    }

    private void Sees(Value value, int word) => seen[value] = (word, graph.TakeUnitWords());

    /// <summary>Whatever a unit was asked for must belong to a value by now; what comes next would take it for its own.</summary>
    private void Settle()
    {
        if (graph.TakeUnitWords() is [var place, ..])
        {
            throw new InvalidOperationException(
                $"no value asked for the {graph[place].Operation} on line {graph.Origin.Line}"
            );
        }
    }

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
        Settle();
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
                )
                {
                    Named = d.Named,
                    Amid = d.Amid,
                }),
            ],
            EarlyStops = stops,
            Results = results,
        };
    }
}
