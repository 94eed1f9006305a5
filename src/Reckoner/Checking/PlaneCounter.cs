using System.Numerics;

namespace Reckoner.Checking;

/// <summary>Counts, over all operands, the cases in which each output of a program is 1.</summary>
public sealed class PlaneCounter(PlaneProgram program, CaseSpace space, IPlaneEngine engine)
{
    /// <param name="covered">Told the number of steps covered so far.</param>
    /// <param name="stop">Gives up, since counts of less than everything answer nothing.</param>
    public BigInteger[] Count(Action<long>? covered = null, CancellationToken stop = default)
    {
        var kernel = engine.Compile(program);
        var memory = PlaneMemory.For(program.Slots);
        var inputs = space.Inputs.ToList();
        for (var i = 0; i < inputs.Count; i++)
        {
            if (inputs[i].IsLane)
            {
                CaseSpace.FillLane(inputs[i].Index, PlaneMemory.Plane(memory, PlaneProgram.InputSlot(i)));
            }
        }
        var counts = new BigInteger[program.Outputs.Count];
        for (long step = 0; step < space.Steps; step++)
        {
            for (var i = 0; i < inputs.Count; i++)
            {
                if (!inputs[i].IsLane)
                {
                    PlaneMemory
                        .Plane(memory, PlaneProgram.InputSlot(i))
                        .Fill(((step >> inputs[i].Index) & 1) != 0 ? ulong.MaxValue : 0);
                }
            }
            kernel.Run(memory.Span);
            for (var o = 0; o < counts.Length; o++)
            {
                counts[o] += Ones(memory, program.Outputs[o]);
            }
            if ((step & 255) == 255)
            {
                stop.ThrowIfCancellationRequested();
                covered?.Invoke(step + 1);
            }
        }
        return counts;
    }

    private int Ones(Memory<ulong> memory, PlaneProgram.Output output)
    {
        var plane = PlaneMemory.Plane(memory, output.Slot);
        var ones = 0;
        for (var w = 0; w < plane.Length && 64 * w < space.Lanes; w++)
        {
            var used = space.Lanes - 64 * w >= 64 ? ulong.MaxValue : (1UL << (space.Lanes - 64 * w)) - 1;
            ones += BitOperations.PopCount((output.Turned ? ~plane[w] : plane[w]) & used);
        }
        return ones;
    }
}
