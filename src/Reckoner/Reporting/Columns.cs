using System.Numerics;
using Reckoner.Datapaths;
using Reckoner.Numbers;

namespace Reckoner.Reporting;

/// <summary>How a register's bits are cut for reading: at the ends of its parts, so that parts stand visibly apart.</summary>
internal static class Columns
{
    /// <summary>The lowest places of the pieces, from the top down; the last is 0.</summary>
    public static IReadOnlyList<int> Cuts(Register register)
    {
        var cuts = new SortedSet<int> { 0 };
        foreach (var part in register.Parts)
        {
            cuts.Add(part.Low);
            if (part.High + 1 < register.Width)
            {
                cuts.Add(part.High + 1);
            }
        }
        return [.. cuts.Reverse()];
    }

    /// <summary>The pieces of a register's bits, most significant first.</summary>
    public static IReadOnlyList<string> Pieces(Register register, BigInteger bits)
    {
        var text = Bits.Text(bits, register.Width);
        var pieces = new List<string>();
        var top = register.Width;
        foreach (var low in Cuts(register))
        {
            pieces.Add(text[(register.Width - top)..(register.Width - low)]);
            top = low;
        }
        return pieces;
    }

    public static string Text(Register register, BigInteger bits) => string.Join(' ', Pieces(register, bits));

    public static int Width(Register register) => register.Width + Cuts(register).Count - 1;
}
