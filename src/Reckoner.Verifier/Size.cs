namespace Reckoner.Verifier;

/// <summary>A number of bits or rounds: N * n + I * i + K, n the width of the machine and i the rounds done.</summary>
internal sealed record Size(int N, int I, int K)
{
    public static implicit operator Size(int number) => new(0, 0, number);

    public bool IsNumber => N == 0 && I == 0;

    public static Size operator +(Size a, Size b) => new(checked(a.N + b.N), checked(a.I + b.I), checked(a.K + b.K));

    public static Size operator -(Size a, Size b) => a + b * -1;

    public static Size operator *(Size a, int by) => new(checked(a.N * by), checked(a.I * by), checked(a.K * by));

    public Size AtRound(Size rounds) => new Size(N, 0, K) + rounds * I;
}

/// <summary>Every n from a least one on, and every i from 0 to a last one if there is any.</summary>
internal sealed record Region(int Least, Size? Last)
{
    /// <summary>Being linear, it is least at an end of the rounds and, where it does not fall with n, at the least n.</summary>
    public bool NeverNegative(Size size) =>
        Last is { } last ? Rising(size.AtRound(0)) && Rising(size.AtRound(last)) : size.I == 0 && Rising(size);

    private bool Rising(Size size) => size.N >= 0 && checked(size.N * Least + size.K) >= 0;

    public IEnumerable<Size> Limits =>
        Last is { } last ? [new(1, 0, -Least), new(0, 1, 0), last - new Size(0, 1, 0)] : [new(1, 0, -Least)];
}
