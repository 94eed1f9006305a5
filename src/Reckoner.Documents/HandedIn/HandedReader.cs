using System.Text.RegularExpressions;
using Reckoner.Diagnostics;
using Reckoner.Sheets;

namespace Reckoner.Documents.HandedIn;

/// <summary>Reads a file whatever it is called, or says why it cannot be read; whatever stands in it, it ends.</summary>
internal static class HandedReader
{
    public static HandedReading Of(HandedFile file)
    {
        if (file.Trouble is { } trouble)
        {
            return trouble;
        }
        if (file.Bytes.Length > HandedFile.Largest)
        {
            return new Term("handed.too-large");
        }
        try
        {
            return FileKind.Of(file) switch
            {
                HandedKind.Text => SeparatedText.Of(ListText.Of(file.Bytes)),
                HandedKind.Html => PageReader.Of(ListText.Of(file.Bytes)),
                HandedKind.Workbook => WorkbookReader.Of(file.Bytes),
                HandedKind.OpenDocument => OpenDocumentReader.Of(file.Bytes),
                HandedKind.Archive => new Term("handed.too-deep"),
                HandedKind.LockedOrOld => new Term("handed.locked-or-old"),
                HandedKind.Paper => new Term("handed.paper"),
                HandedKind.Picture => new Term("handed.picture"),
                HandedKind.Letter => new Term("handed.letter"),
                HandedKind.OtherArchive => new Term("handed.other-archive"),
                HandedKind.Other => new Term("handed.no-text"),
                HandedKind.Broken => new Term("handed.broken"),
                HandedKind.Empty => new Term("handed.empty"),
            };
        }
        catch (Exception e) when (e is TooMuchException or RegexMatchTimeoutException)
        {
            return new Term("handed.too-large");
        }
        catch (Exception e) when (FileKind.IsDamage(e))
        {
            return new Term("handed.broken");
        }
    }
}
