namespace Reckoner.Choosing;

/// <summary>Sequences of numbers, each as one number: the same one for the same sequence. Nothing but zeros is 0.</summary>
internal sealed class Interned
{
    private readonly Dictionary<(int Before, int Next), int> known = new() { [(0, 0)] = 0 };

    /// <summary>The number of a sequence and one number more.</summary>
    public int Of(int before, int next)
    {
        if (!known.TryGetValue((before, next), out var number))
        {
            number = known.Count;
            known.Add((before, next), number);
        }
        return number;
    }
}
