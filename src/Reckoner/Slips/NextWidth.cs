using System.Numerics;
using Reckoner.Checking;
using Reckoner.Datapaths;

namespace Reckoner.Slips;

/// <summary>
/// The main width and one more: whether conditions that were found at a width hold there too, for every operand. A condition that
/// fits at one width may do so by chance.
/// </summary>
internal static class NextWidth
{
    /// <summary>The machine at the next width; null when it cannot be that wide or has too many operands.</summary>
    public static Datapath? Of(Datapath datapath, int mostBits)
    {
        if (datapath.Widths.Count == 0)
        {
            return null;
        }
        var (main, width) = datapath.Widths[0];
        var machine = datapath.Machine;
        var usual = machine.Built(new Dictionary<string, BigInteger> { [main] = width })?.Widths ?? [];
        // A width that was chosen stays; one that has its default takes the next default.
        var chosen = datapath.Widths.Except(usual).ToDictionary(w => w.Name, w => w.Value);
        chosen[main] = width + 1;
        return machine.Built(chosen) is { } next && next.Operands.Sum(o => o.Width) <= mostBits ? next : null;
    }

    /// <summary>
    /// For every slip, whether each of its conditions is again so exactly for the operands that expose it; null for a slip that
    /// cannot be built at that width.
    /// </summary>
    public static IReadOnlyList<IReadOnlyList<bool>?> Holding(
        Datapath next,
        IReadOnlyList<(Slip Slip, IReadOnlyList<Condition> Conditions)> slips,
        IPlaneEngine engine
    )
    {
        var right = new RightGates(next);
        var literals = new Dictionary<string, int>();
        foreach (var (condition, literal) in right.Candidates())
        {
            literals.TryAdd(condition.Shape, literal);
        }
        int Literal(Condition c) =>
            c.Key switch
            {
                "slips.always" => GateGraph.One,
                "slips.and" => right.Graph.And(Literal(c.Parts[0]), Literal(c.Parts[1])),
                "slips.or" => right.Graph.Or(Literal(c.Parts[0]), Literal(c.Parts[1])),
                _ => literals[c.Shape],
            };
        var differs = new List<int>();
        var counts = new List<int?>();
        foreach (var (slip, conditions) in slips)
        {
            if (SlipStudy.Built(next, slip) is not { } slipped)
            {
                counts.Add(null);
                continue;
            }
            var exposed = right.Exposing(slipped);
            differs.AddRange(
                conditions.Select(c =>
                    Planes.Differ(right.Graph, [exposed], [right.Graph.And(right.Given, Literal(c))])
                )
            );
            counts.Add(conditions.Count);
        }
        var anywhere = Anywhere(right.Space, PlaneProgram.Of(right.Graph, differs), engine);
        var at = 0;
        var holding = new List<IReadOnlyList<bool>?>();
        foreach (var count in counts)
        {
            holding.Add(count is { } c ? [.. anywhere.Skip(at).Take(c).Select(differ => !differ)] : null);
            at += count ?? 0;
        }
        return holding;
    }

    /// <summary>For every output of a program whether it is 1 for any operands at all.</summary>
    private static bool[] Anywhere(CaseSpace space, PlaneProgram program, IPlaneEngine engine)
    {
        var kernel = engine.Compile(program);
        var memory = PlaneMemory.For(program.Slots);
        var found = new bool[program.Outputs.Count];
        for (long step = 0; step < space.Steps; step++)
        {
            foreach (var ((isLane, index), input) in space.Inputs.Select((place, i) => (place, i)))
            {
                var plane = PlaneMemory.Plane(memory, PlaneProgram.InputSlot(input));
                if (!isLane)
                {
                    plane.Fill(((step >> index) & 1) != 0 ? ulong.MaxValue : 0);
                }
                else if (step == 0)
                {
                    CaseSpace.FillLane(index, plane);
                }
            }
            kernel.Run(memory.Span);
            for (var o = 0; o < found.Length; o++)
            {
                var output = program.Outputs[o];
                found[o] |= PlaneMemory
                    .Plane(memory, output.Slot)
                    .ContainsAnyExcept(output.Turned ? ulong.MaxValue : 0UL);
            }
        }
        return found;
    }
}
