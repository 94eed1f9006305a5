using System.Collections.Concurrent;

namespace Reckoner.Testing;

/// <summary>
/// What several tests look at and none changes: made when the first asks for it, on whatever thread, and kept. What is kept should be
/// small: what a test wants to know of a figure, not the figure.
/// </summary>
internal sealed class Once<TKey, TValue>(Func<TKey, TValue> make)
    where TKey : notnull
{
    private readonly ConcurrentDictionary<TKey, Lazy<TValue>> made = new();

    public TValue this[TKey key] => made.GetOrAdd(key, k => new Lazy<TValue>(() => make(k))).Value;
}
