namespace Reckoner.Documents.Packs;

/// <summary>A sheet cannot be asked, which has been said, so none are made.</summary>
internal sealed class SheetRefusedException : Exception;
