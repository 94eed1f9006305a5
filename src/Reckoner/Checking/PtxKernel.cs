using System.Numerics;

namespace Reckoner.Checking;

/// <summary>
/// A check as a kernel for graphics processors, in PTX, which the processor's own driver compiles. A thread has 32 lanes of a step,
/// and runs along a row of steps whose number is a power of two; threads beside each other have the other lanes of the same row.
/// </summary>
internal sealed class PtxKernel
{
    /// <summary>The name of its entry. Parameters, of 64 bits each: from, to, the address of the counts, that of the marks.</summary>
    public const string Entry = "check";

    /// <summary>Lanes of a thread: the bits of a register.</summary>
    private const int LaneBits = 5;

    /// <summary>So many threads keep all of a processor busy to the end.</summary>
    private const int BusyBits = 20;

    /// <summary>Longer rows save nothing more of setting an expectation anew, and make the shortest launch longer.</summary>
    private const int MostRowBits = 10;

    private PtxKernel(CaseSpace space, PlaneProgram program, PlaneProgram? start, int rowBits)
    {
        Space = space;
        Program = program;
        Start = start;
        RowBits = rowBits;
        Text = new PtxText(this).Text;
    }

    public static PtxKernel Of(CheckProgram check)
    {
        var busy = (int)BigInteger.Log2(check.Space.AllSteps) + WordBitsOf(check.Space) - BusyBits;
        var inARow = check.Start is null ? MostRowBits : BitOperations.Log2((ulong)check.Space.StepsInARow);
        return Of(check, Math.Clamp(busy, 0, Math.Min(MostRowBits, inARow)));
    }

    /// <param name="rowBits">The logarithm of the steps in a row; an expectation must be stepped along all of them.</param>
    public static PtxKernel Of(CheckProgram check, int rowBits) =>
        new(check.Space, check.Program, check.Start, rowBits);

    /// <summary>Counts the ones of each output of a program, two of which are a section, in rows of one step.</summary>
    public static PtxKernel Of(CaseSpace space, PlaneProgram program) => new(space, program, null, 0);

    public CaseSpace Space { get; }

    public PlaneProgram Program { get; }

    /// <summary>Gives the expectation its state at the beginning of a row; null where there is none.</summary>
    public PlaneProgram? Start { get; }

    public string Text { get; }

    public int RowBits { get; }

    /// <summary>The lanes of a step in words of 32.</summary>
    public int WordBits => WordBitsOf(Space);

    private static int WordBitsOf(CaseSpace space) => Math.Max(0, space.LaneBits - LaneBits);

    /// <summary>The lanes of a word that are cases.</summary>
    public uint LaneMask => Space.LaneBits >= LaneBits ? uint.MaxValue : (1U << Space.Lanes) - 1;

    public int Sections => Program.Outputs.Count / 2;

    /// <summary>Rows that steps from..to lie in, to not included.</summary>
    public int Rows(long from, long to) =>
        from >= to ? 0 : checked((int)(((to - 1) >> RowBits) - (from >> RowBits) + 1));

    /// <summary>Threads for so many rows.</summary>
    public long Threads(int rows) => (long)rows << WordBits;

    /// <summary>Words of 64 bits that a launch adds to: for every section its cases and its failures.</summary>
    public int CountWords => 2 * Sections;

    /// <summary>Bytes that a launch leaves: for each of its rows and every section a 1 where something fails.</summary>
    public int MarkBytes(int rows) => rows * Sections;
}
