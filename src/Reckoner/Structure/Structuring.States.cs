using Reckoner.Datapaths;
using Reckoner.Timelines;

namespace Reckoner.Structure;

/// <summary>What each state does: entries and settings.</summary>
internal sealed partial class Structuring
{
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
            Settle();
            var doings = Doing.Of(i + 1, step.Moments[i], [], WordOf).ToList();
            draft.Doings.AddRange(doings);
            draft.Entries.AddRange(doings.SelectMany(d => Entries(d, step.Number)));
            var names = doings.SelectMany(d => d.Act.Names);
            draft.Named.AddRange(names.Select(w => new Named(w, nets[execution.Wires[w]])));
            draft.Settings.AddRange(doings.SelectMany(d => Settings(d, step.Number)));
            looks.AddRange(doings.SelectMany(d => d.Looks, (d, v) => Decided(v, step.Number, d.Act.Line)));
            if (i + 1 < step.Moments.Count)
            {
                var written = datapath.Registers.Where(r => execution.Registers[r.Index] != held[r.Index]);
                draft.Amid.AddRange(written.Select(r => new Amid(r, nets[execution.Registers[r.Index]])));
            }
        }
        stored.Add([.. execution.Registers]);
        drafts.Add(draft);
    }

    private Bundle WordOf(Value value) => nets[seen[value].Place];

    private IEnumerable<Entry> Entries(Doing doing, int state) =>
        doing.Act.Match(
            let: _ => [],
            transfer: a => Entries(a, doing, state, WordOf(a.Value)),
            branch: _ => [],
            arms: _ => [],
            hold: _ => [],
            remark: _ => Enumerable.Empty<Entry>()
        );

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
}
