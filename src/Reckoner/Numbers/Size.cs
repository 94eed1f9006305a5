using System.Globalization;

namespace Reckoner.Numbers;

/// <summary>A number of bits at the chosen widths, with the way it is spoken of: n + 1 = 5.</summary>
public sealed record Size(int Count, Linear Symbol)
{
    public static Size Of(int count) => new(count, Linear.Of(count));

    public static Size operator +(Size a, Size b) => new(a.Count + b.Count, a.Symbol + b.Symbol);

    public static Size operator -(Size a, Size b) => new(a.Count - b.Count, a.Symbol - b.Symbol);

    public override string ToString() =>
        Symbol.IsConstant
            ? Count.ToString(CultureInfo.InvariantCulture)
            : string.Create(CultureInfo.InvariantCulture, $"{Symbol} = {Count}");
}
