using System.Numerics;

namespace Reckoner.Numbers;

/// <summary>Widths and parameters as they are spoken of: "n = 8, m = 4".</summary>
internal static class WidthText
{
    public static string Of(IEnumerable<(string Name, BigInteger Value)> widths) =>
        string.Join(", ", widths.Select(w => $"{w.Name} = {Bits.Text(w.Value)}"));
}
