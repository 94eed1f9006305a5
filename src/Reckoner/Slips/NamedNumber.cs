using System.Numerics;
using Reckoner.Conditions;
using Reckoner.Datapaths;
using Reckoner.Diagnostics;
using Reckoner.Numbers;

namespace Reckoner.Slips;

/// <summary>An operand or a result, and the numbers that its width makes special, written in that width: 2^(2n-1), 2^n - 1.</summary>
internal sealed record NamedNumber(string Name, Size Size, bool IsSigned)
{
    /// <summary>2^(width-1): half of what its bits can tell apart.</summary>
    public string HalfRange(Datapath datapath) => Power(datapath, Size - Size.Of(1));

    /// <summary>2^width - 1: all bits are 1.</summary>
    public string Largest(Datapath datapath) =>
        Written(datapath, Size) is null ? Bits.Text(Bits.Mask(Size.Count)) : $"{Power(datapath, Size)} - 1";

    private static string Power(Datapath datapath, Size exponent) =>
        Written(datapath, exponent) is not { } written ? Bits.Text(BigInteger.One << exponent.Count)
        : written.All(c => char.IsLetterOrDigit(c) || c == '_') && !char.IsAsciiDigit(written[0]) ? $"2^{written}"
        : $"2^({written})";

    /// <summary>
    /// A width as a formula in the machine's own names; null where it is a plain number, or is spoken of in names that are another
    /// machine's.
    /// </summary>
    private static string? Written(Datapath datapath, Size size)
    {
        if (size.Symbol.IsConstant)
        {
            return null;
        }
        var text = $"{size.Symbol}";
        var report = new Report(null);
        var formula = new ConditionFormulas(datapath, text, report).Number(new Span(0, text.Length));
        return formula?.Constant == size.Count ? text : null;
    }
}
