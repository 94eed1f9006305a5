using System.Globalization;

namespace Reckoner.Proving;

/// <summary>
/// A place, a width or a count at every width at once: <paramref name="N"/> * n + <paramref name="I"/> * i +
/// <paramref name="Constant"/>, n the main width and i the rounds done.
/// </summary>
internal sealed record Extent(int N, int I, int Constant)
{
    public static readonly Extent Zero = new(0, 0, 0);
    public static readonly Extent Rounds = new(0, 1, 0);

    public static implicit operator Extent(int constant) => new(0, 0, constant);

    public bool IsConstant => N == 0 && I == 0;

    public static Extent operator +(Extent a, Extent b) => new(a.N + b.N, a.I + b.I, a.Constant + b.Constant);

    public static Extent operator -(Extent a, Extent b) => new(a.N - b.N, a.I - b.I, a.Constant - b.Constant);

    public static Extent operator -(Extent a) => new(-a.N, -a.I, -a.Constant);

    public static Extent operator *(Extent a, int factor) => new(a.N * factor, a.I * factor, a.Constant * factor);

    /// <summary>The same after so many rounds.</summary>
    public Extent AtRound(Extent rounds) => new Extent(N, 0, Constant) + rounds * I;

    public int At(int n, int i) => N * n + I * i + Constant;

    public override string ToString()
    {
        var text = Part(N, "n") + Part(I, "i");
        if (Constant != 0 || text.Length == 0)
        {
            text += string.Create(CultureInfo.InvariantCulture, $"{(Constant < 0 ? "-" : "+")}{Math.Abs(Constant)}");
        }
        return text.TrimStart('+');
    }

    private static string Part(int factor, string name) =>
        factor == 0
            ? ""
            : string.Create(
                CultureInfo.InvariantCulture,
                $"{(factor < 0 ? "-" : "+")}{(Math.Abs(factor) == 1 ? "" : Math.Abs(factor))}{name}"
            );
}
