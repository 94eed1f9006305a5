using Reckoner.Datapaths;

namespace Reckoner.Structure;

/// <summary>Bits high..low of a register that take a word at the end of a moment, if all is so that must be.</summary>
/// <param name="State">The number of the step; 0 is the load.</param>
/// <param name="Moment">From 1. A later moment's entry replaces an earlier one's; only what stands at the end is stored.</param>
/// <param name="Word">As wide as the place. Behind the first moment it may be taken from what an earlier one gave.</param>
public sealed record Entry(
    Register Register,
    int High,
    int Low,
    int State,
    int Moment,
    IReadOnlyList<Guard> When,
    Bundle Word,
    Source Source,
    int Line
)
{
    public int Width => High - Low + 1;
}

/// <summary>Bits high..low of a register before which the same choice stands.</summary>
/// <param name="Sources">The words that states store there, the load's too, each once; with more than one there is a choice.</param>
/// <param name="Keeps">Whether it may stay as it is at an edge: it needs an enable.</param>
public sealed record Field(int High, int Low, IReadOnlyList<Bundle> Sources, bool Keeps)
{
    public int Width => High - Low + 1;
}

/// <summary>A register and the choices before it.</summary>
/// <param name="Entries">What may enter, in the order of states, moments and the text; the load first.</param>
/// <param name="Stored">By the number of the state, what its edge stores, choices made; the load first.</param>
/// <param name="Writing">The steps that do not simply keep it.</param>
/// <param name="Words">
/// How many different words these steps give it, as the text writes them: two operations of one unit are two words.
/// </param>
public sealed record RegisterStructure(
    Register Register,
    IReadOnlyList<Entry> Entries,
    IReadOnlyList<Bundle> Stored,
    IReadOnlyList<int> Writing,
    int Words
)
{
    /// <summary>The register in stretches, the highest first, each with its own choice and enable.</summary>
    public IReadOnlyList<Field> Fields
    {
        get
        {
            var cuts = Entries.SelectMany(e => new[] { e.High + 1, e.Low }).Append(0).Append(Register.Width);
            var bounds = cuts.Distinct().OrderDescending().ToList();
            return [.. bounds.Zip(bounds.Skip(1), (end, low) => FieldOf(end - 1, low))];
        }
    }

    private Field FieldOf(int high, int low)
    {
        var words = Stored.Select(s => s.Part(low, high - low + 1)).ToList();
        var sources = words.Distinct().Where(w => !IsHeld(w, low)).ToList();
        return new Field(high, low, sources, words.Skip(1).Any(w => MayHold(w, low, [])));
    }

    private bool IsHeld(Bundle word, int low) =>
        word.Stretches is [{ Times: 1 } only]
        && only.Net is { Kind: NetKind.Register } net
        && net.Register == Register
        && only.Low == low;

    /// <summary>
    /// Whether all of these bits may be the register's own, kept in their place: where they are not chosen as one, some of them can
    /// change when others stay, and an enable is not enough.
    /// </summary>
    /// <param name="known">What was found for bits high..low of a choice, where they would stand from a place on.</param>
    private bool MayHold(Bundle word, int low, Dictionary<(Net, int, int, int), bool> known)
    {
        var at = low + word.Width;
        foreach (var stretch in word.Stretches)
        {
            at -= stretch.Width;
            if (stretch is not { Net: { } net, Times: 1 } || !MayHold(net, stretch, at, known))
            {
                return false;
            }
        }
        return true;
    }

    private bool MayHold(Net net, Stretch stretch, int at, Dictionary<(Net, int, int, int), bool> known)
    {
        if (net.Register == Register)
        {
            return stretch.Low == at;
        }
        if (net.Kind != NetKind.Choice)
        {
            return false;
        }
        var asked = (net, stretch.High, stretch.Low, at);
        if (!known.TryGetValue(asked, out var holds))
        {
            holds = net.Inputs.Skip(1).Any(i => MayHold(i.Part(stretch.Low, stretch.Width), at, known));
            known[asked] = holds;
        }
        return holds;
    }
}
