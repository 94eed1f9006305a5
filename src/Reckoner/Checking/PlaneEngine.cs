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
    /// Runs all instructions once over <see cref="PlaneMemory.Lanes"/> cases. The memory holds
    /// <see cref="PlaneProgram.Slots"/> slots of <see cref="PlaneMemory.Words"/> words; inputs are set, slot 0 is zeros.
    /// </summary>
    void Run(Span<ulong> memory);
}

/// <summary>The measures of a plane in memory: so many cases at once that a program's planes stay near the processor.</summary>
public static class PlaneMemory
{
    public const int LaneBits = 12;
    public const int Lanes = 1 << LaneBits;
    public const int Words = Lanes / 64;
}
