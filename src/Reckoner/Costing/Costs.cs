using Reckoner.Datapaths;
using Reckoner.Structure;

namespace Reckoner.Costing;

/// <summary>
/// Counts what a structure costs. State register and next-state logic are not counted, nor what tells choices before registers and
/// units which word it is: it is control. Wires take nothing.
/// </summary>
internal static class Costs
{
    /// <summary>Wider units are not counted in passing: a product of two such words alone takes ten thousand gates.</summary>
    private const int WidestInPassing = 64;

    /// <summary>Whether costs may stand beside something else without anybody waiting for them.</summary>
    public static bool InPassing(Datapath datapath) =>
        TableGates.Refusal(datapath) is null && datapath.Units.All(u => u.Size.Count <= WidestInPassing);

    public static MachineCost Of(Datapath datapath, AdderKind adder) =>
        Of(datapath, new AdderChoice(adder), CostModel.UnitGates);

    public static MachineCost Of(Datapath datapath, AdderChoice adders, CostModel model) =>
        Of(new CostedParts(MachineStructure.Of(datapath), model, adders));

    public static MachineCost Of(CostedParts parts) => Of(parts, [.. Paths(parts)]);

    /// <param name="paths">Those of all states, for who finds them one after the other.</param>
    public static MachineCost Of(CostedParts parts, IReadOnlyList<StepPath> paths) =>
        new()
        {
            Datapath = parts.Structure.Datapath,
            Structure = parts.Structure,
            Model = parts.Model,
            Adders = parts.Adders,
            Parts = [.. Areas(parts).Where(p => p.Area > 0)],
            Paths = paths,
            Cycles = (parts.Structure.Datapath.LeastCycles, parts.Structure.Datapath.MostCycles),
        };

    /// <summary>The load's first, then every step's, then every early stop's.</summary>
    internal static IEnumerable<StepPath> Paths(CostedParts parts) =>
        parts
            .Structure.States.Select(s => new StepPath(
                s.Step,
                null,
                new CycleTiming(parts, s.Settings).Longest(s.Number)
            ))
            .Concat(
                parts.Structure.EarlyStops.Select(e => new StepPath(
                    null,
                    e.Loop,
                    new CycleTiming(parts, e.Settings).Longest(e.Goes)
                ))
            );

    private static IEnumerable<CostPart> Areas(CostedParts parts)
    {
        var model = parts.Model;
        var registers = parts.Structure.Datapath.Registers.Sum(r => (long)r.Width);
        yield return new CostPart(CostKind.Registers, null, registers, registers * model.Register.Area);
        var fields = parts.Registers.SelectMany(r => r.Fields);
        yield return Choices(CostKind.RegisterInputs, fields.Sum(f => (long)f.Field.Width * f.Choices));
        foreach (var unit in parts.Units.Values)
        {
            yield return new CostPart(
                CostKind.Unit,
                unit.Structure.Unit,
                unit.Structure.Unit.Size.Count,
                unit.Gates.Area(model)
            );
        }
        var inputs = parts.Units.Values.SelectMany(u => u.Inputs);
        yield return Choices(CostKind.UnitInputs, inputs.Sum(words => words[0].Width * (words.Count - 1L)));
        var nets = parts.Structure.Nets;
        yield return Summed(CostKind.Choices, nets.Where(n => n.Kind == NetKind.Choice).Select(n => Chosen(n, model)));
        yield return Summed(CostKind.Gates, nets.Select(n => Gates(n, model)));
        yield return Summed(
            CostKind.Tables,
            nets.Where(n => n.Table is not null)
                .Select(n => (Bits: (long)n.Table!.Cells.Count * n.Width, Table: n.Table))
                .Select(t =>
                    (t.Bits, model.TableBit is { } bit ? t.Bits * bit.Area : parts.Tables[t.Table].Area(model))
                )
        );
        var counter = parts.Structure.Datapath.RoundBits;
        yield return new CostPart(CostKind.Counter, null, counter, (long)counter * model.CounterArea);

        CostPart Choices(CostKind kind, long bits) => new(kind, null, bits, bits * model.Choice.Area);
    }

    private static CostPart Summed(CostKind kind, IEnumerable<(long Bits, long Area)> each)
    {
        var all = each.ToList();
        return new CostPart(kind, null, all.Sum(e => e.Bits), all.Sum(e => e.Area));
    }

    /// <summary>By bit whether a bundle is constant there.</summary>
    private static IEnumerable<bool> Constant(Bundle bundle) =>
        bundle.Stretches.SelectMany(s => Enumerable.Repeat(s.Net is null, s.Width));

    /// <summary>A choice of which one word is constant in a place is a gate there, and of which both are, the condition itself.</summary>
    private static (long Bits, long Area) Chosen(Net net, CostModel model) =>
        (
            net.Width,
            Constant(net.Inputs[1])
                .Zip(
                    Constant(net.Inputs[2]),
                    (one, zero) =>
                        one && zero ? model.Not.Area
                        : one || zero ? Math.Max(model.And.Area, model.Or.Area)
                        : (long)model.Choice.Area
                )
                .Sum()
        );

    private static (long Bits, long Area) Gates(Net net, CostModel model) =>
        net.Kind switch
        {
            NetKind.And => (Varying(net), Varying(net) * model.And.Area),
            NetKind.Or => (Varying(net), Varying(net) * model.Or.Area),
            NetKind.Xor => (Varying(net), Varying(net) * model.Xor.Area),
            NetKind.Not => (net.Width, (long)net.Width * model.Not.Area),
            NetKind.Equal => (
                net.Inputs[0].Width,
                (Varying(net) * model.Xor.Area) + ((net.Inputs[0].Width - 1L) * model.And.Area)
            ),
            NetKind.Operand or NetKind.Register or NetKind.Last or NetKind.Unit or NetKind.Choice or NetKind.Lookup => (
                0,
                0
            ),
        };

    /// <summary>The places in which neither input is constant; in the others the gate is a wire or an inverter.</summary>
    private static long Varying(Net net) =>
        Constant(net.Inputs[0]).Zip(Constant(net.Inputs[1])).Count(p => !p.First && !p.Second);
}
