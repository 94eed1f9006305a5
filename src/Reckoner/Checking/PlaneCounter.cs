using System.Numerics;

namespace Reckoner.Checking;

/// <summary>Counts, over all operands, the cases in which each output of a program is 1.</summary>
internal sealed class PlaneCounter(PlaneProgram program, CaseSpace space, IPlaneEngine engine)
{
    /// <param name="covered">Told the number of steps covered so far.</param>
    /// <param name="stop">Gives up, since counts of less than everything answer nothing.</param>
    public BigInteger[] Count(Action<long>? covered = null, CancellationToken stop = default)
    {
        var sweep = new PlaneSweep(program, space, engine);
        var counts = new BigInteger[program.Outputs.Count];
        for (long step = 0; step < space.Steps; step++)
        {
            sweep.Set(step);
            sweep.Run();
            for (var o = 0; o < counts.Length; o++)
            {
                counts[o] += Ones(sweep.Plane(program.Outputs[o].Slot), program.Outputs[o].Turned);
            }
            if ((step & 255) == 255)
            {
                stop.ThrowIfCancellationRequested();
                covered?.Invoke(step + 1);
            }
        }
        return counts;
    }

    private int Ones(ReadOnlySpan<ulong> plane, bool isTurned)
    {
        var ones = 0;
        for (var w = 0; w < plane.Length && 64 * w < space.Lanes; w++)
        {
            var used = space.Lanes - 64 * w >= 64 ? ulong.MaxValue : (1UL << (space.Lanes - 64 * w)) - 1;
            ones += BitOperations.PopCount((isTurned ? ~plane[w] : plane[w]) & used);
        }
        return ones;
    }
}
