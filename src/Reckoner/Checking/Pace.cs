namespace Reckoner.Checking;

/// <summary>How a long run tells how far it is, and hears that it is to end.</summary>
/// <param name="Tell">Told how much is done; null where nobody asks.</param>
internal sealed record Pace(Action<long>? Tell, CancellationToken Stop)
{
    /// <summary>Nobody watches, and nobody stops it.</summary>
    public static Pace Alone { get; } = new(null, CancellationToken.None);

    /// <exception cref="OperationCanceledException">It is to end.</exception>
    public void MayGoOn() => Stop.ThrowIfCancellationRequested();
}
