using Reckoner.Datapaths;

namespace Reckoner.Execution;

internal sealed partial class Execution<TWord>
{
    /// <summary>Executes acts in order. The binder has made sure that inside a moment the order does not matter.</summary>
    public void Execute(IReadOnlyList<Act> acts)
    {
        for (var i = 0; i < acts.Count; i++)
        {
            var act = acts[i];
            observer?.Begins(act);
            act.Switch(let: Let, transfer: Transfer, branch: Branch, arms: Choose, hold: _ => { }, remark: _ => { });
        }
    }

    private void Let(LetAct act)
    {
        Name(act.Wire, Aloud(act.Wire.Value));
        if (act.Second is not null)
        {
            Name(act.Second, Word(act.Second.Value));
        }
    }

    private void Name(Wire wire, TWord word)
    {
        Wires[wire] = word;
        observer?.Names(wire, word);
    }

    private void Transfer(TransferAct act)
    {
        var word = Aloud(act.Value);
        var low = act.Value.Width;
        foreach (var place in act.Places)
        {
            low -= place.Width;
            ref var register = ref Registers[place.Register.Index];
            register = domain.Stored(register, place, word, low);
        }
        observer?.Wrote(act, word);
    }

    private void Branch(BranchAct act)
    {
        var bit = Ask(act, act.Condition);
        observer?.Tells(act, 0, bit);
        Decide(act, act.Condition, [act.Then, act.Otherwise], way => way == 0 ? bit : domain.Not(bit));
    }

    private void Choose(CaseAct act)
    {
        var subject = Ask(act, act.Subject);
        var ways = new TWord[act.Arms.Count];
        var none = domain.Bit(isOne: true);
        for (var way = 0; way < ways.Length; way++)
        {
            var arm = act.Arms[way].Patterns;
            ways[way] = arm.IsElse ? none : domain.Matches(act.Subject, subject, arm);
            none = domain.Both(none, domain.Not(ways[way]));
            observer?.Tells(act, way, ways[way]);
        }
        Decide(act, act.Subject, [.. act.Arms.Select(a => a.Acts)], way => ways[way]);
    }

    private TWord Ask(Act act, Value question)
    {
        observer?.Asks(act, question);
        var word = Aloud(question);
        observer?.Asked(act, question, word);
        return word;
    }

    /// <summary>Executes the ways of a decision.</summary>
    /// <param name="bit">One bit for each way; exactly one of them is 1.</param>
    private void Decide(Act act, Value question, IReadOnlyList<IReadOnlyList<Act>> ways, Func<int, TWord> bit)
    {
        if (domain.TakesAllWays)
        {
            var left = ways.Select((acts, way) => After(act, way, bit(way), acts)).ToList();
            observer?.Joins(act);
            var chosen = left[^1];
            for (var way = left.Count - 2; way >= 0; way--)
            {
                chosen = Chosen(question, bit(way), left[way], chosen);
            }
            Registers = chosen;
        }
        else
        {
            var way = 0;
            while (domain.IsOne(bit(way)) != true)
            {
                way++;
            }
            Take(act, way, bit(way), ways[way]);
            observer?.Joins(act);
        }
        observer?.Joined(act);
    }

    /// <summary>What the registers hold after a way, the registers here left as they are.</summary>
    private TWord[] After(Act act, int way, TWord bit, IReadOnlyList<Act> acts)
    {
        var before = Registers;
        Registers = [.. before];
        Take(act, way, bit, acts);
        var after = Registers;
        Registers = before;
        return after;
    }

    private void Take(Act act, int way, TWord bit, IReadOnlyList<Act> acts)
    {
        var outer = Path;
        Path = domain.Both(outer, bit);
        observer?.Enters(act, way, bit);
        Execute(acts);
        observer?.Leaves(act, way);
        Path = outer;
    }

    private TWord[] Chosen(Value? question, TWord bit, TWord[] then, TWord[] otherwise)
    {
        var chosen = new TWord[then.Length];
        for (var i = 0; i < chosen.Length; i++)
        {
            chosen[i] = domain.Chosen(question, bit, then[i], otherwise[i]);
        }
        return chosen;
    }
}
