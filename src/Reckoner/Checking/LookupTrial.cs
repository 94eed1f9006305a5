using Reckoner.Datapaths;
using Reckoner.Numbers;

namespace Reckoner.Checking;

/// <summary>
/// Every lookup that there is, tried on a processor before it is believed: a word of 8 bits runs over all its numbers, and the
/// place of its highest one, 0 to 7, goes into the lookup. Place k comes up in 2^k numbers, so that the lookup of function f gives
/// f ones: a function that is taken for another is seen by the number alone.
/// </summary>
internal static class LookupTrial
{
    private const int Functions = 256;
    private const int Bits = 8;

    private const byte Or = 0xFE;
    private const byte Choose = 0xCA;

    /// <summary>a, or c without b.</summary>
    private const byte OrWithout = 0xF2;

    public static PtxKernel Kernel { get; } = PtxKernel.Of(Space(), Program());

    private static CaseSpace Space() => new([new Operand("number", null, Size.Of(Bits), IsSigned: false, 0)]);

    private static PlaneProgram Program()
    {
        var instructions = new List<Instruction>();
        int Make(byte function, int a, int b, int c)
        {
            instructions.Add(new Instruction(function, a, b, c, 1 + Bits + instructions.Count));
            return instructions[^1].To;
        }
        int Bit(int index) => PlaneProgram.InputSlot(index);
        var upper = Make(Or, Make(Or, Bit(7), Bit(6), Bit(5)), Bit(4), 0);
        var some = Make(Or, Make(Or, upper, Bit(3), Bit(2)), Bit(1), Bit(0));
        var middle = Make(Choose, upper, Make(Or, Bit(7), Bit(6), 0), Make(Or, Bit(3), Bit(2), 0));
        var odd = Bit(1);
        for (var bit = 2; bit < Bits; bit += 2)
        {
            odd = Make(OrWithout, Bit(bit + 1), Bit(bit), odd);
        }
        var outputs = Enumerable
            .Range(0, Functions)
            .Select(f => Make(Lookup.And, Make((byte)f, upper, middle, odd), some, 0))
            .Select(slot => new PlaneProgram.Output(slot, Turned: false));
        List<PlaneProgram.Output> answers = [.. outputs];
        return PlaneProgram.Of(Bits, 1 + Bits + instructions.Count, instructions, answers);
    }

    /// <param name="counts">What the kernel counted over all its steps.</param>
    /// <param name="marks">What it marked.</param>
    public static bool IsRight(ReadOnlySpan<ulong> counts, ReadOnlySpan<byte> marks)
    {
        for (var f = 0; f < Functions; f++)
        {
            if (counts[f] != (ulong)f || marks[f / 2] != 1)
            {
                return false;
            }
        }
        return true;
    }
}
