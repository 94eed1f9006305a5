using Reckoner.Datapaths;
using Reckoner.Notation;

namespace Reckoner.Hdl;

/// <summary>
/// Translates a datapath as it is written: each statement of the description becomes one of the hardware text. A moment sees what earlier
/// ones gave the registers; inside a moment the order does not matter, as the binder has made sure, so that statements may act one after
/// the other.
/// </summary>
internal sealed class HdlModuling
{
    private readonly Datapath datapath;
    private readonly string language;
    private readonly HdlNames names = new();
    private readonly Dictionary<object, string> named = new(ReferenceEqualityComparer.Instance);
    private readonly string module;
    private readonly List<HdlRegister> registers;
    private readonly List<HdlName> operands;
    private readonly List<string> results;
    private readonly string idle;
    private readonly string finished;
    private readonly Dictionary<Step, string> states;
    private readonly List<HdlTable> tables = [];
    private readonly int roundBits;

    private readonly List<HdlName> words = [];
    private readonly List<HdlName> askedWords = [];

    public HdlModuling(Datapath datapath, string language)
    {
        this.datapath = datapath;
        this.language = language;
        foreach (var own in HdlModule.Surround)
        {
            names.New(own);
        }
        module = names.New(datapath.Machine.Name);
        operands = [.. datapath.Operands.Select(o => new HdlName(Name(o, o.Name), o.Width, Said(o.Phrase)))];
        results = [.. datapath.Results.Select(r => names.Of(r.Name))];
        registers =
        [
            .. datapath.Registers.Select(r =>
            {
                var name = Name(r, r.Name);
                return new HdlRegister(r, name, names.New(name + "_next"), Said(r.Phrase));
            }),
        ];
        idle = names.New("at_rest");
        finished = names.New("at_end");
        states = datapath.Steps.ToDictionary(s => s, s => names.New("at_" + (s.Name ?? $"step_{s.Number}")));
        foreach (var table in datapath.Tables)
        {
            var address = table.Indices.Sum(i => i.Size.Count);
            var name = Name(table, table.Name);
            tables.Add(new HdlTable(name, names.New("rows_of_" + name), table.Width, address, table.Cells));
        }
        roundBits = datapath.RoundBits;
    }

    public HdlModule Module()
    {
        var load = Load();
        var does = States();
        var stops = Stops();
        return new HdlModule
        {
            Datapath = datapath,
            Name = module,
            Idle = idle,
            Finished = finished,
            First = Enter(0),
            Operands = operands,
            Registers = registers,
            Words = words,
            AskedWords = askedWords,
            Tables = tables,
            Parted = Parted(load.Concat(does.SelectMany(s => s.Does))),
            Load = load,
            States = does,
            EarlyStops = stops,
            Results = Results(),
            RoundBits = roundBits,
            Changed = names.Changed,
        };
    }

    private Dictionary<int, string> Parted(IEnumerable<HdlStatement> statements) =>
        statements
            .SelectMany(s => s.All)
            .Where(s => s.Kind == HdlStatementKind.Set)
            .Select(s => HdlWord.Joined(s.Targets))
            .Where(t => t.Kind == HdlWordKind.Joined)
            .Select(t => t.Width)
            .Distinct()
            .ToDictionary(width => width, width => names.New($"parted_{width}"));

    private string Name(object thing, string wanted) => named[thing] = names.Of(wanted);

    private string Said(Phrase? phrase) => phrase?.In(language) ?? "";

    private List<HdlStatement> Load()
    {
        var set = new List<HdlStatement>();
        var say = Saying(_ => throw new InvalidOperationException("a load reads no register"), null, set, words);
        foreach (var register in registers)
        {
            var word = say.Of(register.Register.Loads);
            set.Add(HdlStatement.Set([HdlWord.Named(register.Next, register.Width)], word));
        }
        return set;
    }

    private List<HdlState> States()
    {
        var all = new List<HdlState>();
        for (var i = 0; i < datapath.Schedule.Count; i++)
        {
            var segment = datapath.Schedule[i];
            for (var s = 0; s < segment.Steps.Count; s++)
            {
                var step = segment.Steps[s];
                var isLast = s == segment.Steps.Count - 1;
                all.Add(
                    new HdlState(
                        states[step],
                        Said(step.Phrase),
                        Does(segment, step),
                        isLast ? Enter(i + 1) : states[segment.Steps[s + 1]],
                        isLast && segment.IsLoop ? states[segment.Steps[0]] : null,
                        segment.Count
                    )
                );
            }
        }
        return all;
    }

    /// <summary>The state with which the schedule goes on from one of its segments.</summary>
    private string Enter(int segment)
    {
        var next = datapath.Schedule.Skip(segment).FirstOrDefault(s => s.Count > 0);
        return next is null ? finished : states[next.Steps[0]];
    }

