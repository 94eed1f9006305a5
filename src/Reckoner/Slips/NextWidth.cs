using System.Numerics;
using Reckoner.Checking;
using Reckoner.Conditions;
using Reckoner.Datapaths;

namespace Reckoner.Slips;

/// <summary>
/// The main width and one more: whether conditions that were found at a width hold there too, for every operand. A condition that
/// fits at one width may do so by chance.
/// </summary>
internal static class NextWidth
{
    /// <summary>The machine at the next width; null when it cannot be that wide, has too many operands, or its "given" cannot become gates there.</summary>
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
        return
            machine.Built(chosen) is { } next
            && next.Operands.Sum(o => o.Width) <= mostBits
            && CheckProgram.GivenBeyondGates(next) is null
            ? next
            : null;
    }

    /// <summary>
    /// For every slip, whether each of its conditions, read at that width as it is said, is again so exactly for the operands that
    /// expose it; null for a slip that cannot be built at that width.
    /// </summary>
    public static IReadOnlyList<IReadOnlyList<bool>?> Holding(
        Datapath next,
        IReadOnlyList<(Slip Slip, IReadOnlyList<Condition> Conditions)> slips,
        IPlaneEngine engine
    )
    {
        var right = MachineGates.Of(next);
        var conditions = new ShortConditions(right);
        var literals = slips
            .SelectMany(s => s.Conditions)
            .Select(c => $"{c}")
            .Distinct()
            .ToDictionary(text => text, conditions.Literal);
        var differs = new List<int>();
        var counts = new List<int?>();
        foreach (var (slip, found) in slips)
        {
            if (SlipStudy.Built(next, slip) is not { } slipped)
            {
                counts.Add(null);
                continue;
            }
            var exposed = SlipStudy.Exposing(right, slipped);
            differs.AddRange(
                found.Select(c =>
                    // What means nothing there is not exact there.
                    literals[$"{c}"] is { } literal
                        ? Planes.Differ(right.Graph, [exposed], [right.Graph.And(right.Given, literal)])
                        : GateGraph.One
                )
            );
            counts.Add(found.Count);
        }
        var anywhere = Anywhere(new CaseSpace(next.Operands), PlaneProgram.Of(right.Graph, differs), engine);
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
        var sweep = new PlaneSweep(program, space, engine);
        var found = new bool[program.Outputs.Count];
        for (long step = 0; step < space.Steps; step++)
        {
            sweep.Set(step);
            sweep.Run();
            for (var o = 0; o < found.Length; o++)
            {
                var output = program.Outputs[o];
                found[o] |= sweep.Plane(output.Slot).ContainsAnyExcept(output.Turned ? ulong.MaxValue : 0UL);
            }
        }
        return found;
    }
}
