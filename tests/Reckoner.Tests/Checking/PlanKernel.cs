using Reckoner.Checking;

namespace Reckoner.Tests.Checking;

/// <summary>Executes the plans that writers of code are given, one word of a plane after another.</summary>
internal sealed class PlanKernel : IPlaneKernel
{
    private readonly List<IReadOnlyList<PlanStep>> stretches = [];
    private readonly ulong[] locals;

    public PlanKernel(PlaneProgram program, int locals, int gates, bool twoInputs)
    {
        this.locals = new ulong[locals];
        var values = new PlaneValues(program);
        for (var from = 0; from < values.Lookups.Count; from += gates)
        {
            var to = Math.Min(values.Lookups.Count, from + gates);
            IReadOnlyList<Lookup> lookups = twoInputs
                ? TwoInputs.Spelt(values, from, to)
                : [.. values.Lookups.Take(from..to)];
            stretches.Add(StretchPlan.Of(values, from, to, lookups, locals));
        }
    }

    public IEnumerable<PlanStep> Steps => stretches.SelectMany(s => s);

    public void Run(Span<ulong> memory)
    {
        foreach (var stretch in stretches)
        {
            for (var word = 0; word < PlaneMemory.Words; word++)
            {
                // What a stretch does not put into a local itself must not matter.
                Array.Fill(locals, 0xDEAD_BEEF_DEAD_BEEFUL);
                foreach (var step in stretch)
                {
                    Take(step, memory, word);
                }
            }
        }
    }

    private void Take(PlanStep step, Span<ulong> memory, int word)
    {
        var (a, b, c) = (Read(step.A, memory, word), Read(step.B, memory, word), Read(step.C, memory, word));
        var value = 0UL;
        for (var row = 0; row < 8; row++)
        {
            if (((step.Function >> row) & 1) != 0)
            {
                value |= ((row & 4) != 0 ? a : ~a) & ((row & 2) != 0 ? b : ~b) & ((row & 1) != 0 ? c : ~c);
            }
        }
        if (step.Local != PlanStep.Nowhere)
        {
            locals[step.Local] = value;
        }
        if (step.Slot != PlanStep.Nowhere)
        {
            memory[step.Slot * PlaneMemory.Stride + word] = value;
        }
    }

    private ulong Read(int place, Span<ulong> memory, int word) =>
        place == PlanStep.Nowhere ? 0
        : place >= 0 ? locals[place]
        : memory[~place * PlaneMemory.Stride + word];
}