    private List<HdlEarlyStop> Stops()
    {
        var stops = new List<HdlEarlyStop>();
        for (var i = 0; i < datapath.Schedule.Count; i++)
        {
            if (datapath.Schedule[i] is { While: { } condition, Count: > 0 } segment)
            {
                var before = new List<HdlStatement>();
                var goes = Saying(r => named[r], null, before, askedWords).Of(condition);
                stops.Add(new HdlEarlyStop(states[segment.Steps[0]], before, goes, Enter(i + 1)));
            }
        }
        return stops;
    }

    private List<HdlResult> Results()
    {
        var all = new List<HdlResult>();
        for (var i = 0; i < results.Count; i++)
        {
            // A result is wiring, so nothing is computed that would need a name.
            var say = new HdlWords(
                r => named[r],
                named,
                HdlWord.Literal(1, 0),
                w => throw new InvalidOperationException($"{w.Kind} in a result")
            );
            all.Add(new HdlResult(results[i], say.Of(datapath.Results[i].Value)));
        }
        return all;
    }

    private HdlWords Saying(
        Func<Register, string> register,
        HdlWord? last,
        List<HdlStatement> before,
        List<HdlName> declared
    ) =>
        new(
            register,
            named,
            last ?? HdlWord.Literal(1, 1),
            word =>
            {
                var name = names.New("whole");
                declared.Add(new HdlName(name, word.Width, ""));
                var part = HdlWord.Named(name, word.Width);
                before.Add(HdlStatement.Set([part], word));
                return part;
            }
        );

    private List<HdlStatement> Does(Segment segment, Step step)
    {
        var does = new List<HdlStatement>();
        var written = new HashSet<Register>();
        // In a loop of fixed count its control knows the last round from the counter.
        var last = segment.IsLoop
            ? new HdlWord(
                HdlWordKind.Equal,
                1,
                HdlWord.Named(HdlModule.Turn, roundBits),
                HdlWord.Literal(roundBits, segment.Count)
            )
            : null;
        foreach (var moment in step.Moments)
        {
            var earlier = written.ToHashSet();
            Add(moment, does, r => earlier.Contains(r) ? Next(r) : named[r], last);
            written.UnionWith(moment.SelectMany(a => a.All).SelectMany(a => a.Writes).Select(p => p.Register));
        }
        return does;
    }

    private string Next(Register register) => registers[register.Index].Next;

    private void Add(IReadOnlyList<Act> acts, List<HdlStatement> does, Func<Register, string> register, HdlWord? last)
    {
        var say = Saying(register, last, does, words);
        foreach (var act in acts)
        {
            act.Switch(
                let: a => Let(a, does, say),
                transfer: a => does.Add(HdlStatement.Set([.. a.Places.Select(Target)], say.Of(a.Value))),
                branch: a =>
                    does.Add(
                        HdlStatement.If(
                            say.Of(a.Condition),
                            Inside(a.Then, register, last),
                            Inside(a.Otherwise, register, last)
                        )
                    ),
                arms: a =>
                    does.Add(
                        HdlStatement.Case(
                            say.Of(a.Subject),
                            [.. a.Arms.Select(w => new HdlWay(w.Patterns.Patterns, Inside(w.Acts, register, last)))]
                        )
                    ),
                hold: _ => { },
                remark: a => does.Add(HdlStatement.Remark(Said(a.Text)))
            );
        }
    }

    private List<HdlStatement> Inside(IReadOnlyList<Act> acts, Func<Register, string> register, HdlWord? last)
    {
        var does = new List<HdlStatement>();
        Add(acts, does, register, last);
        return does;
    }

    private HdlWord Target(Place place) =>
        HdlWord.Part(Next(place.Register), place.Register.Width, place.High, place.Low);

    private void Let(LetAct act, List<HdlStatement> does, HdlWords say)
    {
        // What it names is known by the name only below.
        var first = act.Second is { Value.Operation: Operation.Carry } ? null : say.Of(act.Wire.Value);
        var second = act.Second is { } other && first is not null ? say.Of(other.Value) : null;
        var wire = Declared(act.Wire);
        if (first is null)
        {
            var sum = say.Wide(act.Second!.Value.Inputs[0]);
            does.Add(HdlStatement.Set([Declared(act.Second), wire], sum));
            return;
        }
        does.Add(HdlStatement.Set([wire], first));
        if (second is not null)
        {
            does.Add(HdlStatement.Set([Declared(act.Second!)], second));
        }
    }

    private HdlWord Declared(Wire wire)
    {
        var name = Name(wire, wire.Name);
        words.Add(new HdlName(name, wire.Value.Width, ""));
        return HdlWord.Named(name, wire.Value.Width);
    }
}
