namespace Reckoner.Notation;

/// <summary>
/// Which notation descriptions are read in. What was a description stays one, with the same meaning; where that could not be kept, the
/// number would become another.
/// </summary>
internal static class Edition
{
    public const int Number = 1;
}
