using System.Numerics;
using Reckoner.Checking;
using Reckoner.Datapaths;
using Reckoner.Numbers;

namespace Reckoner.Refining;

/// <summary>Widths at which every operand was run: laws, what is stated outside, and equal results with another machine.</summary>
/// <param name="Widths">Each choice, in the order in which they were run.</param>
/// <param name="Fails">The first that fails, with its operands; null where nothing does.</param>
internal sealed record Exhausted(
    IReadOnlyList<IReadOnlyList<(string Name, BigInteger Value)>> Widths,
    (Datapath Datapath, IReadOnlyList<BigInteger> Operands)? Fails
)
{
    /// <summary>So many bits of operands together take a moment with interpreted gates, word by word so many.</summary>
    private const int MostBits = 18;
    private const int MostBitsOfWords = 10;

    /// <summary>Widths on both sides of powers of two.</summary>
    private static readonly (int Main, int Other)[] Wanted =
    [
        (1, 1),
        (2, 2),
        (3, 2),
        (4, 3),
        (5, 3),
        (6, 4),
        (7, 3),
        (8, 4),
        (9, 5),
    ];

    /// <param name="first">What results are held against, where it can be as wide; null for nothing.</param>
    /// <param name="engine">Runs the gates.</param>
    /// <param name="mostBits">At most so many bits of operands.</param>
    public static Exhausted Of(IMachine machine, IMachine? first, IPlaneEngine engine, int mostBits = MostBits)
    {
        var widths = new List<IReadOnlyList<(string, BigInteger)>>();
        foreach (var datapath in Settings.Of(machine, Wanted))
        {
            var there = first is null ? null : Settings.Same(first, datapath);
            if (
                datapath.Operands.Sum(o => o.Width) > mostBits
                || (first is not null && there is null)
                || Run(datapath, there, engine) is not { } counts
            )
            {
                continue;
            }
            widths.Add(datapath.Widths);
            if (counts.FirstOrDefault(c => c.Smallest is not null)?.Smallest is { } failing)
            {
                return new Exhausted(widths, (datapath, failing.Operands));
            }
        }
        return new Exhausted(widths, null);
    }

    /// <summary>Choices of widths in short: "n = 2..9" where they are one after the other, "n = 32, 33, 64" where they are of one alone.</summary>
    public static string Text(IReadOnlyList<IReadOnlyList<(string Name, BigInteger Value)>> widths)
    {
        if (widths.Count < 2 || !widths.All(w => w.Count == 1))
        {
            return string.Join("; ", widths.Select(w => WidthText.Of(w)));
        }
        var values = widths.Select(w => w[0].Value).ToList();
        var isRow = values[^1] - values[0] == values.Count - 1;
        return $"{widths[0][0].Name} = " + (isRow ? $"{values[0]}..{values[^1]}" : string.Join(", ", values));
    }

    /// <summary>Null where they are too many for words, and a claim cannot become gates, or the gates are too many.</summary>
    private static IReadOnlyList<SectionCount>? Run(Datapath datapath, Datapath? first, IPlaneEngine engine)
    {
        try
        {
            return Counted(datapath, first, engine);
        }
        catch (GatesBeyondRoomException)
        {
            return null;
        }
    }

    private static IReadOnlyList<SectionCount>? Counted(Datapath datapath, Datapath? first, IPlaneEngine engine)
    {
        if (CheckProgram.IfGates(datapath, first, OracleUse.Stepped) is { } gates)
        {
            var run = new CheckRun(gates, engine);
            run.Run(0, gates.Space.Steps);
            return run.Counts;
        }
        if (datapath.Operands.Sum(o => o.Width) > MostBitsOfWords)
        {
            return null;
        }
        var words = new WordCheck(datapath, first);
        return words.Run(0, words.Space.Steps).Counts;
    }
}
