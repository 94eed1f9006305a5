namespace Reckoner.Checking;

/// <summary>
/// Gives every gate that is needed a slot of memory. Needs a graph, the literals that count and those that become state; leaves
/// a program. State is written straight into its slot where its old value has been read for the last time, and else moved there
/// at the end.
/// </summary>
internal sealed class PlanePlacement
{
    private const byte Copy = 0xF0;
    private const byte TurnedCopy = 0x0F;
    private const int Never = -1;
    private const int Always = int.MaxValue;

    private readonly GateGraph graph;
    private readonly IReadOnlyList<Gate> gates;
    private readonly IReadOnlyList<int> outputs;
    private readonly IReadOnlyList<int> next;
    private readonly int[] lastUse;
    private readonly int[] uses;
    private readonly int[] slotOf;
    private readonly int[] stateOf;
    private readonly Stack<int> free = [];
    private readonly List<Instruction> instructions = [];
    private int slots;

    public PlanePlacement(GateGraph graph, IReadOnlyList<int> outputs, IReadOnlyList<int> next)
    {
        this.graph = graph;
        gates = GatePacking.Packed(graph, outputs.Concat(next));
        this.outputs = outputs;
        this.next = next;
        var planes = 1 + graph.Inputs + gates.Count;
        lastUse = new int[planes];
        uses = new int[planes];
        slotOf = new int[planes];
        stateOf = new int[planes];
        Array.Fill(lastUse, Never);
        Array.Fill(stateOf, Never);
        slots = 1 + graph.Inputs;
        for (var plane = 0; plane < slots; plane++)
        {
            slotOf[plane] = plane;
        }
    }

    public PlaneProgram Program()
    {
        FindUses();
        FindPlacesOfState();
        for (var i = 0; i < gates.Count; i++)
        {
            if (lastUse[graph.PlaneOf(i)] != Never)
            {
                Place(i);
            }
        }
        var answers = outputs.Select(o => new PlaneProgram.Output(Aside(o >> 1), (o & 1) != 0)).ToList();
        MoveState();
        return PlaneProgram.Of(graph.Inputs, slots, instructions, answers);
    }

    private int StatePlane(int index) => 1 + graph.Inputs - next.Count + index;

    /// <summary>For every plane the gate that reads it last and how many read it; what nothing needs is left out.</summary>
    private void FindUses()
    {
        foreach (var literal in outputs.Concat(next))
        {
            lastUse[literal >> 1] = Always;
            uses[literal >> 1]++;
        }
        for (var i = gates.Count - 1; i >= 0; i--)
        {
            if (lastUse[graph.PlaneOf(i)] == Never)
            {
                continue;
            }
            foreach (var input in Inputs(gates[i]))
            {
                lastUse[input] = Math.Max(lastUse[input], i);
                uses[input]++;
            }
        }
    }

    private static IEnumerable<int> Inputs(Gate gate) => new[] { gate.A, gate.B, gate.C }.Distinct();

    /// <summary>Gates that may write a state's slot themselves: nothing reads the old state after them.</summary>
    private void FindPlacesOfState()
    {
        for (var s = 0; s < next.Count; s++)
        {
            var plane = next[s] >> 1;
            var gate = plane - 1 - graph.Inputs;
            var isOnlyThis = (next[s] & 1) == 0 || uses[plane] == 1;
            if (gate >= 0 && isOnlyThis && stateOf[plane] == Never && lastUse[StatePlane(s)] <= gate)
            {
                stateOf[plane] = s;
            }
        }
    }

    private void Place(int index)
    {
        var plane = graph.PlaneOf(index);
        var gate = gates[index];
        var (a, b, c) = (slotOf[gate.A], slotOf[gate.B], slotOf[gate.C]);
        foreach (var input in Inputs(gate))
        {
            if (input > graph.Inputs && lastUse[input] == index)
            {
                free.Push(slotOf[input]);
            }
        }
        var state = stateOf[plane];
        slotOf[plane] =
            state != Never ? StatePlane(state)
            : free.Count > 0 ? free.Pop()
            : slots++;
        var function = state != Never && (next[state] & 1) != 0 ? (byte)~gate.Function : gate.Function;
        instructions.Add(new Instruction(function, a, b, c, slotOf[plane]));
    }

    /// <summary>
    /// Where a plane stands at the end. State that is wanted as it was, as an answer or as the next value of another, is put
    /// aside: its slot may be written before it is read.
    /// </summary>
    private int Aside(int plane)
    {
        if (plane < StatePlane(0) || plane > graph.Inputs)
        {
            return slotOf[plane];
        }
        var slot = slots++;
        instructions.Add(new Instruction(Copy, slotOf[plane], 0, 0, slot));
        return slot;
    }

    private void MoveState()
    {
        var moves = new List<Instruction>();
        for (var s = 0; s < next.Count; s++)
        {
            var plane = next[s] >> 1;
            if (stateOf[plane] == s || (plane == StatePlane(s) && (next[s] & 1) == 0))
            {
                continue;
            }
            var function = (next[s] & 1) != 0 ? TurnedCopy : Copy;
            moves.Add(new Instruction(function, Aside(plane), 0, 0, StatePlane(s)));
        }
        instructions.AddRange(moves);
    }
}
