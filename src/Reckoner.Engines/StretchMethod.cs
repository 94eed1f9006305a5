using System.Reflection;
using System.Reflection.Emit;
using System.Runtime.Intrinsics;
using System.Runtime.Intrinsics.X86;
using Reckoner.Checking;

namespace Reckoner.Engines;

/// <summary>Machine code for a stretch of a program, run over every vector of the planes that begin at a word of memory.</summary>
internal delegate void Stretch(ref ulong memory);

/// <summary>Writes the code of a stretch: a loop over the vectors of a plane around its steps.</summary>
internal sealed class StretchMethod
{
    private readonly DynamicMethod method = new(
        "stretch",
        typeof(void),
        [typeof(ulong).MakeByRefType()],
        typeof(StretchMethod).Module,
        skipVisibility: true
    );
    private readonly ILGenerator code;
    private readonly Type vector;
    private readonly Type vectors;
    private readonly int bits;
    private readonly List<LocalBuilder> locals = [];
    private readonly Dictionary<string, MethodInfo> calls = [];
    private readonly LocalBuilder at;

    private StretchMethod(int bits)
    {
        this.bits = bits;
        code = method.GetILGenerator();
        (vector, vectors) = bits switch
        {
            512 => (typeof(Vector512<ulong>), typeof(Vector512)),
            256 => (typeof(Vector256<ulong>), typeof(Vector256)),
            _ => (typeof(Vector128<ulong>), typeof(Vector128)),
        };
        at = code.DeclareLocal(typeof(ulong).MakeByRefType());
    }

    public static Stretch Of(int bits, IReadOnlyList<PlanStep> steps)
    {
        var writer = new StretchMethod(bits);
        writer.Loop(steps);
        return writer.method.CreateDelegate<Stretch>();
    }

    private void Loop(IReadOnlyList<PlanStep> steps)
    {
        var end = code.DeclareLocal(typeof(ulong).MakeByRefType());
        code.Emit(OpCodes.Ldarg_0);
        code.Emit(OpCodes.Stloc, at);
        Forward(OpCodes.Ldarg_0, PlaneMemory.Words * sizeof(ulong));
        code.Emit(OpCodes.Stloc, end);
        var top = code.DefineLabel();
        code.MarkLabel(top);
        foreach (var step in steps)
        {
            Write(step);
        }
        code.Emit(OpCodes.Ldloc, at);
        code.Emit(OpCodes.Ldc_I4, bits / 8);
        code.Emit(OpCodes.Conv_I);
        code.Emit(OpCodes.Add);
        code.Emit(OpCodes.Stloc, at);
        code.Emit(OpCodes.Ldloc, at);
        code.Emit(OpCodes.Ldloc, end);
        code.Emit(OpCodes.Blt_Un, top);
        code.Emit(OpCodes.Ret);
    }

    private void Forward(OpCode pointer, int bytes)
    {
        code.Emit(pointer);
        code.Emit(OpCodes.Ldc_I4, bytes);
        code.Emit(OpCodes.Conv_I);
        code.Emit(OpCodes.Add);
    }

    private void Write(PlanStep step)
    {
        if (step.Local == PlanStep.Nowhere)
        {
            Address(step.Slot);
            Value(step);
            code.Emit(OpCodes.Stobj, vector);
            return;
        }
        Value(step);
        code.Emit(OpCodes.Stloc, Local(step.Local));
        if (step.Slot != PlanStep.Nowhere)
        {
            Address(step.Slot);
            code.Emit(OpCodes.Ldloc, Local(step.Local));
            code.Emit(OpCodes.Stobj, vector);
        }
    }

    private LocalBuilder Local(int index)
    {
        while (locals.Count <= index)
        {
            locals.Add(code.DeclareLocal(vector));
        }
        return locals[index];
    }

    private void Address(int slot)
    {
        code.Emit(OpCodes.Ldloc, at);
        code.Emit(OpCodes.Ldc_I4, slot * PlaneMemory.Stride * sizeof(ulong));
        code.Emit(OpCodes.Conv_I);
        code.Emit(OpCodes.Add);
    }

    private void Load(int place)
    {
        if (place >= 0)
        {
            code.Emit(OpCodes.Ldloc, Local(place));
            return;
        }
        Address(~place);
        code.Emit(OpCodes.Ldobj, vector);
    }

    private void Value(PlanStep step)
    {
        switch (step.Function)
        {
            case Lookup.Copy:
                Load(step.A);
                break;
            case Lookup.Not:
                Load(step.A);
                Call(nameof(Vector512.OnesComplement), 1);
                break;
            case Lookup.And:
                Two(nameof(Vector512.BitwiseAnd), step);
                break;
            case Lookup.AndNot:
                Two(nameof(Vector512.AndNot), step);
                break;
            case Lookup.Or:
                Two(nameof(Vector512.BitwiseOr), step);
                break;
            case Lookup.Xor:
                Two(nameof(Vector512.Xor), step);
                break;
            case 0x00:
                code.Emit(OpCodes.Call, vector.GetProperty("Zero")!.GetMethod!);
                break;
            case 0xFF:
                code.Emit(OpCodes.Call, vector.GetProperty("AllBitsSet")!.GetMethod!);
                break;
            default:
                Three(step);
                break;
        }
    }

    private void Two(string operation, PlanStep step)
    {
        Load(step.A);
        Load(step.B);
        Call(operation, 2);
    }

    private void Call(string operation, int inputs)
    {
        if (!calls.TryGetValue(operation, out var call))
        {
            call = vectors
                .GetMethods()
                .First(m => m.Name == operation && m.IsGenericMethod && m.GetParameters().Length == inputs)
                .MakeGenericMethod(typeof(ulong));
            calls.Add(operation, call);
        }
        code.Emit(OpCodes.Call, call);
    }

    private static readonly MethodInfo TernaryLogic = typeof(Avx512F).GetMethod(
        nameof(Avx512F.TernaryLogic),
        [typeof(Vector512<ulong>), typeof(Vector512<ulong>), typeof(Vector512<ulong>), typeof(byte)]
    )!;

    /// <summary>
    /// The instruction overwrites its first input and can read its last one from memory: whatever may be overwritten comes
    /// first, what lies in memory last, and the function follows.
    /// </summary>
    private void Three(PlanStep step)
    {
        // An input that makes no difference may be anything that is at hand.
        int[] places = [step.A, step.B, step.C];
        var present = Array.Find(places, place => place != PlanStep.Nowhere);
        places = [.. places.Select(place => place == PlanStep.Nowhere ? present : place)];
        var function = step.Function;
        int Rank(int place) =>
            place < 0 ? 2
            : place == step.Local ? 0
            : 1;
        if (Rank(places[0]) > Rank(places[1]))
        {
            (places[0], places[1], function) = (places[1], places[0], GateGraph.FirstTwoExchanged(function));
        }
        if (Rank(places[1]) > Rank(places[2]))
        {
            (places[1], places[2], function) = (places[2], places[1], GateGraph.LastTwoExchanged(function));
        }
        if (Rank(places[0]) > Rank(places[1]))
        {
            (places[0], places[1], function) = (places[1], places[0], GateGraph.FirstTwoExchanged(function));
        }
        foreach (var place in places)
        {
            Load(place);
        }
        code.Emit(OpCodes.Ldc_I4, (int)function);
        code.Emit(OpCodes.Call, TernaryLogic);
    }
}
