namespace Reckoner.Tests;

/// <summary>A width as it is written: so many bits, and so many times each of two symbols.</summary>
internal readonly record struct WidthForm(int Bits, int N = 0, int M = 0)
{
    public static readonly WidthForm One = new(1);

    public bool IsFixed => (N, M) == (0, 0);

    public int At(int n, int m) => Bits + N * n + M * m;

    public static implicit operator WidthForm(int bits) => new(bits);

    public static WidthForm operator +(WidthForm a, WidthForm b) => new(a.Bits + b.Bits, a.N + b.N, a.M + b.M);

    public static WidthForm operator -(WidthForm a, WidthForm b) => new(a.Bits - b.Bits, a.N - b.N, a.M - b.M);

    /// <summary>As a formula, the symbols first: "2n + m - 1".</summary>
    public override string ToString()
    {
        var terms = new[] { Term(N, "n"), Term(M, "m"), Bits == 0 ? "" : $"{Bits}" };
        var text = string.Join(" + ", terms.Where(t => t.Length > 0)).Replace("+ -", "- ");
        return text.Length == 0 ? "0" : text;
    }

    private static string Term(int count, string symbol) =>
        count switch
        {
            0 => "",
            1 => symbol,
            -1 => $"0 - {symbol}",
            _ => $"{count}{symbol}",
        };
}
