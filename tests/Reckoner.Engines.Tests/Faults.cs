using Reckoner.Checking;

namespace Reckoner.Engines.Tests;

/// <summary>All faults of one gate that are tried: it gives always 0, the contrary, or takes one of its inputs for 0.</summary>
internal static class Faults
{
    public static IEnumerable<byte> Of(byte function)
    {
        byte[] faults =
        [
            0,
            (byte)~function,
            (byte)((function & 0x0F) | ((function & 0x0F) << 4)),
            (byte)((function & 0x33) | ((function & 0x33) << 2)),
            (byte)((function & 0x55) | ((function & 0x55) << 1)),
        ];
        return faults.Distinct().Where(f => f != function);
    }

    /// <summary>A check with each fault of each gate of its program in turn.</summary>
    public static IEnumerable<CheckProgram> Of(CheckProgram check) =>
        check.Program.Instructions.SelectMany(
            (instruction, i) => Of(instruction.Function).Select(f => check.With(check.Program.With(i, f)))
        );
}
