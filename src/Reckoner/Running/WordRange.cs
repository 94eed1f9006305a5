using System.Numerics;

namespace Reckoner.Running;

/// <summary>Refuses words that the hardware cannot hold, before they give a wrong answer.</summary>
internal static class WordRange
{
    /// <exception cref="ArgumentException">Another number of words, or bits beyond a word's width.</exception>
    public static void Check(
        IReadOnlyList<BigInteger> words,
        IReadOnlyList<(string Name, int Width)> places,
        string parameter
    )
    {
        if (words.Count != places.Count)
        {
            throw new ArgumentException($"{places.Count} words are needed, not {words.Count}", parameter);
        }
        foreach (var (word, place) in words.Zip(places))
        {
            if (word.Sign < 0 || word.GetBitLength() > place.Width)
            {
                throw new ArgumentException(
                    $"{word} does not fit in the {place.Width} bits of {place.Name}",
                    parameter
                );
            }
        }
    }
}
