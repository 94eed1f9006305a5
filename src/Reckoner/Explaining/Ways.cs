using Reckoner.Datapaths;
using Reckoner.Numbers;
using Reckoner.Slips;

namespace Reckoner.Explaining;

/// <summary>A slip as a way to work a table out.</summary>
/// <param name="IsHarmless">Whether its results are right for every operand that was tried: another schedule, which nobody is blamed for.</param>
/// <param name="IsLapsable">Whether it can be made in one row alone, and shows there.</param>
/// <param name="Like">The first slip whose tables are the same for every operand that was tried.</param>
internal sealed record SlipWay(Way Way, Slip Slip, bool IsHarmless, bool IsLapsable, Slip Like);

/// <summary>Another machine of the same operands and results.</summary>
internal sealed record OtherWay(Way Way, bool IsHarmless);

/// <summary>Every way in which the tables of a machine may come about, at its widths. Made once, and asked for many tables.</summary>
internal sealed class Ways
{
    /// <summary>So many operands are tried where a slip is to be known: all of them up to 10 bits.</summary>
    private const int MostTried = 1024;

    private readonly IReadOnlyList<ulong[]> samples;
    private readonly IReadOnlyList<ulong[]> rightResults;
    private readonly UInt128 rightMark;

    private Ways(Datapath datapath, RowLayout layout, Way right)
    {
        Datapath = datapath;
        Layout = layout;
        Right = right;
        Readings = OperandReading.Of(datapath);
        samples = Tried(datapath);
        rightResults = [.. samples.Select(o => right.Final(o))];
        rightMark = Mark(right);
    }

    public Datapath Datapath { get; }
    public RowLayout Layout { get; }
    public Way Right { get; }
    public IReadOnlyList<OperandReading> Readings { get; }
    public IReadOnlyList<SlipWay> Slips { get; private set; } = [];
    public IReadOnlyList<OtherWay> Others { get; private set; } = [];

    /// <summary>Operands inside "given": all, or many.</summary>
    public IReadOnlyList<ulong[]> Samples => samples;

    /// <summary>Null where the machine's registers or words are wider than a table can be searched with.</summary>
    /// <param name="others">Machines that may have been meant, such as those of the catalogue.</param>
    public static Ways? Of(Datapath datapath, IEnumerable<IMachine> others)
    {
        if (RowLayout.Of(datapath) is not { } layout || Way.Of(datapath, layout) is not { } right)
        {
            return null;
        }
        var ways = new Ways(datapath, layout, right);
        ways.Slips = ways.SlipWays();
        ways.Others = ways.OtherWays(others);
        return ways;
    }

    private List<SlipWay> SlipWays()
    {
        var widths = Datapath.Widths.ToDictionary(w => w.Name, w => w.Value);
        var (slips, first) = (new List<SlipWay>(), new Dictionary<UInt128, Slip>());
        foreach (var slip in Slip.Of(Datapath.Machine))
        {
            if (
                slip.Machine.Built(widths) is not { } built
                || !HasSameResults(built)
                || Way.Of(built, Layout, slip) is not { } way
            )
            {
                continue;
            }
            var mark = Mark(way);
            if (mark == rightMark)
            {
                // It shows in no table that was tried.
                continue;
            }
            if (!first.TryGetValue(mark, out var like))
            {
                first[mark] = like = slip;
            }
            slips.Add(new SlipWay(way, slip, IsHarmless(way), IsLapsable(way), like));
        }
        return slips;
    }

    private bool HasSameResults(Datapath other) =>
        other.Operands.Select(o => (o.Name, o.Width)).SequenceEqual(Datapath.Operands.Select(o => (o.Name, o.Width)))
        && other.Results.Select(r => (r.Name, r.Width)).SequenceEqual(Datapath.Results.Select(r => (r.Name, r.Width)));

    private List<OtherWay> OtherWays(IEnumerable<IMachine> others)
    {
        var widths = Datapath.Widths.ToDictionary(w => w.Name, w => w.Value);
        var names = Datapath.Operands.Select(o => o.Name).ToList();
        var (found, marks) = (new List<OtherWay>(), new HashSet<UInt128> { rightMark });
        foreach (var other in others)
        {
            var declared = other.Description.Declarations.OfType<Notation.OperandLine>().Select(o => o.Name.Text);
            if (
                other.Name == Datapath.Machine.Name
                || !declared.SequenceEqual(names)
                || other.Built(Common(other, widths)) is not { } built
                || !HasSameResults(built)
                || Way.Of(built, Layout) is not { } way
                || !marks.Add(Mark(way))
            )
            {
                continue;
            }
            found.Add(new OtherWay(way, IsHarmless(way)));
        }
        return found;
    }

    private static Dictionary<string, System.Numerics.BigInteger> Common(
        IMachine other,
        Dictionary<string, System.Numerics.BigInteger> widths
    ) =>
        other
            .Widths.Select(w => w.Name.Text)
            .Where(widths.ContainsKey)
            .ToDictionary(name => name, name => widths[name]);

    /// <summary>Where nothing could be tried, nothing is known of it.</summary>
    private bool IsHarmless(Way way) =>
        samples.Count > 0 && samples.Zip(rightResults).All(s => way.Final(s.First).AsSpan().SequenceEqual(s.Second));

    /// <summary>Tells ways apart by their tables, hidden registers left out.</summary>
    private UInt128 Mark(Way way)
    {
        var (mark, prime) = (UInt128.One, new UInt128(0x0000000001000000, 0x000000000000013B));
        foreach (var operands in samples)
        {
            foreach (var row in way.Table(operands))
            {
                mark = unchecked((mark ^ (row & Layout.Mask)) * prime);
            }
            foreach (var result in way.Final(operands))
            {
                mark = unchecked((mark ^ result) * prime);
            }
        }
        return mark;
    }

    private bool IsLapsable(Way way) =>
        way.MostCycles == Right.MostCycles
        && way.HiddenBits <= 1
        && way.HasAllRegisters
        && samples.Any(o => ShowsInOneRow(way, o));

    private bool ShowsInOneRow(Way way, ulong[] operands)
    {
        var row = Right.Load(operands);
        for (var at = Right.Next(0, row); at < Right.MostCycles; at = Right.Next(at + 1, row))
        {
            var after = Right.After(at, row);
            if ((way.After(at, row) & Layout.Mask) != after)
            {
                return true;
            }
            row = after;
        }
        return false;
    }

    /// <summary>All operands inside "given", or so many drawn from them.</summary>
    private static List<ulong[]> Tried(Datapath datapath)
    {
        var bits = datapath.Operands.Sum(o => o.Width);
        var random = new Generator(1);
        var tuples =
            bits <= 10
                ? Enumerable.Range(0, 1 << bits).Select(i => Split(datapath, (ulong)i))
                : Enumerable
                    .Range(0, 4 * MostTried)
                    .Select(_ =>
                        datapath.Operands.Select(o => random.Next() >> (64 - 1 - random.Below(o.Width))).ToArray()
                    );
        return
        [
            .. tuples.Where(t => datapath.IsGiven([.. t.Select(b => (System.Numerics.BigInteger)b)])).Take(MostTried),
        ];
    }

    private static ulong[] Split(Datapath datapath, ulong bits)
    {
        var tuple = new ulong[datapath.Operands.Count];
        foreach (var operand in datapath.Operands.Reverse())
        {
            tuple[operand.Index] = bits & (ulong)RowLayout.Ones(operand.Width);
            bits >>= operand.Width;
        }
        return tuple;
    }
}
