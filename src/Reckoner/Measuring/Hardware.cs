using Reckoner.Datapaths;
using Reckoner.Notation;
using Reckoner.Numbers;
using Reckoner.Timelines;

namespace Reckoner.Measuring;

/// <summary>A choice between two words, made in a step at a line.</summary>
public sealed record Choice(int Step, int Line, Source? Source, int Width);

/// <summary>The different words that steps give a register; with more than one, its input is chosen by the step.</summary>
public sealed record RegisterInput(Register Register, IReadOnlyList<int> Steps, int Words, bool Keeps);

/// <summary>What the control unit looks at: a condition as it is written.</summary>
public sealed record Decision(int Line, Source Source, string Text, int Width);

/// <summary>The hardware of a datapath, counted. Multiplexers are counted as two-way choices, control apart.</summary>
public sealed class Hardware
{
    public required Datapath Datapath { get; init; }
    public required IReadOnlyList<Choice> Choices { get; init; }
    public required IReadOnlyList<RegisterInput> Inputs { get; init; }
    public required IReadOnlyList<Decision> Decisions { get; init; }

    /// <summary>Whether a round must know that it is the last.</summary>
    public required bool UsesLast { get; init; }

    public Size RegisterBits => Datapath.Registers.Select(r => r.Size).Aggregate(Size.Of(0), (a, b) => a + b);

    public int ChoiceBits => Choices.Sum(c => c.Width);

    /// <summary>Units that anything uses.</summary>
    public IEnumerable<Unit> Units => Datapath.Units.Where(u => u.Uses.Count > 0);

    public static Hardware Of(Datapath datapath)
    {
        var graph = new WordGraph();
        var held = datapath.Registers.Select(graph.Register).ToArray();
        var unrolling = new Unrolling(graph, graph.Operand) { Last = graph.Last() };
        unrolling.Begin(held);
        foreach (var loads in datapath.Registers.Select(r => r.Loads))
        {
            graph.Origin = new Origin(0, loads.Source, loads.Source!.LineOf(loads.Written!.Span.Start), null);
            unrolling.Word(loads);
        }
        var next = datapath.Steps.ToDictionary(s => s.Number, s => After(unrolling, held, s));
        return new Hardware
        {
            Datapath = datapath,
            Choices = [.. graph.Words.Where(w => w.Operation == Operation.Choose).Select(ChoiceOf)],
            Inputs = [.. datapath.Registers.Select(r => Input(r, next, held))],
            Decisions = [.. DecisionsOf(datapath)],
            UsesLast = datapath.Steps.SelectMany(s => s.Moments).SelectMany(m => m).Any(MentionsLast),
        };
    }

    /// <summary>At the load, a value handed to a machine inside this one stands where it is handed over.</summary>
    private static Choice ChoiceOf(Word word) =>
        word.Origin is { Step: 0, Value: { Written: { } written, Source: { } source } }
            ? new Choice(0, source.LineOf(written.Span.Start), source, word.Width)
            : new Choice(word.Origin.Step, word.Origin.Line, word.Origin.Source, word.Width);

    private static int[] After(Unrolling unrolling, int[] held, Step step)
    {
        unrolling.Step = step.Number;
        unrolling.Begin(held);
        foreach (var moment in step.Moments)
        {
            unrolling.Moment(moment);
        }
        return [.. unrolling.Registers];
    }

    private static RegisterInput Input(Register register, Dictionary<int, int[]> next, int[] held)
    {
        var writing = next.Where(n => n.Value[register.Index] != held[register.Index]).ToList();
        var words = writing.Select(n => n.Value[register.Index]).Distinct().Count();
        return new RegisterInput(register, [.. writing.Select(n => n.Key)], words, writing.Count < next.Count);
    }

    private static IEnumerable<Decision> DecisionsOf(Datapath datapath)
    {
        foreach (var segment in datapath.Schedule)
        {
            if (segment.While is { } condition)
            {
                yield return Decided(condition, segment.Line);
            }
            foreach (var act in segment.Steps.SelectMany(s => s.Moments).SelectMany(m => m))
            {
                foreach (var decision in DecisionsOf(act))
                {
                    yield return decision;
                }
            }
        }
    }

    private static Decision Decided(Value value, int line) =>
        new(line, value.Source!, Printer.Text(value.Written!), value.Width);

    private static IEnumerable<Decision> DecisionsOf(Act act) =>
        act.Match(
            let: a => DecisionsOf(a.Wire.Value, a.Line),
            transfer: a => DecisionsOf(a.Value, a.Line),
            branch: a => a.Inside.SelectMany(DecisionsOf).Prepend(Decided(a.Condition, a.Line)),
            arms: a => a.Inside.SelectMany(DecisionsOf).Prepend(Decided(a.Subject, a.Line)),
            hold: _ => [],
            remark: _ => []
        );

    private static IEnumerable<Decision> DecisionsOf(Value value, int line)
    {
        if (value.Operation is Operation.Choose or Operation.Select)
        {
            yield return Decided(value.Inputs[0], line);
        }
        foreach (var inner in value.Inputs.SelectMany(i => DecisionsOf(i, line)))
        {
            yield return inner;
        }
    }

    private static bool MentionsLast(Act act) =>
        act.Match(
            let: a => MentionsLast(a.Wire.Value),
            transfer: a => MentionsLast(a.Value),
            branch: a => MentionsLast(a.Condition) || a.Inside.Any(MentionsLast),
            arms: a => MentionsLast(a.Subject) || a.Inside.Any(MentionsLast),
            hold: _ => false,
            remark: _ => false
        );

    private static bool MentionsLast(Value value) =>
        value.Operation == Operation.Last || value.Inputs.Any(MentionsLast);

    /// <summary>Fewest and most clock edges after the load, by the bounds of the loops.</summary>
    public (int Least, int Most) Cycles =>
        (Datapath.Schedule.Where(s => s.While is null).Sum(s => s.Count * s.Steps.Count), Datapath.MostCycles);

    /// <summary>Bits of all round counters of the control unit; loops run one after another and share the longest.</summary>
    public int CounterBits => Datapath.Schedule.Select(s => s.CounterBits).DefaultIfEmpty(0).Max();
}
