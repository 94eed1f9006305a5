using Reckoner.Datapaths;
using Reckoner.Execution;
using Reckoner.Notation;

namespace Reckoner.Timelines;

/// <summary>An outcome of a decision as it is written, and the bit that is 1 where it comes about.</summary>
internal sealed record Outcome(Source Source, int Line, string Text, int Word)
{
    /// <summary>The bit that is 1 where the decision is met, whatever its outcome.</summary>
    public required int Path { get; init; }

    /// <summary>In a choice among arms: what is chosen by, and the label of the arm.</summary>
    public (string Subject, string Label)? Arm { get; init; }
}

/// <summary>A value that was named, the word it had, and the bit that is 1 where it was.</summary>
internal sealed record NamedWord(Wire Wire, int Word, int Path);

/// <summary>An adder's work, as a walk tells it: two words of one width, and the bit that is 1 where it is done.</summary>
/// <param name="Left">Null for 0, of which a negation takes its word.</param>
/// <param name="Word">The sum or difference in that width.</param>
internal sealed record SummedWord(int? Left, int Right, int Word, bool Subtracts, int Path);

/// <summary>
/// Executes acts on the words of a graph: every way is taken and the results are chosen between. Leaves the words that the
/// registers hold then, and tells what was decided, named and summed.
/// </summary>
internal sealed class Unrolling : Observer<int>
{
    private readonly WordGraph graph;
    private readonly GraphWords domain;
    private readonly Execution<int> execution;
    private readonly List<Outcome> outcomes = [];
    private readonly List<NamedWord> named = [];
    private readonly List<SummedWord> sums = [];
    private bool isAsking;

    public Unrolling(WordGraph graph, Func<Operand, int> operandWord)
    {
        this.graph = graph;
        domain = new GraphWords(graph, operandWord);
        execution = new Execution<int>(domain, this);
    }

    /// <summary>The word of "last" in what is executed next.</summary>
    public int Last
    {
        get => execution.Last;
        set => execution.Last = value;
    }

    /// <summary>The step being executed, for origins; 0 is the load.</summary>
    public int Step { get; set; }

    /// <summary>What the registers hold, by index.</summary>
    public int[] Registers => execution.Registers;

    /// <summary>What was decided since the last <see cref="Begin"/> or the begin of a cycle.</summary>
    public IReadOnlyList<Outcome> Outcomes => [.. outcomes];

    /// <summary>What was named since then.</summary>
    public IReadOnlyList<NamedWord> Named => [.. named];

    /// <summary>What was added and subtracted since then.</summary>
    public IReadOnlyList<SummedWord> Sums => [.. sums];

    /// <summary>Begins anew with these registers.</summary>
    public void Begin(IReadOnlyList<int> registers)
    {
        execution.Begin(registers);
        outcomes.Clear();
        named.Clear();
        sums.Clear();
    }

    public void Load(Datapath datapath) => execution.Load(datapath);

    /// <summary>Executes one moment: its acts in order. The binder has made sure that order does not matter.</summary>
    public void Moment(IReadOnlyList<Act> acts) => execution.Execute(acts);

    /// <summary>The word of a value in the present state.</summary>
    public int Word(Value value) => execution.Word(value);

    // ---- every edge

    private readonly List<Edge> edges = [];
    private readonly List<int[]> moments = [];
    private int active;

    /// <summary>Executes every cycle behind one that is known to take place; 0 is the load.</summary>
    public IReadOnlyList<Edge> Run(Datapath datapath, int after)
    {
        execution.Run(datapath, after);
        return edges;
    }

    public override void Loads(Register register) =>
        graph.Origin = new Origin(
            0,
            register.Loads.Source,
            register.Loads.Source!.LineOf(register.Loads.Written!.Span.Start),
            null
        );

    public override void AsksToGoOn(Cycle cycle) =>
        graph.Origin = new Origin(cycle.Step.Number, cycle.Step.Source, cycle.Segment.Line, null);

    public override void Begins(Cycle cycle, int active)
    {
        Step = cycle.Step.Number;
        this.active = active;
        outcomes.Clear();
        named.Clear();
        sums.Clear();
        moments.Clear();
    }

