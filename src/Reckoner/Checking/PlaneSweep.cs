namespace Reckoner.Checking;

/// <summary>
/// Runs a program step by step over every case; here alone a step's operands are put into planes. The memory belongs to it: one
/// sweep per thread.
/// </summary>
internal sealed class PlaneSweep
{
    private readonly IPlaneKernel kernel;
    private readonly (int Slot, int Bit)[] stepped;
    private long last = -1;

    /// <param name="slots">Room for so many planes at least.</param>
    public PlaneSweep(PlaneProgram program, CaseSpace space, IPlaneEngine engine, int slots = 0)
    {
        kernel = engine.Compile(program);
        Memory = PlaneMemory.For(Math.Max(program.Slots, slots));
        var inputs = space
            .Inputs.Select((place, i) => (place.Axis, place.Index, Slot: PlaneProgram.InputSlot(i)))
            .ToList();
        stepped = [.. inputs.Where(i => i.Axis == CaseAxis.Step).Select(i => (i.Slot, i.Index))];
        foreach (var (axis, index, slot) in inputs)
        {
            if (axis == CaseAxis.Lane)
            {
                CaseSpace.FillLane(index, Plane(slot));
            }
            else if (axis == CaseAxis.Fixed)
            {
                Plane(slot).Fill(index != 0 ? ulong.MaxValue : 0);
            }
        }
    }

    public Memory<ulong> Memory { get; }

    public Span<ulong> Plane(int slot) => PlaneMemory.Plane(Memory, slot);

    /// <summary>Forgets which step was set last, since other operands were put into the planes.</summary>
    public void Begin() => last = -1;

    /// <summary>Sets the operands of a step; only bits are touched that differ from those of the step before.</summary>
    public void Set(long step)
    {
        var changed = last < 0 ? -1 : step ^ last;
        last = step;
        foreach (var (slot, bit) in stepped)
        {
            if (((changed >> bit) & 1) != 0)
            {
                Plane(slot).Fill(((step >> bit) & 1) != 0 ? ulong.MaxValue : 0);
            }
        }
    }

    /// <summary>Runs the program on what stands in the planes.</summary>
    public void Run() => kernel.Run(Memory.Span);
}
