namespace Reckoner.Documents;

/// <summary>
/// What stands on a page as one piece, across its whole width: a line, a row, a figure. Handouts are measured in strips before any
/// is drawn, so that pages can be looked at as a whole.
/// </summary>
/// <param name="Draw">Draws it with its upper edge at a place and so high as it is given.</param>
internal sealed record Strip(double Height, Action<double, double> Draw)
{
    /// <summary>The room above it, which is left away at the top of a page.</summary>
    public double Above { get; init; }

    /// <summary>How low it may be made where that brings more onto its page; figures give way, text does not.</summary>
    public double Least { get; init; } = Height;

    /// <summary>Whether no page ends between it and what stands above.</summary>
    public bool StaysWithAbove { get; init; }

    public bool BeginsPage { get; init; }

    /// <summary>Whether it needs a page across.</summary>
    public bool IsAcross { get; init; }

    /// <summary>What is said again above it where it begins a page, such as the head of a table.</summary>
    public Strip? Again { get; init; }
}
