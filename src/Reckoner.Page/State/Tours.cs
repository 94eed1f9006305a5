namespace Reckoner.Page.State;

/// <summary>Where a visitor may begin: each opens at once on something worth seeing.</summary>
public static class Tours
{
    /// <summary>The keys of what they are called, and the links that they open.</summary>
    public static IReadOnlyList<(string Key, string Link)> All { get; } =
    [
        ("page.tour-paper", "machine=divide-still-divisor&width.n=5&operands=29,6&at=1&view=paper"),
        (
            "page.tour-restore",
            "machine=divide-adding-back&width.n=3&operands=5,2&at=3&beside=slip:guard-never-negative"
        ),
        ("page.tour-shared", "machine=divide-shared-register&width.n=4&operands=13,4&at=4&beside=divide-still-divisor"),
        ("page.tour-booth", "machine=multiply-booth&width.n=5&operands=13,7&at=1&beside=multiply-signed-shift-add"),
    ];
}
