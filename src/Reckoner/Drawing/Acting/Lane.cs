using System.Numerics;
using Reckoner.Checking;
using Reckoner.Datapaths;

namespace Reckoner.Drawing;

/// <summary>
/// A word that stands on wires for a while: a register until it is written again, what an operand brings, what a block gives.
/// </summary>
internal sealed class Lane(string name, int width, Register? register = null)
{
    /// <summary>Empty where the description gives it none.</summary>
    public string Name { get; set; } = name;
    public int Width { get; } = width;

    /// <summary>The register whose bits these are; null for what stands on wires only.</summary>
    public Register? Register { get; } = register;

    /// <summary>Where it comes from, in words, if no block gives it.</summary>
    public string From { get; init; } = "";

    /// <summary>Whether it is an operand, at the load.</summary>
    public bool IsOperand { get; init; }

    /// <summary>Whether the control says it.</summary>
    public bool IsControl { get; init; }

    /// <summary>What gives it; null for what is there when the cycle begins.</summary>
    public Block? Maker { get; init; }

    /// <summary>What it carries in this cycle; null where nothing is known or nothing acts.</summary>
    public BigInteger? Bits { get; set; }

    /// <summary>For each bit from the lowest, where it came from.</summary>
    public int[] Hues { get; set; } = [.. Enumerable.Repeat(Role.Neutral, width)];

    /// <summary>Of what a register holds when the cycle begins, which bits carry nothing; null where nobody asked.</summary>
    public IdleRow? Idle { get; set; }

    /// <summary>Whether the longest path of its step leads along it.</summary>
    public bool IsLate { get; set; }

    public LaneBit[] All => [.. Enumerable.Range(0, Width).Select(i => new LaneBit(this, i))];
}

/// <summary>A bit of a lane; without a lane, a constant.</summary>
internal readonly record struct LaneBit(Lane? Lane, int Index);

/// <summary>Bits high..low that are taken off a lane.</summary>
/// <param name="Steers">They choose or decide; they are not carried on.</param>
/// <param name="Acts">What takes them acts on them in this cycle.</param>
internal sealed record Tap(Lane Lane, int High, int Low, bool Steers, bool Acts)
{
    public int Width => High - Low + 1;

    public bool IsOf(Tap other) =>
        Lane == other.Lane && High == other.High && Low == other.Low && Steers == other.Steers;

    /// <summary>The runs of bits of one origin, highest first.</summary>
    public IReadOnlyList<int> Hues =>
        [
            .. Enumerable
                .Range(Low, Width)
                .Reverse()
                .Select(i => Lane.Hues[i])
                .Aggregate(new List<int>(), (runs, hue) => runs.Count > 0 && runs[^1] == hue ? runs : [.. runs, hue]),
        ];

    /// <summary>A word's bits as the stretches of lanes that they are; what is taken twice is taken once.</summary>
    public static IEnumerable<Tap> Of(IReadOnlyList<LaneBit> bits, bool steers, bool acts)
    {
        var found = new List<Tap>();
        for (var from = 0; from < bits.Count; )
        {
            var to = from + 1;
            while (
                to < bits.Count && bits[to].Lane == bits[from].Lane && bits[to].Index == bits[from].Index + to - from
            )
            {
                to++;
            }
            if (bits[from].Lane is { } lane)
            {
                var tap = new Tap(lane, bits[to - 1].Index, bits[from].Index, steers, acts);
                if (!found.Exists(t => t.Lane == lane && t.Low <= tap.Low && tap.High <= t.High))
                {
                    found.Add(tap);
                }
            }
            from = to;
        }
        return found;
    }
}

/// <summary>A unit, a table, a choice among words, gates, a comparison: something that takes words and gives one or two.</summary>
internal sealed class Block(string kind, string words)
{
    /// <summary>What it is: the unit's name, or its kind.</summary>
    public string Kind { get; } = kind;

    /// <summary>What it does, as the description has it.</summary>
    public string Words { get; set; } = words;

    public List<Tap> Taps { get; } = [];

    /// <summary>The word it gives; before it, if there is one, the carry, the borrow or the carry word.</summary>
    public List<Lane> Gives { get; } = [];

    public bool Acts { get; set; }

    /// <summary>How many blocks of its moment come before it at least.</summary>
    public int Level { get; set; }

    public int? Line { get; init; }

    /// <summary>The unit that does it, where one does.</summary>
    public Unit? Unit { get; init; }

    /// <summary>The table that is looked into, where one is.</summary>
    public Table? Table { get; init; }

    /// <summary>Whether it chooses among words.</summary>
    public bool Chooses { get; init; }

    /// <summary>The time behind it, where the longest path of its step leads through it.</summary>
    public int? At { get; set; }

    public bool DependsOn(Block other) =>
        this == other || Taps.Exists(t => t.Lane.Maker is { } maker && maker.DependsOn(other));
}

/// <summary>Bits high..low of a register at the end of a moment.</summary>
/// <param name="HasBar">Whether something is chosen here, or comes from elsewhere than a register.</param>
/// <param name="Taps">What may be taken, and what steers.</param>
/// <param name="Moves">
/// For each bit from the lowest, the register's bit that it is now: always without a bar, else where the walk chose one.
/// </param>
/// <param name="Stays">Whether the bits may stay as they are.</param>
/// <param name="StaysNow">Whether they do so in this walk's cycle.</param>
internal sealed record Arrival(
    Register Register,
    int High,
    int Low,
    bool HasBar,
    IReadOnlyList<Tap> Taps,
    IReadOnlyList<LaneBit> Moves,
    bool Stays,
    bool StaysNow,
    int Line
)
{
    /// <summary>Whether the longest path of its step leads through the choice here.</summary>
    public bool IsLate { get; set; }
}

/// <summary>
/// What stands beside each other in a figure: blocks that do not wait for one another, or the registers as a moment leaves them.
/// </summary>
internal sealed record Level(
    int Step,
    int Moment,
    string Name,
    IReadOnlyList<Block> Blocks,
    IReadOnlyList<Arrival> Arrivals,
    IReadOnlyList<Lane> Before,
    IReadOnlyList<Lane> After,
    IReadOnlyList<string> Notes
)
{
    public bool IsArrival => Blocks.Count == 0;

    /// <summary>Of the last of a cycle, which bits carry nothing that registers hold behind it; null where nobody asked.</summary>
    public IdleRow? IdleAfter { get; init; }
}
