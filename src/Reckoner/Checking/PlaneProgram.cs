namespace Reckoner.Checking;

/// <summary>One gate placed in memory: the slots it reads and the slot it writes.</summary>
public readonly record struct Instruction(byte Function, int A, int B, int C, int To);

/// <summary>
/// A gate list ready to run: the gates that the outputs need, in order, with slots of memory that are used again once nothing
/// more is read from them. Every back end runs this one list. Slot 0 holds zeros, then the inputs, which keep their slots.
/// </summary>
public sealed class PlaneProgram
{
    private PlaneProgram(int inputs, int slots, IReadOnlyList<Instruction> instructions, IReadOnlyList<Output> outputs)
    {
        Inputs = inputs;
        Slots = slots;
        Instructions = instructions;
        Outputs = outputs;
    }

    /// <summary>Where an output stands after a run; turned: its bits are to be turned over.</summary>
    public readonly record struct Output(int Slot, bool Turned);

    public int Inputs { get; }
    public int Slots { get; }
    public IReadOnlyList<Instruction> Instructions { get; }
    public IReadOnlyList<Output> Outputs { get; }

    public static int InputSlot(int input) => 1 + input;

    /// <param name="outputs">Literals of the graph, kept to the end of a run.</param>
    public static PlaneProgram Of(GateGraph graph, IReadOnlyList<int> outputs)
    {
        var gates = graph.Gates;
        var lastUse = LastUses(graph, outputs);
        var slotOf = new int[1 + graph.Inputs + gates.Count];
        for (var plane = 0; plane <= graph.Inputs; plane++)
        {
            slotOf[plane] = plane;
        }
        var free = new Stack<int>();
        var slots = 1 + graph.Inputs;
        var instructions = new List<Instruction>();
        for (var i = 0; i < gates.Count; i++)
        {
            var plane = graph.PlaneOf(i);
            if (lastUse[plane] < 0)
            {
                continue;
            }
            var gate = gates[i];
            foreach (var input in new[] { gate.A, gate.B, gate.C }.Distinct())
            {
                if (input > graph.Inputs && lastUse[input] == i)
                {
                    free.Push(slotOf[input]);
                }
            }
            slotOf[plane] = free.Count > 0 ? free.Pop() : slots++;
            instructions.Add(
                new Instruction(gate.Function, slotOf[gate.A], slotOf[gate.B], slotOf[gate.C], slotOf[plane])
            );
        }
        return new PlaneProgram(
            graph.Inputs,
            slots,
            instructions,
            [.. outputs.Select(o => new Output(slotOf[o >> 1], (o & 1) != 0))]
        );
    }

    /// <summary>For every plane the gate that reads it last; a plane that nothing needs has -1, an output never ends.</summary>
    private static int[] LastUses(GateGraph graph, IReadOnlyList<int> outputs)
    {
        var last = new int[1 + graph.Inputs + graph.Gates.Count];
        Array.Fill(last, -1);
        foreach (var output in outputs)
        {
            last[output >> 1] = int.MaxValue;
        }
        for (var i = graph.Gates.Count - 1; i >= 0; i--)
        {
            if (last[graph.PlaneOf(i)] >= 0)
            {
                var gate = graph.Gates[i];
                last[gate.A] = Math.Max(last[gate.A], i);
                last[gate.B] = Math.Max(last[gate.B], i);
                last[gate.C] = Math.Max(last[gate.C], i);
            }
        }
        return last;
    }
}
