using Reckoner.Checking;
using Reckoner.Datapaths;
using Reckoner.Numbers;

namespace Reckoner.Page.State;

/// <summary>Operands drawn at random from those that the machine is for.</summary>
public static class DrawnOperands
{
    /// <summary>So many are tried where "given" excludes some.</summary>
    public const int Tries = 500;

    /// <summary>In decimal, in the order of the text; null where none that was tried is given.</summary>
    public static IReadOnlyList<string>? Of(Datapath datapath, int seed)
    {
        return
            new OperandSample(datapath, Tries, seed, []).Operands().FirstOrDefault(o => datapath.IsGiven(o))
                is { } drawn
            ? [.. datapath.Operands.Zip(drawn, (o, bits) => Bits.Text(o.Number(bits)))]
            : null;
    }
}
