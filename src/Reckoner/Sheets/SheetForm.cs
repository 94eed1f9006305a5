namespace Reckoner.Sheets;

/// <summary>How somebody reads a sheet; it asks and holds the same in each.</summary>
internal enum SheetForm
{
    Usual,

    /// <summary>Letters of 18 points.</summary>
    Large,

    /// <summary>For a screen reader: from top to bottom, tables with heads, nothing that a figure alone says.</summary>
    Read,
}