    public override void EndsMoment(Cycle cycle, int moment) => moments.Add([.. Registers]);

    public override void Stores(Cycle cycle) =>
        graph.Origin = new Origin(cycle.Step.Number, cycle.Step.Source, cycle.Step.Line, null);

    public override void Ends(Cycle cycle)
    {
        var at = cycle.Address;
        edges.Add(
            new Edge(
                cycle.Number,
                at.Repeat,
                at.Round,
                cycle.Step,
                active,
                [.. moments],
                [.. Registers],
                Outcomes,
                Named,
                Sums
            )
        );
    }

    // ---- acts

    public override void Begins(Act act)
    {
        graph.Origin = new Origin(Step, act.Source, act.Line, null);
        foreach (var choice in Chosen(act).SelectMany(v => v.Choices))
        {
            Decided(act, choice, Word(choice.Inputs[0]));
        }
    }

    /// <summary>The values in which words are chosen between; a question asked by an act is a decision of its own.</summary>
    private static IEnumerable<Value> Chosen(Act act) =>
        act.Match<IEnumerable<Value>>(
            let: a => [a.Wire.Value],
            transfer: a => [a.Value],
            branch: _ => [],
            arms: _ => [],
            hold: _ => [],
            remark: _ => []
        );

    private void Decided(Act act, Value choice, int asked)
    {
        var text = Printer.Text(choice.Inputs[0].Written!);
        if (choice.Operation == Operation.Choose)
        {
            Decided(act, text, asked, null);
            return;
        }
        var none = domain.Bit(isOne: true);
        foreach (var arm in choice.Arms)
        {
            var bit = arm.IsElse ? none : domain.Matches(choice.Inputs[0], asked, arm);
            none = graph.And(none, graph.Not(bit));
            Decided(act, text, arm, bit);
        }
    }

    private void Decided(Act act, string subject, ArmPatterns arm, int bit) =>
        Decided(act, $"{subject} = {arm.Written}", bit, (subject, arm.Written));

    /// <summary>Notes an outcome: the bit that is 1 when this path is taken and it comes about.</summary>
    private void Decided(Act act, string text, int bit, (string, string)? arm) =>
        outcomes.Add(
            new Outcome(act.Source, act.Line, text, graph.And(execution.Path, bit)) { Path = execution.Path, Arm = arm }
        );

    public override void Tells(Act act, int way, int bit) =>
        act.Switch(
            let: _ => { },
            transfer: _ => { },
            branch: a => Decided(a, Printer.Text(a.Condition.Written!), bit, null),
            arms: a => Decided(a, Printer.Text(a.Subject.Written!), a.Arms[way].Patterns, bit),
            hold: _ => { },
            remark: _ => { }
        );

    public override void Asks(Act act, Value question) => isAsking = true;

    public override void Asked(Act act, Value question, int word) => isAsking = false;

    /// <summary>Notes sums and differences. What is computed to answer a question is no work of its own, as in a walk.</summary>
    public override void Computed(Value value, ReadOnlySpan<int> inputs, int word)
    {
        if (isAsking)
        {
            return;
        }
        if (value.Operation is Operation.Add or Operation.Subtract)
        {
            var subtracts = value.Operation == Operation.Subtract;
            sums.Add(new SummedWord(inputs[0], inputs[1], word, subtracts, execution.Path));
        }
        else if (value.Operation is Operation.Negate or Operation.Magnitude)
        {
            // A magnitude is a negation where the word is negative.
            var top = graph.Width(inputs[0]) - 1;
            var path =
                value.Operation == Operation.Negate
                    ? execution.Path
                    : graph.And(execution.Path, graph.Slice(inputs[0], top, top));
            sums.Add(new SummedWord(null, inputs[0], word, Subtracts: true, path));
        }
    }

    public override void Names(Wire wire, int word) => named.Add(new NamedWord(wire, word, execution.Path));

    public override void Joins(Act act) => graph.Origin = new Origin(Step, act.Source, act.Line, null);
}
