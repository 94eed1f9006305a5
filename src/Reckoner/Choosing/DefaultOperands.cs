using System.Numerics;
using Reckoner.Binding;
using Reckoner.Datapaths;
using Reckoner.Numbers;

namespace Reckoner.Choosing;

/// <summary>
/// Operands for a machine for which nobody has named any: a large first and small ones after it, since that shows something in
/// most machines; inside "given" if a few tries find such.
/// </summary>
internal static class DefaultOperands
{
    private const int MostTries = 12;

    /// <summary>Numbers as one would type them, in the order of the text.</summary>
    public static IReadOnlyList<string> Of(Datapath datapath)
    {
        var chosen = Tried(datapath, 0);
        for (var i = 0; i < MostTries && !datapath.IsGiven(chosen); i++)
        {
            chosen = Tried(datapath, i + 1);
        }
        if (!datapath.IsGiven(chosen))
        {
            chosen = OperandCorners.Crossed(datapath).LastOrDefault(datapath.IsGiven)?.ToList() ?? chosen;
        }
        return [.. datapath.Operands.Zip(chosen, (o, bits) => Bits.Text(o.Number(bits)))];
    }

    /// <summary>Each try halves the first operand: some machines take only quotients that fit.</summary>
    private static List<BigInteger> Tried(Datapath datapath, int halvings) =>
        [.. datapath.Operands.Select(o => o.Index == 0 ? Large(o) >> halvings : Small(o))];

    /// <summary>29 of 0 to 31, or the like.</summary>
    private static BigInteger Large(Operand operand)
    {
        var most = Bits.Mask(operand.IsSigned ? operand.Width - 1 : operand.Width);
        return most - (most >> 4) - (operand.Width > 2 ? 1 : 0);
    }

    /// <summary>6 of 0 to 31, or the like.</summary>
    private static BigInteger Small(Operand operand)
    {
        var most = Bits.Mask(operand.IsSigned ? operand.Width - 1 : operand.Width);
        return BigInteger.Max(BigInteger.Min(most, 1), most * 3 / 16 + 1);
    }
}
