using Reckoner.Costing;
using Reckoner.Words;

namespace Reckoner.Drawing;

/// <summary>How figures of machines at rest are drawn.</summary>
/// <param name="Target">What they are drawn for; null for as large as they come out.</param>
public sealed record StillForm(Vocabulary Words, FigureTarget? Target)
{
    /// <summary>How adders hand on their carries, where costs are drawn.</summary>
    public AdderChoice Adders { get; init; } = new(AdderKind.Ripple);

    internal FigureRoom? Room => Target?.Room(FigureHead.TextSize);
}
