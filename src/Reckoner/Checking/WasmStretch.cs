namespace Reckoner.Checking;

/// <summary>Writes the functions of a module: stretches of a program as loops over the vectors of a plane, and their callers.</summary>
internal static class WasmStretch
{
    /// <summary>Gates in a function, and values kept in locals: engines have 15 registers or so to keep them in. Measured.</summary>
    private const int GatesInFunction = 100;
    private const int Locals = 14;

    private const int VectorBytes = 16;
    private const int WordBytes = 8;
    private const byte NoResult = 0x40;

    /// <summary>Local 0 is the address within the planes; the values follow.</summary>
    private const int At = 0;

    public static IEnumerable<WasmCode> Of(PlaneProgram program)
    {
        var values = new PlaneValues(program);
        var gates = values.Lookups.Count;
        var functions = (gates + GatesInFunction - 1) / GatesInFunction;
        for (var f = 0; f < functions; f++)
        {
            var (from, to) = (gates * f / functions, gates * (f + 1) / functions);
            yield return Loop(StretchPlan.Of(values, from, to, TwoInputs.Spelt(values, from, to), Locals));
        }
    }

    private static WasmCode Loop(IReadOnlyList<PlanStep> steps)
    {
        // Groups of locals: one address, then the vectors.
        var code = new WasmCode().Number(2).Number(1).Bytes([WasmCode.I32]).Number(Locals).Bytes([WasmCode.V128]);
        code.Instruction(WasmOperation.Loop).Bytes([NoResult]);
        foreach (var step in steps)
        {
            Write(code, step);
        }
        Forward(code, VectorBytes);
        code.Constant(PlaneMemory.Words * WordBytes).Instruction(WasmOperation.I32LessUnsigned);
        return code.Instruction(WasmOperation.BranchIf, 0)
            .Instruction(WasmOperation.End)
            .Instruction(WasmOperation.End);
    }

    /// <summary>Moves the address on and leaves it on the stack.</summary>
    private static void Forward(WasmCode code, int bytes) =>
        code.Instruction(WasmOperation.LocalGet, At)
            .Constant(bytes)
            .Instruction(WasmOperation.I32Add)
            .Instruction(WasmOperation.LocalTee, At);

    private static void Write(WasmCode code, PlanStep step)
    {
        if (step.Slot != PlanStep.Nowhere)
        {
            code.Instruction(WasmOperation.LocalGet, At);
        }
        Value(code, step);
        if (step.Local != PlanStep.Nowhere)
        {
            code.Instruction(
                step.Slot == PlanStep.Nowhere ? WasmOperation.LocalSet : WasmOperation.LocalTee,
                1 + step.Local
            );
        }
        if (step.Slot != PlanStep.Nowhere)
        {
            code.Vector(WasmVector.Store, step.Slot * WasmModule.Stride);
        }
    }

    private static void Value(WasmCode code, PlanStep step)
    {
        if (step.Function is 0x00 or 0xFF)
        {
            Span<byte> constant = stackalloc byte[VectorBytes];
            constant.Fill(step.Function);
            code.Vector(WasmVector.Constant).Bytes(constant);
            return;
        }
        Load(code, step.A);
        if (step.B != PlanStep.Nowhere)
        {
            Load(code, step.B);
        }
        if (step.Function != Lookup.Copy)
        {
            code.Vector(
                step.Function switch
                {
                    Lookup.Not => WasmVector.Not,
                    Lookup.And => WasmVector.And,
                    Lookup.AndNot => WasmVector.AndNot,
                    Lookup.Or => WasmVector.Or,
                    Lookup.Xor => WasmVector.Xor,
                    _ => throw new InvalidOperationException($"{step.Function:X2} has more than two inputs"),
                }
            );
        }
    }

    private static void Load(WasmCode code, int place)
    {
        if (place >= 0)
        {
            code.Instruction(WasmOperation.LocalGet, 1 + place);
            return;
        }
        code.Instruction(WasmOperation.LocalGet, At).Vector(WasmVector.Load, ~place * WasmModule.Stride);
    }

    public static WasmCode Calls(int first, int count)
    {
        var code = new WasmCode().Number(0);
        for (var f = first; f < first + count; f++)
        {
            code.Instruction(WasmOperation.Call, f);
        }
        return code.Instruction(WasmOperation.End);
    }

    /// <summary>Counts ones from an address (argument 0) to another (argument 1); local 2 is the sum.</summary>
    public static WasmCode Ones()
    {
        const int end = 1;
        const int sum = 2;
        const int words = 3;
        var code = new WasmCode().Number(1).Number(1).Bytes([WasmCode.I32]);
        code.Instruction(WasmOperation.Loop).Bytes([NoResult]);
        code.Instruction(WasmOperation.LocalGet, At).Instruction(WasmOperation.I64Load).Number(words).Number(0);
        code.Instruction(WasmOperation.I64PopulationCount).Instruction(WasmOperation.I32WrapI64);
        code.Instruction(WasmOperation.LocalGet, sum).Instruction(WasmOperation.I32Add);
        code.Instruction(WasmOperation.LocalSet, sum);
        Forward(code, WordBytes);
        code.Instruction(WasmOperation.LocalGet, end).Instruction(WasmOperation.I32LessUnsigned);
        code.Instruction(WasmOperation.BranchIf, 0).Instruction(WasmOperation.End);
        return code.Instruction(WasmOperation.LocalGet, sum).Instruction(WasmOperation.End);
    }
}
