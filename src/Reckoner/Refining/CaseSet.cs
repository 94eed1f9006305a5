using System.Numerics;
using Reckoner.Checking;
using Reckoner.Datapaths;
using Reckoner.Proving;
using Reckoner.Timelines;

namespace Reckoner.Refining;

/// <summary>
/// Operands at one choice of widths with what the machine to be improved gives for them: all for which anything is claimed, or, at
/// greater widths, some. What gives the same for all of them is tried further; what does not is wrong.
/// </summary>
internal sealed class CaseSet
{
    /// <summary>So many bits of operands together, and all are tried.</summary>
    private const int FewBits = 10;
    private const int Corners = 160;

    /// <summary>The least widths in which a counter or a carry can lie, and those on both sides of a power of two.</summary>
    private static readonly (int Main, int Other)[] Wanted =
    [
        (1, 1),
        (2, 2),
        (3, 2),
        (4, 2),
        (4, 3),
        (5, 3),
        (7, 4),
        (9, 5),
        (17, 9),
    ];

    private readonly WordCode? code;
    private readonly ulong[] expected;
    private IReadOnlyList<BigInteger>[]? expectedWide;

    private CaseSet(Datapath datapath, ulong[][] operands, bool isAll)
    {
        (Datapath, Operands, IsAll, code) = (datapath, operands, isAll, Code(datapath));
        IsGiven = [.. operands.Select(o => Takes(datapath, o))];
        expected = new ulong[code is null ? 0 : operands.Length * datapath.Results.Count];
        for (var i = 0; code is not null && i < operands.Length; i++)
        {
            code.Run(operands[i], Expected(i));
        }
    }

    /// <summary>The machine to be improved.</summary>
    public Datapath Datapath { get; }

    /// <summary>Whether these are all operands for which anything is claimed.</summary>
    public bool IsAll { get; }

    /// <summary>Bits, in the order of the text.</summary>
    public ulong[][] Operands { get; }

    /// <summary>Of each whether it is inside "given".</summary>
    public bool[] IsGiven { get; }

    /// <summary>What a machine is tried with, narrow operands first; those of more than 64 bits are not tried.</summary>
    public static IReadOnlyList<CaseSet> Of(IMachine machine)
    {
        var sets = new List<CaseSet>();
        foreach (var datapath in Settings.Of(machine, Wanted, withParameters: true))
        {
            if (datapath.Operands.All(o => o.Width <= 64))
            {
                var isAll = datapath.Operands.Sum(o => o.Width) <= FewBits;
                var operands = (isAll ? Trials.All(datapath) : Trials.Some(datapath, Corners))
                    .Where(o => datapath.Outside.Count > 0 || datapath.IsGiven(o))
                    .Select(o => o.Select(b => (ulong)b).ToArray());
                sets.Add(new CaseSet(datapath, [.. operands], isAll));
            }
        }
        return sets;
    }

    /// <summary>
    /// The first of these in which registers are looked at: all operands, if there are such sets, and at widths at which formulas
    /// differ.
    /// </summary>
    public static IEnumerable<CaseSet> Telling(IReadOnlyList<CaseSet> sets)
    {
        var wide = sets.Where(s => s.Datapath.Widths.All(w => w.Value > 2 || !s.IsMain(w.Name))).ToList();
        return wide.Exists(s => s.IsAll) ? wide.Where(s => s.IsAll)
            : wide.Count > 0 ? wide
            : sets;
    }

    private bool IsMain(string width) => Datapath.Machine.Widths.First().Name.Text == width;

    /// <summary>Null where a word is wider than 64 bits.</summary>
    private static WordCode? Code(Datapath datapath)
    {
        var timeline = Timeline.Of(datapath);
        return WordCode.Of(timeline.Graph, timeline.Results);
    }

    private Span<ulong> Expected(int i) => expected.AsSpan(i * Datapath.Results.Count, Datapath.Results.Count);

    /// <summary>Whether another machine can be here, and gives the same for all of these operands.</summary>
    public bool IsSame(IMachine other) =>
        Settings.Same(other, Datapath) is { } there && HasSameResults(there) && !Apart(there).Any();

    /// <summary>The smallest of these operands, of those that both take, for which another machine gives something else.</summary>
    public ulong[]? FirstApart(Datapath there) =>
        Apart(there)
            .Where(i => IsGiven[i] && Takes(there, Operands[i]))
            .Select(i => Operands[i])
            .MinBy(o => Rank.Of(there.Operands, [.. o.Select(b => (BigInteger)b)]));

    private static bool Takes(Datapath datapath, ulong[] operands) =>
        datapath.IsGiven([.. operands.Select(o => (BigInteger)o)]);

    private bool HasSameResults(Datapath there) =>
        there.Results.Select(r => (r.Name, r.Width)).SequenceEqual(Datapath.Results.Select(r => (r.Name, r.Width)));

    /// <summary>The operands, by place, for which the results differ.</summary>
    private IEnumerable<int> Apart(Datapath there)
    {
        if (code is null || Code(there) is not { } other)
        {
            return ApartWide(there);
        }
        var results = new ulong[Datapath.Results.Count];
        return Enumerable
            .Range(0, Operands.Length)
            .Where(i =>
            {
                other.Run(Operands[i], results);
                return !results.AsSpan().SequenceEqual(Expected(i));
            });
    }

    /// <summary>The slow twin, for words of any width.</summary>
    private IEnumerable<int> ApartWide(Datapath there)
    {
        expectedWide ??= [.. Operands.Select(o => Wide(Datapath, o))];
        return Enumerable
            .Range(0, Operands.Length)
            .Where(i => !Wide(there, Operands[i]).SequenceEqual(expectedWide[i]));
    }

    private static IReadOnlyList<BigInteger> Wide(Datapath datapath, ulong[] operands) =>
        Trials.Results(datapath, [.. operands.Select(o => (BigInteger)o)]);

    /// <summary>The values of the widths that were chosen.</summary>
    public IEnumerable<(string Name, BigInteger Value)> Widths =>
        Datapath.Widths.Where(w => Datapath.Machine.Widths.Any(l => !l.IsParameter && l.Name.Text == w.Name));
}
