using System.Numerics;
using Reckoner.Conditions;
using Reckoner.Numbers;

namespace Reckoner.Choosing;

/// <summary>What every case takes and decides, as tables.</summary>
internal sealed class DecisionTables
{
    private readonly Candidates candidates;
    private readonly ulong[][] active;
    private readonly ulong[][] results;
    private readonly List<(ShownDecision Shown, List<List<(ulong[] Met, ulong[] Yes)>> Outcomes)> decisions = [];
    private readonly Interned patterns = new();
    private readonly Lazy<(ulong[] Met, ulong[] Yes)?[][]> byEdge;

    public DecisionTables(Candidates candidates)
    {
        this.candidates = candidates;
        var gates = candidates.Gates;
        var shownDecisions = ShownDecision.Of(gates);
        var literals = new List<int>(gates.Active);
        literals.AddRange(gates.Results.SelectMany(r => r));
        var asked = shownDecisions.SelectMany(s => s.Outcomes).SelectMany(o => o.Askings).ToList();
        literals.AddRange(asked.SelectMany(a => new[] { a.Met, a.So }));
        var bits = candidates.Ask(literals);
        active = bits[..gates.Active.Count];
        var at = active.Length;
        results = bits[at..(at += gates.Results.Sum(r => r.Length))];
        foreach (var shown in shownDecisions)
        {
            var outcomes = new List<List<(ulong[], ulong[])>>();
            foreach (var outcome in shown.Outcomes)
            {
                outcomes.Add([.. outcome.Askings.Select((_, i) => (bits[at + 2 * i], bits[at + 2 * i + 1]))]);
                at += 2 * outcome.Askings.Count;
            }
            decisions.Add((shown, outcomes));
        }
        Varying = [.. decisions.Select((d, i) => (d, i)).Where(d => Varies(d.d.Outcomes)).Select(d => d.i)];
        byEdge = new(() => [.. Enumerable.Range(0, active.Length).Select(ByEdge)]);
    }

    /// <summary>Of every outcome of a decision that varies, where it is asked at an edge; null where it is not.</summary>
    private (ulong[] Met, ulong[] Yes)?[] ByEdge(int edge) =>
        [
            .. Varying
                .SelectMany(place => decisions[place].Shown.Outcomes.Zip(decisions[place].Outcomes))
                .Select(outcome =>
                    outcome.First.Askings.Index().FirstOrDefault(a => a.Item.Edge == edge, (-1, default))
                        is (>= 0 and var at, _)
                        ? outcome.Second[at]
                        : ((ulong[], ulong[])?)null
                ),
        ];

    /// <summary>
    /// What the cycles of a case decide, each as a number: the same number where all decisions that are met come out the same.
    /// Cycles that decide nothing are left out.
    /// </summary>
    public List<int> Patterns(int index)
    {
        var found = new List<int>();
        foreach (var outcomes in byEdge.Value)
        {
            var pattern = 0;
            foreach (var asked in outcomes)
            {
                var outcome =
                    asked is not var (met, yes) || !BitSets.Has(met, index) ? 0
                    : BitSets.Has(yes, index) ? 1
                    : 2;
                pattern = patterns.Of(pattern, outcome);
            }
            if (pattern != 0)
            {
                found.Add(pattern);
            }
        }
        return found;
    }

    /// <summary>The decisions, by place, whose outcomes are not the same for all operands.</summary>
    private IReadOnlyList<int> Varying { get; }

    private bool Varies(List<List<(ulong[] Met, ulong[] Yes)>> outcomes) =>
        outcomes.SelectMany(o => o).Any(a => !IsSame(a.Met) || !IsSame(a.Yes));

    private bool IsSame(ulong[] table)
    {
        var (any, all) = (false, true);
        for (var i = 0; i < table.Length; i++)
        {
            any |= (table[i] & candidates.Given[i]) != 0;
            all &= (~table[i] & candidates.Given[i]) == 0;
        }
        return all || !any;
    }

    public int Cycles(int index)
    {
        var cycles = 0;
        foreach (var edge in active)
        {
            cycles += BitSets.Has(edge, index) ? 1 : 0;
        }
        return cycles;
    }

    /// <summary>
    /// How often each outcome of each decision comes about, in the order of the text: by this, operands are of one class.
    /// </summary>
    public IEnumerable<int> Counts(int index)
    {
        foreach (var place in Varying)
        {
            var (shown, outcomes) = decisions[place];
            foreach (var outcome in outcomes)
            {
                var (yes, no) = (0, 0);
                foreach (var asking in outcome)
                {
                    var isSo = BitSets.Has(asking.Yes, index);
                    yes += isSo ? 1 : 0;
                    no += !isSo && BitSets.Has(asking.Met, index) ? 1 : 0;
                }
                yield return yes;
                if (shown.Labels is null)
                {
                    yield return no;
                }
            }
        }
    }

    /// <summary>What the counts of <see cref="Counts"/> are of, in its order.</summary>
    public IReadOnlyList<string> Counted =>
        [
            .. Varying
                .Select(place => decisions[place].Shown)
                .SelectMany(s =>
                    s.Labels is null ? [s.Text, Opposite(s.Text)] : s.Labels.Select(l => $"{s.Text} = {l}")
                ),
        ];

    private static string Opposite(string text) => $"{Occasion.Of(text).Opposite}";

    public ChosenOperands At(int index)
    {
        var numbers = new List<BigInteger>();
        var at = 0;
        foreach (var result in candidates.Datapath.Results)
        {
            var bits = BigInteger.Zero;
            for (var bit = 0; bit < result.Width; bit++)
            {
                bits |= BitSets.Has(results[at++], index) ? BigInteger.One << bit : 0;
            }
            numbers.Add(bits);
        }
        return new ChosenOperands(
            candidates.Table.Cases[index],
            numbers,
            Cycles(index),
            [.. Varying.Select(place => Met(place, index))]
        );
    }

    private MetDecision Met(int place, int index)
    {
        var (shown, outcomes) = decisions[place];
        var edges = shown.Outcomes.SelectMany(o => o.Askings).Select(a => a.Edge).Distinct().Order().ToList();
        var met = edges.Select(edge => Outcome(shown, outcomes, edge, index));
        return new MetDecision(shown.Text, shown.Labels is not null, [.. met]);
    }

    private static string? Outcome(
        ShownDecision shown,
        List<List<(ulong[] Met, ulong[] Yes)>> outcomes,
        int edge,
        int index
    )
    {
        for (var o = 0; o < outcomes.Count; o++)
        {
            for (var i = 0; i < outcomes[o].Count; i++)
            {
                if (shown.Outcomes[o].Askings[i].Edge != edge || !BitSets.Has(outcomes[o][i].Met, index))
                {
                    continue;
                }
                var isSo = BitSets.Has(outcomes[o][i].Yes, index);
                if (isSo || shown.Labels is null)
                {
                    return shown.Labels?[o] ?? (isSo ? "1" : "0");
                }
            }
        }
        return null;
    }
}
