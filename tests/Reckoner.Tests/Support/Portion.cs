using Reckoner.Catalogue;

namespace Reckoner.Tests;

/// <summary>
/// What the quick run draws where a test draws every machine: the first machines of the catalogue, and of the others a tenth, each day
/// another. The long run draws the rest too.
/// </summary>
internal static class Portion
{
    private static readonly string[] First =
    [
        "divide-moving-divisor",
        "divide-still-divisor",
        "divide-shared-register",
        "multiply-moving-multiplicand",
        "multiply-still-multiplicand",
        "multiply-shared-register",
    ];

    private static readonly int Today = DateTime.UtcNow.DayOfYear % 10;

    private static readonly HashSet<string> Quick = [.. First, .. Machines.Catalogue.Where((_, i) => i % 10 == Today)];

    private static readonly HashSet<string> Third =
    [
        .. First,
        .. Machines.Catalogue.Where((_, i) => i % 3 == DateTime.UtcNow.DayOfYear % 3),
    ];

    public static bool IsQuick(string name) => Quick.Contains(name);

    /// <summary>Of what matters more than figures a third instead of a tenth.</summary>
    public static bool IsOfThird(string name) => Third.Contains(name);

    /// <summary>Long descriptions take ten times as long as others, and are much alike: some things are asked of them in the long run alone.</summary>
    public static bool IsShort(string name) => MachineCatalogue.Find(name)!.Text.AsSpan().Count('\n') <= 90;

    /// <summary>Wide ones are drawn in the long run alone.</summary>
    public static bool IsQuick(string name, int width) => width <= 8 && IsQuick(name);
}
