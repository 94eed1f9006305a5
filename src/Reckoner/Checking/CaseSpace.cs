using System.Numerics;
using Reckoner.Datapaths;

namespace Reckoner.Checking;

/// <summary>What a bit of an operand runs over.</summary>
internal enum CaseAxis
{
    Lane,
    Step,

    /// <summary>Nothing: it is the same in every case.</summary>
    Fixed,
}

/// <param name="Index">Which bit of the lane's number or of the step's; of a fixed one its value.</param>
internal readonly record struct CasePlace(CaseAxis Axis, int Index);

/// <summary>
/// How all operands are laid out: some bits run over the lanes of a plane, the others over steps from one run of a program to
/// the next. Lanes take the last operand's bits from below, then other operands' from above, so that the first operand counts
/// up by one from step to step as long as its lower bits last. Bits that are fixed run over nothing.
/// </summary>
public sealed class CaseSpace
{
    private const int MostCounted = 62;

    private readonly CasePlace[][] places;

    public CaseSpace(IReadOnlyList<Operand> operands)
        : this(operands, FixedBits.None(operands)) { }

    internal CaseSpace(IReadOnlyList<Operand> operands, FixedBits known)
    {
        Operands = operands;
        Known = known;
        Bits = operands.Sum(o => o.Width);
        FreeBits = Bits - known.Count;
        LaneBits = Math.Min(PlaneMemory.LaneBits, FreeBits);
        places = [.. operands.Select(o => new CasePlace[o.Width])];
        var lane = 0;
        var stepping = new List<(int Operand, int Bit)>();
        for (var o = operands.Count - 1; o >= 0; o--)
        {
            var order = Enumerable.Range(0, operands[o].Width);
            foreach (var bit in o == operands.Count - 1 && o > 0 ? order : order.Reverse())
            {
                if (known[o, bit] is { } one)
                {
                    places[o][bit] = new(CaseAxis.Fixed, one ? 1 : 0);
                }
                else if (lane < LaneBits)
                {
                    places[o][bit] = new(CaseAxis.Lane, lane++);
                }
                else
                {
                    stepping.Add((o, bit));
                }
            }
        }
        var step = 0;
        foreach (var (o, bit) in stepping.OrderBy(s => s))
        {
            places[o][bit] = new(CaseAxis.Step, step++);
        }
    }

    public IReadOnlyList<Operand> Operands { get; }

    internal FixedBits Known { get; }

    /// <summary>All operands' bits together.</summary>
    public int Bits { get; }

    /// <summary>Those that are not the same in every case.</summary>
    internal int FreeBits { get; }

    public int LaneBits { get; }

    /// <summary>Runs of a program that cover everything, however many they are.</summary>
    public BigInteger AllSteps => BigInteger.One << (FreeBits - LaneBits);

    /// <summary>The same where they can be counted; who asks for more has not looked at <see cref="AllSteps"/>.</summary>
    public long Steps => (long)AllSteps;

    public int Lanes => 1 << LaneBits;

    /// <summary>
    /// The first operand counts up by one from step to step, while the others stand still, for so many steps from a multiple of
    /// that number on: as long as its low bits last, its sign bit left out. Without operands there is one step.
    /// </summary>
    public long StepsInARow
    {
        get
        {
            if (Operands.Count == 0)
            {
                return 1;
            }
            var counting = places[0].TakeWhile((p, bit) => p == new CasePlace(CaseAxis.Step, bit)).Count();
            return 1L << Math.Min(Math.Min(MostCounted, counting), Operands[0].Width - (Operands[0].IsSigned ? 1 : 0));
        }
    }

    /// <summary>Where each bit of each operand runs, in input order: operand by operand, lowest bit first.</summary>
    internal IEnumerable<CasePlace> Inputs => places.SelectMany(p => p);

    /// <summary>The operands' bits in one case.</summary>
    public BigInteger[] At(long step, int lane)
    {
        var values = new BigInteger[Operands.Count];
        for (var o = 0; o < values.Length; o++)
        {
            for (var bit = 0; bit < places[o].Length; bit++)
            {
                if (IsOne(places[o][bit], step, lane))
                {
                    values[o] |= BigInteger.One << bit;
                }
            }
        }
        return values;
    }

    private static bool IsOne(CasePlace place, long step, int lane) =>
        place.Axis switch
        {
            CaseAxis.Lane => ((lane >> place.Index) & 1) != 0,
            CaseAxis.Step => ((step >> place.Index) & 1) != 0,
            CaseAxis.Fixed => place.Index != 0,
        };

    /// <summary>A floor under the sum of the operands' magnitudes over all cases of a step.</summary>
    public BigInteger LeastSum(long step) => LeastSum(step, 0);

    /// <summary>The same over a row of 2 to a power steps.</summary>
    /// <param name="step">A multiple of their number.</param>
    internal BigInteger LeastSum(long step, int power)
    {
        var sum = BigInteger.Zero;
        var (least, most) = (At(step, 0), At(step | ((1L << power) - 1), Lanes - 1));
        foreach (var operand in Operands)
        {
            sum += Least(operand, least[operand.Index], most[operand.Index]);
        }
        return sum;
    }

    /// <summary>The least magnitude between two patterns of an operand's bits.</summary>
    private static BigInteger Least(Operand operand, BigInteger least, BigInteger most)
    {
        var border = BigInteger.One << (operand.Width - 1);
        if (!operand.IsSigned || most < border)
        {
            return least;
        }
        var below = 2 * border - most;
        return least >= border ? below : BigInteger.Min(least, below);
    }

    /// <summary>The pattern of a lane bit in the words of a plane.</summary>
    public static void FillLane(int index, Span<ulong> plane)
    {
        ReadOnlySpan<ulong> within =
        [
            0xAAAAAAAAAAAAAAAA,
            0xCCCCCCCCCCCCCCCC,
            0xF0F0F0F0F0F0F0F0,
            0xFF00FF00FF00FF00,
            0xFFFF0000FFFF0000,
            0xFFFFFFFF00000000,
        ];
        for (var word = 0; word < plane.Length; word++)
        {
            plane[word] =
                index < 6 ? within[index]
                : ((word >> (index - 6)) & 1) != 0 ? ulong.MaxValue
                : 0;
        }
    }
}
