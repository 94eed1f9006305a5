using Reckoner.Datapaths;

namespace Reckoner.Checking;

/// <summary>
/// Bits of operands that are the same in all cases that are asked about, so that no other case needs to be visited. Those are
/// found that show by folding: with the bit turned over, and what was found before put in, the gates of the formula come to 0.
/// </summary>
internal sealed class FixedBits
{
    /// <summary>So many gates may be folded in all to find them, less than a second's work; bits not looked at by then stay free.</summary>
    private const int MostGates = 1 << 20;

    private readonly bool?[][] bits;

    private FixedBits(bool?[][] bits) => this.bits = bits;

    public static FixedBits None(IReadOnlyList<Operand> operands) => new([.. operands.Select(o => new bool?[o.Width])]);

    /// <summary>Null where a bit is free.</summary>
    public bool? this[int operand, int bit] => bits[operand][bit];

    public int Count => bits.Sum(b => b.Count(x => x is not null));

    /// <summary>Of the operands for which all of some formulas hold.</summary>
    /// <exception cref="LawBeyondPlanesException">A formula takes too many gates.</exception>
    public static FixedBits Of(IReadOnlyList<Operand> operands, Func<FormulaPlanes, GateGraph, int> holds)
    {
        var known = None(operands);
        var room = MostGates;
        foreach (var operand in operands)
        {
            // From above: what a comparison says of a bit depends on those above it.
            for (var bit = operand.Width - 1; bit >= 0; bit--)
            {
                ref var here = ref known.bits[operand.Index][bit];
                foreach (var value in new[] { true, false })
                {
                    here = value;
                    var isNever = IsNever(operands, known, holds, ref room);
                    here = isNever == true ? !value : null;
                    if (isNever is null)
                    {
                        return known;
                    }
                    if (isNever.Value)
                    {
                        break;
                    }
                }
            }
        }
        return known;
    }

    /// <summary>Null where there is no room for the gates that would tell.</summary>
    private static bool? IsNever(
        IReadOnlyList<Operand> operands,
        FixedBits known,
        Func<FormulaPlanes, GateGraph, int> holds,
        ref int room
    )
    {
        var graph = new GateGraph(operands.Sum(o => o.Width)) { Most = room };
        try
        {
            return holds(new FormulaPlanes(graph, MachineGates.Words(operands, known.Literals(operands))), graph)
                == GateGraph.Zero;
        }
        catch (GatesBeyondRoomException)
        {
            return null;
        }
        finally
        {
            room -= graph.Gates.Count;
        }
    }

    /// <summary>The operands' bits: inputs of a graph in their order, and constants where they are fixed.</summary>
    public List<int[]> Literals(IReadOnlyList<Operand> operands) =>
        [
            .. MachineGates
                .OperandLiterals(operands)
                .Select(
                    (literals, o) =>
                        literals
                            .Select((l, bit) => bits[o][bit] is { } one ? (one ? GateGraph.One : GateGraph.Zero) : l)
                            .ToArray()
                ),
        ];
}
