using Reckoner.Numbers;
using Reckoner.Slips;

namespace Reckoner.Choosing;

/// <summary>What is to be done for each case, and what would spare it. Tables are made when they are first asked for.</summary>
internal sealed class CaseWork
{
    /// <summary>A slip that of ten operands without another shortcut nine expose is one that is expected to show.</summary>
    private const int UsualOfTen = 9;

    /// <summary>Some seconds of making gates; beyond that slips are not compared.</summary>
    private const long MostGatesOfSlips = 1 << 24;

    private readonly Candidates candidates;
    private readonly Lazy<CarryTables> carries;
    private readonly Lazy<int[]> digits;
    private readonly Lazy<ulong[][]> shortcuts;
    private readonly Lazy<(int[] Exposed, int Most, ulong[] Unseen)?> slips;
    private readonly Interned multisets = new();

    public CaseWork(Candidates candidates)
    {
        this.candidates = candidates;
        Decisions = new DecisionTables(candidates);
        carries = new(() => CarryTables.Of(candidates));
        digits = new(() => CaseCounts.Digits(candidates));
        shortcuts = new(() => candidates.Ask(new ShortcutGates(candidates.Gates).Literals));
        slips = new(() => Slips());
        var widest = CarryTables.Widest(candidates);
        (AddsSomething, WidestAdder) = (widest > 0, Math.Max(1, widest));
    }

    public DecisionTables Decisions { get; }

    public bool AddsSomething { get; }

    /// <summary>In bits; 1 where nothing is added.</summary>
    public int WidestAdder { get; }

    /// <summary>The longest run of carries or borrows, in places.</summary>
    public int LongestCarry(int index) => carries.Value.Longest[index];

    /// <summary>Places that give a carry or a borrow.</summary>
    public int Carries(int index) => carries.Value.Sum[index];

    /// <summary>Decimal digits of operands and results.</summary>
    public int Digits(int index) => digits.Value[index];

    /// <summary>How many slips are exposed; null where slips are too many to be tried here.</summary>
    public int? Exposed(int index) => slips.Value?.Exposed[index];

    /// <summary>The most that a case exposes; null likewise.</summary>
    public int? MostExposed => slips.Value?.Most;

    /// <summary>The same number for the same decisions cycle by cycle, in whatever order the cycles come.</summary>
    public int Decided(int index)
    {
        var patterns = Decisions.Patterns(index);
        patterns.Sort();
        return patterns.Aggregate(0, multisets.Of);
    }

    /// <summary>How often a cycle decides just what the one before it did.</summary>
    public int Alike(int index)
    {
        var patterns = Decisions.Patterns(index);
        return patterns.Skip(1).Zip(patterns, (a, b) => a == b ? 1 : 0).Sum();
    }

    /// <summary>
    /// How short the work may be cut, as operands and results alone show it: 0 not at all, 1 by shifting, 2 by looking.
    /// </summary>
    public int Shortness(int index) =>
        Shortcuts.All.Where(s => s != Shortcut.SlipUnseen && Has(s, index)).Max(s => (int?)Shortcuts.Shortness(s)) ?? 0;

    /// <summary>Whether a case has a shortcut.</summary>
    public bool Has(Shortcut shortcut, int index) =>
        shortcut == Shortcut.SlipUnseen
            ? slips.Value is var (_, _, unseen) && BitSets.Has(unseen, index)
            : BitSets.Has(shortcuts.Value[(int)shortcut], index);

    private (int[], int, ulong[])? Slips()
    {
        var gates = candidates.Gates.Graph.Gates.Count;
        if ((long)gates * Slip.Most(candidates.Datapath.Machine) > MostGatesOfSlips)
        {
            return null;
        }
        var plain = Plain();
        var usual = BitSets.Count(plain) * (long)UsualOfTen;
        var (exposed, unseen) = (new int[candidates.Table.Size], BitSets.Of(candidates.Table.Size));
        foreach (var table in CaseCounts.Exposing(candidates, SlipStudy.Built(candidates.Datapath)))
        {
            foreach (var item in BitSets.Items(table))
            {
                exposed[item]++;
            }
            if (usual == 0 || 10L * BitSets.CountCommon(table, plain) < usual)
            {
                continue;
            }
            for (var i = 0; i < unseen.Length; i++)
            {
                unseen[i] |= candidates.Given[i] & ~table[i];
            }
        }
        return (exposed, exposed.DefaultIfEmpty().Max(), unseen);
    }

    /// <summary>All operands, whatever is asked of them, that have no other shortcut.</summary>
    private ulong[] Plain()
    {
        var plain = (ulong[])candidates.Given.Clone();
        foreach (var table in shortcuts.Value)
        {
            for (var i = 0; i < plain.Length; i++)
            {
                plain[i] &= ~table[i];
            }
        }
        return plain;
    }
}
