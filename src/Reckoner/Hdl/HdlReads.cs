using System.Numerics;
using Reckoner.Numbers;

namespace Reckoner.Hdl;

/// <summary>Which places of what has a name a module reads; tools complain of others, and the text says which they are.</summary>
internal sealed class HdlReads
{
    private readonly Dictionary<string, BigInteger> read = [];

    public HdlReads(HdlModule module)
    {
        var stops = module.EarlyStops.SelectMany(s => s.Before).SelectMany(s => s.All);
        var does = module.States.SelectMany(s => s.Does).Concat(module.Load).SelectMany(s => s.All);
        var words = does.Concat(stops).Select(s => s.Word).OfType<HdlWord>();
        foreach (
            var word in words.Concat(module.EarlyStops.Select(s => s.Goes)).Concat(module.Results.Select(r => r.Word))
        )
        {
            Read(word);
        }
    }

    private void Read(HdlWord word)
    {
        if (word.Kind == HdlWordKind.Part)
        {
            read[word.Name] = read.GetValueOrDefault(word.Name) | (Bits.Mask(word.Width) << word.Low);
        }
        foreach (var input in word.Inputs)
        {
            Read(input);
        }
    }

    /// <summary>The places that nobody reads, from the top, as stretches.</summary>
    public IReadOnlyList<(int High, int Low)> Unread(string name, int width)
    {
        var unread = Bits.Mask(width) & ~read.GetValueOrDefault(name);
        var stretches = new List<(int, int)>();
        for (var high = width - 1; high >= 0; high--)
        {
            if (((unread >> high) & 1).IsZero)
            {
                continue;
            }
            var low = high;
            while (low > 0 && !((unread >> (low - 1)) & 1).IsZero)
            {
                low--;
            }
            stretches.Add((high, low));
            high = low;
        }
        return stretches;
    }
}
