using System.Numerics;
using Reckoner.Datapaths;

namespace Reckoner.Checking;

/// <summary>
/// Whether the laws fix the results: an example of operands and other results that would satisfy them too, or none. Looked for
/// at the widest width, not above the asked one, at which operands and results can be exhausted together.
/// </summary>
/// <param name="Width">The main width at which it was looked for; null: at no width of the range can it be exhausted.</param>
public sealed record LawStrength(
    BigInteger? Width,
    IReadOnlyList<BigInteger>? Operands,
    IReadOnlyList<BigInteger>? Results,
    Datapath? At
)
{
    private const int MostBits = 20;

    public bool Fixes => Width is not null && Operands is null;

    /// <summary>Null where the machine fails its laws at that width, for then not everything can be asked.</summary>
    public static LawStrength? Of(Datapath datapath, IPlaneEngine engine)
    {
        var (main, asked) = datapath.Widths[0];
        if (IsSearched(datapath, asked, engine, out var found))
        {
            return found;
        }
        // The bits of operands and results are about proportional to the main width.
        var widest = BigInteger.Min(asked - 1, asked * MostBits / Math.Max(1, Bits(datapath)) + 1);
        for (var width = widest; width > 0; width--)
        {
            var smaller = datapath.Machine.At(new Dictionary<string, BigInteger> { [main] = width }).Datapath;
            if (smaller is not null && IsSearched(smaller, width, engine, out var narrower))
            {
                return narrower;
            }
        }
        return new LawStrength(null, null, null, null);
    }

    private static int Bits(Datapath datapath) =>
        datapath.Operands.Sum(o => o.Width) + datapath.Results.Sum(r => r.Width);

    /// <summary>
    /// Results become operands of a machine-less question: do they satisfy the laws and differ from the machine's? Not asked
    /// where there are too many, or where a law cannot become gates.
    /// </summary>
    private static bool IsSearched(Datapath datapath, BigInteger width, IPlaneEngine engine, out LawStrength? found)
    {
        found = null;
        if (Bits(datapath) > MostBits || CheckProgram.Strength(datapath) is not { } check)
        {
            return false;
        }
        var run = new CheckRun(check, engine);
        run.Run(0, check.Space.Steps);
        var operands = datapath.Operands.Count;
        found =
            run.Counts[0].Smallest is { } other
                ? new LawStrength(
                    width,
                    [.. other.Operands.Take(operands)],
                    [.. other.Operands.Skip(operands)],
                    datapath
                )
            : run.Counts[1].Failures.IsZero ? new LawStrength(width, null, null, datapath)
            : null;
        return true;
    }
}
