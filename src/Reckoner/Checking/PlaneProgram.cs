namespace Reckoner.Checking;

/// <summary>One gate placed in memory: the slots it reads and the slot it writes.</summary>
public readonly record struct Instruction(byte Function, int A, int B, int C, int To);

/// <summary>
/// A gate list ready to run: the gates that the outputs need, in order, with slots of memory that are used again once nothing
/// more is read from them. Every back end runs this one list. Slot 0 holds zeros, then the inputs, which keep their slots.
/// Some of the last inputs may be state: a run leaves in their slots what they are to be in the next run.
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
    public static PlaneProgram Of(GateGraph graph, IReadOnlyList<int> outputs) => Of(graph, outputs, []);

    /// <param name="next">What the last inputs become for the next run, in their order.</param>
    public static PlaneProgram Of(GateGraph graph, IReadOnlyList<int> outputs, IReadOnlyList<int> next) =>
        new PlanePlacement(graph, outputs, next).Program();

    internal static PlaneProgram Of(
        int inputs,
        int slots,
        IReadOnlyList<Instruction> instructions,
        IReadOnlyList<Output> outputs
    ) => new(inputs, slots, instructions, outputs);

    /// <summary>The same program with another function in one place: a fault.</summary>
    public PlaneProgram With(int instruction, byte function) =>
        new(
            Inputs,
            Slots,
            [.. Instructions.Select((x, i) => i == instruction ? x with { Function = function } : x)],
            Outputs
        );
}
