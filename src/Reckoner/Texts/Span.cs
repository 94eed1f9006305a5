namespace Reckoner.Texts;

/// <summary>A half-open stretch of characters of one <see cref="Source"/>.</summary>
public readonly record struct Span(int Start, int End)
{
    public static Span Covering(Span first, Span last) => new(first.Start, Math.Max(first.End, last.End));
}
