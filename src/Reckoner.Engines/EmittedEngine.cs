using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using System.Runtime.Intrinsics.Arm;
using System.Runtime.Intrinsics.X86;
using Reckoner.Checking;

namespace Reckoner.Engines;

/// <summary>
/// Runs a program as machine code made for it: straight-line methods that keep values in registers while they are near. With
/// 512-bit vectors a gate is one instruction; narrower ones spell gates with AND, OR, XOR and AND-NOT, which every processor
/// has.
/// </summary>
public sealed class EmittedEngine : IPlaneEngine
{
    private readonly ConditionalWeakTable<PlaneProgram, IPlaneKernel> made = [];

    /// <param name="bits">Width of the vectors: 512, 256 or 128; <see cref="IsHere"/> must allow it.</param>
    public EmittedEngine(int bits)
    {
        if (!IsHere(bits))
        {
            throw new PlatformNotSupportedException($"no code for {bits}-bit vectors can be made here");
        }
        Bits = bits;
    }

    /// <summary>Width of the vectors.</summary>
    public int Bits { get; }

    public string Name => $"emitted code, {Bits} bits";

    /// <summary>Whether this machine has vectors of a width and its runtime compiles code made while it runs.</summary>
    public static bool IsHere(int bits) =>
        RuntimeFeature.IsDynamicCodeCompiled
        && bits switch
        {
            512 => Avx512F.IsSupported,
            256 => Vector256.IsHardwareAccelerated,
            128 => Vector128.IsHardwareAccelerated,
            _ => false,
        };

    /// <summary>
    /// Gates in a method. Short methods pass more values through memory; in methods much longer than these the compiler gives
    /// up optimising (about 8,000 mentions of locals), which is 25 times slower. Measured between 75 and 1,700.
    /// </summary>
    private int GatesInMethod => Bits == 512 ? 1000 : 400;

    /// <summary>The registers there are, less a few that are needed in passing.</summary>
    private int Locals =>
        Bits == 512 ? 32 - 2
        : Avx512F.VL.IsSupported || AdvSimd.IsSupported ? 32 - 4
        : 16 - 2;

    /// <summary>Made once for a program: its code keeps nothing, so that threads may share it.</summary>
    public IPlaneKernel Compile(PlaneProgram program)
    {
        lock (made)
        {
            return made.GetValue(program, Made);
        }
    }

    private Kernel Made(PlaneProgram program)
    {
        var values = new PlaneValues(program);
        var gates = values.Lookups.Count;
        var methods = (gates + GatesInMethod - 1) / GatesInMethod;
        var stretches = new Stretch[methods];
        for (var m = 0; m < methods; m++)
        {
            var (from, to) = (gates * m / methods, gates * (m + 1) / methods);
            var lookups = Bits == 512 ? values.Lookups.Take(from..to).ToList() : TwoInputs.Spelt(values, from, to);
            stretches[m] = StretchMethod.Of(Bits, StretchPlan.Of(values, from, to, lookups, Locals));
        }
        return new Kernel(program.Slots * PlaneMemory.Stride, stretches);
    }

    private sealed class Kernel(int words, Stretch[] stretches) : IPlaneKernel
    {
        public void Run(Span<ulong> memory)
        {
            ArgumentOutOfRangeException.ThrowIfLessThan(memory.Length, words);
            ref var start = ref MemoryMarshal.GetReference(memory);
            foreach (var stretch in stretches)
            {
                stretch(ref start);
            }
        }
    }
}
