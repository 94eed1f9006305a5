using System.Globalization;

namespace Reckoner.Documents.HandedIn;

/// <summary>Numbers of spreadsheets as they were typed.</summary>
internal static class CellValue
{
    /// <summary>More digits a spreadsheet does not keep: those behind become zeros.</summary>
    private const int KeptDigits = 15;

    /// <summary>Stands before a number that is another than was typed, so that nobody reads bits from it.</summary>
    public const string Lost = "≈";

    public static string OfNumber(string stored)
    {
        if (
            !double.TryParse(stored, NumberStyles.Float, CultureInfo.InvariantCulture, out var number)
            || !double.IsFinite(number)
        )
        {
            return stored;
        }
        var text =
            number == Math.Floor(number) && Math.Abs(number) < 1e28
                ? ((decimal)number).ToString("0", CultureInfo.InvariantCulture)
                : stored;
        return text.Count(char.IsAsciiDigit) > KeptDigits ? Lost + text : text;
    }
}
