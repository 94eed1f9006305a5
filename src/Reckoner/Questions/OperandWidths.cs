using System.Numerics;
using Reckoner.Binding;
using Reckoner.Datapaths;
using Reckoner.Notation;
using Reckoner.Numbers;

namespace Reckoner.Questions;

/// <summary>How many bits a machine's operands have, before the machine is built.</summary>
internal static class OperandWidths
{
    private const int MostTried = 64;

    /// <summary>The largest main width at which all operands together have no more bits; null where there is none.</summary>
    public static BigInteger? Largest(IMachine machine, IReadOnlyDictionary<string, BigInteger> others, int bits)
    {
        if (machine.Widths.FirstOrDefault() is not { } main)
        {
            return null;
        }
        var none = new Dictionary<string, Rational>();
        if (
            FormulaBinding.Number(main.Low, none) is not { IsWhole: true } low
            || FormulaBinding.Number(main.High, none) is not { IsWhole: true } high
        )
        {
            return null;
        }
        BigInteger? largest = null;
        for (var width = low.Numerator; width <= high.Numerator && width < low.Numerator + MostTried; width++)
        {
            if (Bits(machine, others, main, width) is not { } needed || needed > bits)
            {
                break;
            }
            largest = width;
        }
        return largest;
    }

    private static Rational? Bits(
        IMachine machine,
        IReadOnlyDictionary<string, BigInteger> others,
        WidthLine main,
        BigInteger width
    )
    {
        var numbers = new Dictionary<string, Rational> { [main.Name.Text] = width };
        foreach (var line in machine.Widths.Skip(1))
        {
            if (others.TryGetValue(line.Name.Text, out var set))
            {
                numbers[line.Name.Text] = set;
            }
            else if (FormulaBinding.Number(line.Default, numbers) is { } usual)
            {
                numbers[line.Name.Text] = usual;
            }
        }
        Rational sum = 0;
        foreach (var operand in machine.Description.Declarations.OfType<OperandLine>())
        {
            if (FormulaBinding.Number(operand.Type.Width, numbers) is not { } bits)
            {
                return null;
            }
            sum += bits;
        }
        return sum;
    }
}
