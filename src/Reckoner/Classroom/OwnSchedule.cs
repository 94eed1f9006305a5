using System.Numerics;
using Reckoner.Datapaths;
using Reckoner.Execution;
using Reckoner.Running;

namespace Reckoner.Classroom;

/// <summary>Which cycles take place, where a loop that may stop early asks the registers that somebody wrote.</summary>
internal sealed class OwnSchedule(Datapath datapath)
{
    private readonly List<Cycle> cycles = [.. Cycle.Of(datapath)];
    private int at;

    /// <summary>The next cycle that takes place from these registers; null after the last.</summary>
    public CycleAddress? Next(IReadOnlyList<BigInteger> registers)
    {
        while (at < cycles.Count)
        {
            var cycle = cycles[at];
            if (!cycle.AsksFirst || SingleStep.GoesOn(datapath, registers, cycle.Address))
            {
                at++;
                return cycle.Address;
            }
            while (at < cycles.Count && cycles[at].Segment == cycle.Segment)
            {
                at++;
            }
        }
        return null;
    }
}
