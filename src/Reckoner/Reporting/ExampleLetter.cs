namespace Reckoner.Reporting;

/// <summary>Letters by which chosen operands are spoken of.</summary>
internal static class ExampleLetter
{
    /// <summary>A, B, ... Z, AA, AB, ...</summary>
    /// <param name="place">From 0.</param>
    public static string Of(int place) => (place < 26 ? "" : Of(place / 26 - 1)) + (char)('A' + place % 26);
}
