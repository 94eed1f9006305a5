using Reckoner.Datapaths;

namespace Reckoner.Execution;

internal sealed partial class Execution<TWord>
{
    /// <summary>Begins anew with these registers, by their index; no wire carries anything.</summary>
    public void Begin(IEnumerable<TWord> registers)
    {
        Registers = [.. registers];
        Wires.Clear();
        Path = domain.Bit(isOne: true);
    }

    /// <summary>Gives every register what it loads. What the operands hold is known to the domain.</summary>
    public void Load(Datapath datapath)
    {
        Begin([]);
        foreach (var register in datapath.Registers)
        {
            observer?.Loads(register);
            Begin([.. Registers, Aloud(register.Loads)]);
        }
    }

    /// <summary>
    /// Executes every cycle behind one that is known to take place (0 is the load), then leaves the registers as results read them.
    /// A loop is left once it does not go on; where a bit does not tell, its cycles are executed up to its bound, and the registers
    /// keep what they held in those that do not take place.
    /// </summary>
    public void Run(Datapath datapath, int after = 0)
    {
        foreach (var segment in Cycle.Of(datapath).Where(c => c.Number > after).GroupBy(c => c.Segment))
        {
            Run(segment);
        }
        Latch();
    }

    private void Run(IEnumerable<Cycle> segment)
    {
        var active = domain.Bit(isOne: true);
        foreach (var cycle in segment)
        {
            if (cycle.AsksFirst)
            {
                active = domain.Both(active, GoesOn(cycle));
                if (domain.IsOne(active) == false)
                {
                    return;
                }
            }
            Take(cycle, active);
        }
    }

    /// <summary>One bit: whether a loop goes on into the round that begins with this cycle, by the registers as they are.</summary>
    public TWord GoesOn(Cycle cycle)
    {
        Latch();
        observer?.AsksToGoOn(cycle);
        return Word(cycle.Segment.While!);
    }

    /// <summary>Executes one cycle, whatever the registers hold.</summary>
    public void Take(Cycle cycle) => Take(cycle, domain.Bit(isOne: true));

    private void Take(Cycle cycle, TWord active)
    {
        Latch();
        Last = domain.Bit(cycle.IsLastRound);
        var before = Registers;
        Registers = [.. before];
        observer?.Begins(cycle, active);
        for (var moment = 0; moment < cycle.Step.Moments.Count; moment++)
        {
            Execute(cycle.Step.Moments[moment]);
            observer?.EndsMoment(cycle, moment + 1);
        }
        observer?.Stores(cycle);
        if (domain.IsOne(active) != true)
        {
            Registers = Chosen(null, active, Registers, before);
        }
        observer?.Ends(cycle);
    }

    private void Latch()
    {
        Wires.Clear();
        for (var i = 0; i < Registers.Length; i++)
        {
            Registers[i] = domain.Latched(i, Registers[i]);
        }
    }
}
