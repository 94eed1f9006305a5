using System.Numerics;
using Reckoner.Datapaths;
using Reckoner.Execution;

namespace Reckoner.Running;

/// <summary>One cycle by itself: what it does to registers that need not have come about in a walk.</summary>
internal static class SingleStep
{
    /// <summary>
    /// Executes one cycle. Whether its loop would have gone on so far is not asked: the cycle takes place. Ask
    /// <see cref="GoesOn"/> first where that matters.
    /// </summary>
    /// <param name="registers">
    /// What every register of the datapath holds before it, by its index: bits from 0 to 2^width - 1, also where it is signed.
    /// </param>
    /// <param name="at">The cycle: its loop from 1 and round from 1, both 0 outside loops, and its step's number.</param>
    /// <returns>
    /// The row, with the registers after it and what happened in each moment. Its cycle is counted as if every earlier one took
    /// place.
    /// </returns>
    /// <exception cref="ArgumentException">
    /// Not as many registers as the datapath has, bits that do not fit in their register, or no such cycle.
    /// </exception>
    public static Row Of(Datapath datapath, IReadOnlyList<BigInteger> registers, CycleAddress at)
    {
        var recorder = new Recorder<BigInteger>(n => n);
        var execution = Over(datapath, registers, recorder);
        execution.Take(CycleAt(datapath, at));
        return recorder.Rows[0];
    }

    /// <summary>
    /// Whether the loop goes on into the round that begins with this cycle, by what the registers hold before it; true where
    /// nothing is asked there.
    /// </summary>
    /// <inheritdoc cref="Of"/>
    public static bool GoesOn(Datapath datapath, IReadOnlyList<BigInteger> registers, CycleAddress at)
    {
        var execution = Over(datapath, registers, null);
        var cycle = CycleAt(datapath, at);
        return !cycle.AsksFirst || execution.GoesOn(cycle).IsOne;
    }

    private static Execution<BigInteger> Over(
        Datapath datapath,
        IReadOnlyList<BigInteger> registers,
        Recorder<BigInteger>? recorder
    )
    {
        var widths = datapath.Registers.Select(r => (r.Name, r.Width)).ToList();
        WordRange.Check(registers, widths, nameof(registers));
        var execution = new Execution<BigInteger>(new NumberWords([]), recorder);
        execution.Begin(registers);
        return execution;
    }

    private static Cycle CycleAt(Datapath datapath, CycleAddress at)
    {
        var found = Cycle.Of(datapath).Where(c => c.Address == at).Take(1).ToList();
        return found.Count > 0
            ? found[0]
            : throw new ArgumentException(
                $"the schedule has no step {at.Step} in round {at.Round} of loop {at.Repeat}",
                nameof(at)
            );
    }
}
