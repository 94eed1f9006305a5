using Reckoner.Datapaths;
using Reckoner.Numbers;
using Reckoner.Running;
using Reckoner.Slips;

namespace Reckoner.Choosing;

/// <summary>The slips of a machine beside its candidates, and the operands that are chosen for them.</summary>
internal sealed class SlipSets
{
    /// <summary>With more operand bits together the results of all slips take too much room.</summary>
    public const int MostBitsToTellApart = 16;

    /// <summary>Some seconds at most.</summary>
    private const long UsualEffort = 50_000_000;

    private readonly Candidates candidates;
    private readonly IReadOnlyList<(Slip Slip, Datapath Datapath)> built;

    public SlipSets(Candidates candidates)
    {
        this.candidates = candidates;
        built = SlipStudy.Built(candidates.Datapath);
    }

    public string MachineName => candidates.Datapath.Machine.Name;

    /// <summary>The names of the slips that can be made at the machine's widths.</summary>
    public IEnumerable<string> Names => built.Select(b => b.Slip.Name);

    /// <summary>The best few of the candidates that expose one slip, which is known by its name.</summary>
    public SlipsShown Beside(string name, IReadOnlyList<ChosenOperands> best)
    {
        var one = built.First(b => b.Slip.Name == name);
        return best.Count == 0
            ? new SlipsShown([], null, [], [one.Slip], [])
            : new SlipsShown(best, null, [Shown(one.Slip, one.Datapath, best)], [], []);
    }

    /// <summary>The fewest operands that together expose every slip that any of them exposes.</summary>
    /// <param name="effort">As for <see cref="SmallestCover"/>.</param>
    public SlipsShown ExposingAll(long effort = UsualEffort)
    {
        var gates = candidates.Gates;
        var exposed = candidates.Ask([.. built.Select(b => SlipStudy.Exposing(gates, b.Datapath))]);
        var isHidden = exposed.Select(BitSets.IsEmpty).ToList();
        return Chosen([.. exposed.Where(e => !BitSets.IsEmpty(e))], slip => isHidden[slip], [], effort);
    }

    /// <summary>
    /// The fewest operands whose results say which slip was made, if any: any two slips, and each and the right machine, differ
    /// on one of them at least. Slips that give the same for all operands count as one.
    /// </summary>
    public SlipsShown TellingApart(long effort = UsualEffort)
    {
        var results = ResultTables();
        var rows = new List<ulong[]>();
        // The first kind gives what is right.
        var kinds = new List<(ulong[][] Results, List<int> Slips)> { (results[0], []) };
        for (var slip = 0; slip < built.Count; slip++)
        {
            var own = results[slip + 1];
            var apart = kinds.ConvertAll(kind => Apart(kind.Results, own));
            var same = apart.FindIndex(BitSets.IsEmpty);
            if (same >= 0)
            {
                kinds[same].Slips.Add(slip);
                continue;
            }
            rows.AddRange(apart);
            kinds.Add((own, [slip]));
        }
        var alike = kinds.Skip(1).Select(k => k.Slips).Where(s => s.Count > 1);
        return Chosen(rows, kinds[0].Slips.Contains, alike, effort);
    }

    /// <summary>For the right machine and then for every slip a table for each bit of the results.</summary>
    private ulong[][][] ResultTables()
    {
        var gates = candidates.Gates;
        var literals = built
            .Select(b => gates.Beside(b.Datapath).Results)
            .Prepend(gates.Results)
            .Select(results => results.SelectMany(r => r).ToList());
        var width = gates.Results.Sum(r => r.Length);
        if (width == 0)
        {
            return [.. literals.Select(_ => Array.Empty<ulong[]>())];
        }
        var bits = candidates.Ask([.. literals.SelectMany(l => l)]);
        return [.. bits.Chunk(width)];
    }

    /// <summary>The cases inside "given" in which some bit differs.</summary>
    private ulong[] Apart(ulong[][] one, ulong[][] other)
    {
        var apart = new ulong[candidates.Given.Length];
        for (var bit = 0; bit < one.Length; bit++)
        {
            for (var i = 0; i < apart.Length; i++)
            {
                apart[i] |= one[bit][i] ^ other[bit][i];
            }
        }
        for (var i = 0; i < apart.Length; i++)
        {
            apart[i] &= candidates.Given[i];
        }
        return apart;
    }

    private SlipsShown Chosen(
        IReadOnlyList<ulong[]> rows,
        Func<int, bool> isHidden,
        IEnumerable<List<int>> alike,
        long effort
    )
    {
        var cover = SmallestCover.Of(rows, effort);
        var tables = new DecisionTables(candidates);
        var chosen = cover.Columns.Select(tables.At).ToList();
        var hidden = Enumerable.Range(0, built.Count).Where(isHidden).ToHashSet();
        return new SlipsShown(
            chosen,
            cover.AtLeast,
            [.. built.Where((_, slip) => !hidden.Contains(slip)).Select(b => Shown(b.Slip, b.Datapath, chosen))],
            [.. built.Where((_, slip) => hidden.Contains(slip)).Select(b => b.Slip)],
            [.. alike.Select(group => group.ConvertAll(slip => built[slip].Slip))]
        );
    }

    private static ShownSlip Shown(Slip slip, Datapath slipped, IReadOnlyList<ChosenOperands> chosen) =>
        new(
            slip,
            [
                .. chosen.Select(c =>
                    Walk.Of(slipped, c.Operands).Results is var results && results.SequenceEqual(c.Results)
                        ? null
                        : results
                ),
            ]
        );
}
