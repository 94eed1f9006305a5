using System.Numerics;
using System.Runtime.InteropServices;

namespace Reckoner.Checking;

/// <summary>A way to run plane programs.</summary>
public interface IPlaneEngine
{
    /// <summary>A short name for reports, such as "interpreted, 512 bits".</summary>
    string Name { get; }

    IPlaneKernel Compile(PlaneProgram program);
}

/// <summary>A program ready to run on one block of memory; not to be shared between threads.</summary>
public interface IPlaneKernel
{
    /// <summary>
    /// Runs all instructions once over <see cref="PlaneMemory.Lanes"/> cases. The memory is one of
    /// <see cref="PlaneMemory.For"/>; inputs are set, slot 0 is zeros.
    /// </summary>
    void Run(Span<ulong> memory);
}

/// <summary>The measures of a plane in memory: so many cases at once that a program's planes stay near the processor.</summary>
internal static class PlaneMemory
{
    public const int LaneBits = 12;
    public const int Lanes = 1 << LaneBits;
    public const int Words = Lanes / 64;

    /// <summary>Words from one plane to the next: a cache line more, since planes a power of two apart share few of its sets.</summary>
    public const int Stride = Words + 8;

    private const int LineBytes = 64;

    /// <summary>Zeros for the slots of programs, not to be moved, on the border of a cache line: a vector then never spans two.</summary>
    public static Memory<ulong> For(int slots)
    {
        var words = slots * Stride;
        var array = GC.AllocateArray<ulong>(words + LineBytes / sizeof(ulong), pinned: true);
        var beyond = (int)(Marshal.UnsafeAddrOfPinnedArrayElement(array, 0) % LineBytes);
        return array.AsMemory((LineBytes - beyond) % LineBytes / sizeof(ulong), words);
    }

    public static Span<ulong> Plane(Memory<ulong> memory, int slot) => memory.Span.Slice(slot * Stride, Words);

    /// <summary>The lanes that are 1 in the words of a plane.</summary>
    internal static List<int> Ones(ReadOnlySpan<ulong> words)
    {
        var lanes = new List<int>();
        for (var w = 0; w < words.Length; w++)
        {
            for (var left = words[w]; left != 0; left &= left - 1)
            {
                lanes.Add(64 * w + BitOperations.TrailingZeroCount(left));
            }
        }
        return lanes;
    }
}
