namespace Reckoner.Refining;

/// <summary>
/// A move that cannot be made here: a width whose size against another depends on n, an operation that is not rewritten. Thrown deep
/// inside a move and caught where moves are tried; nobody outside sees it.
/// </summary>
internal sealed class BeyondMoveException(string why) : Exception(why);
