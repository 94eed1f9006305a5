namespace Reckoner.Marking;

/// <summary>What something is worth, and how much of that is lost: rows, registers of rows, or places to write something into.</summary>
/// <param name="Lost">May be more than there is.</param>
internal readonly record struct Credit(int Most, int Lost)
{
    public int Got => Math.Max(0, Most - Lost);

    /// <summary>In marks, rounded to halves; what lies between two goes to the higher one.</summary>
    /// <param name="marks">What the whole is worth.</param>
    public decimal Of(decimal marks) => Most == 0 ? marks : Math.Floor(marks * Got / Most * 2 + 0.5m) / 2;

    public static Credit operator +(Credit one, Credit other) =>
        new(one.Most + other.Most, Math.Min(one.Lost, one.Most) + Math.Min(other.Lost, other.Most));
}
