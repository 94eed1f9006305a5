using System.Numerics;
using Reckoner.Checking;
using Reckoner.Datapaths;
using Reckoner.Numbers;
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

    private readonly ulong[] expected;
    private readonly int perCase;

    private CaseSet(Datapath datapath, int main, int other, ulong[][] operands, bool isAll, WordCode code)
    {
        (Datapath, Main, Other, Operands, IsAll) = (datapath, main, other, operands, isAll);
        perCase = datapath.Results.Count;
        expected = new ulong[operands.Length * perCase];
        for (var i = 0; i < operands.Length; i++)
        {
            code.Run(operands[i], expected.AsSpan(i * perCase, perCase));
        }
    }

    /// <summary>The machine to be improved.</summary>
    public Datapath Datapath { get; }
    public int Main { get; }
    public int Other { get; }

    /// <summary>Whether these are all operands for which anything is claimed.</summary>
    public bool IsAll { get; }

    /// <summary>Bits, in the order of the text.</summary>
    public ulong[][] Operands { get; }

    /// <summary>All that a machine can be tried with, narrow ones first; words of more than 64 bits are not tried.</summary>
    public static IReadOnlyList<CaseSet> Of(IMachine machine)
    {
        var sets = new List<CaseSet>();
        var known = new HashSet<string>();
        foreach (var (main, other) in Wanted)
        {
            if (
                Scale.AtWidths(machine, main, other) is { } datapath
                && known.Add(string.Join(',', datapath.Widths))
                && datapath.Operands.All(o => o.Width <= 64)
                && Code(datapath) is { } code
            )
            {
                var isAll = datapath.Operands.Sum(o => o.Width) <= FewBits;
                var operands = (isAll ? Trials.All(datapath) : Trials.Some(datapath, Corners))
                    .Where(o => datapath.Outside.Count > 0 || datapath.IsGiven(o))
                    .Select(o => o.Select(b => (ulong)b).ToArray());
                sets.Add(new CaseSet(datapath, main, other, [.. operands], isAll, code));
            }
        }
        return sets;
    }

    private static WordCode? Code(Datapath datapath)
    {
        var timeline = Timeline.Of(datapath);
        return WordCode.Of(timeline.Graph, timeline.Results);
    }

    /// <summary>Whether another machine gives the same for all of these operands; null where it cannot be tried.</summary>
    public bool? IsSame(IMachine other) => Compared(other) is var (isSame, _, _) ? isSame : null;

    /// <summary>The smallest of these operands for which another machine gives something else.</summary>
    public (Datapath There, ulong[] Operands)? FirstApart(IMachine other) =>
        Compared(other) is (false, { } there, { }) ? (there, Smallest(there)) : null;

    private (bool IsSame, Datapath? There, ulong[]? Operands)? Compared(IMachine other)
    {
        if (Scale.AtWidths(other, Main, Other) is not { } datapath)
        {
            return (false, null, null);
        }
        if (Code(datapath) is not { } code)
        {
            return null;
        }
        if (
            !datapath
                .Results.Select(r => (r.Name, r.Width))
                .SequenceEqual(Datapath.Results.Select(r => (r.Name, r.Width)))
        )
        {
            return (false, null, null);
        }
        Span<ulong> results = new ulong[perCase];
        for (var i = 0; i < Operands.Length; i++)
        {
            code.Run(Operands[i], results);
            if (!results.SequenceEqual(expected.AsSpan(i * perCase, perCase)))
            {
                return (false, datapath, Operands[i]);
            }
        }
        return (true, null, null);
    }

    private ulong[] Smallest(Datapath there)
    {
        var code = Code(there)!;
        var results = new ulong[perCase];
        return Enumerable
            .Range(0, Operands.Length)
            .Where(i =>
            {
                code.Run(Operands[i], results);
                return !results.AsSpan().SequenceEqual(expected.AsSpan(i * perCase, perCase));
            })
            .Select(i => Operands[i])
            .MinBy(o => Rank.Of(there.Operands, [.. o.Select(b => (BigInteger)b)]))!;
    }

    /// <summary>The numbers that widths are made of.</summary>
    public IReadOnlyDictionary<string, Rational> Numbers => Datapath.Numbers;

    /// <summary>The values of the widths that were chosen.</summary>
    public IEnumerable<(string Name, BigInteger Value)> Widths =>
        Datapath.Widths.Where(w => Datapath.Machine.Widths.Any(l => !l.IsParameter && l.Name.Text == w.Name));
}
