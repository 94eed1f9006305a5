using Reckoner.Checking;
using Reckoner.Claims;

namespace Reckoner.Choosing;

/// <summary>The shortcuts of <see cref="Shortcuts"/> as gates: a literal for each that is seen by operands and results alone.</summary>
internal sealed class ShortcutGates(MachineGates gates)
{
    private readonly GateGraph graph = gates.Graph;

    /// <summary>In the order of <see cref="Shortcut"/>; those of slips are not among them.</summary>
    public IReadOnlyList<int> Literals
    {
        get
        {
            var operands = gates.Datapath.Variables.Where(v => v.Kind == VariableKind.Operand).ToList();
            var asked = Shortcuts.Asked(gates.Datapath).ToList();
            var pairs = operands.SelectMany((a, i) => operands.Skip(i + 1).Select(b => (a, b)));
            return
            [
                Any(operands.Select(IsSmall)),
                Any(operands.Concat(asked).Select(IsPowerOfTwo)),
                Any(pairs.Select(p => AreEqual(p.a, p.b))),
                Any(asked.Select(IsSmall)),
            ];
        }
    }

    private int Any(IEnumerable<int> literals) => literals.Aggregate(GateGraph.Zero, graph.Or);

    private int All(IEnumerable<int> literals) => literals.Aggregate(GateGraph.One, graph.And);

    private int[] Bits(Variable variable) => gates.Number(variable.Name)!;

    /// <summary>0, 1 or -1.</summary>
    private int IsSmall(Variable number)
    {
        var bits = Bits(number);
        var small = GateGraph.Not(Any(bits.Skip(1)));
        return number.IsSigned ? graph.Or(small, All(bits)) : small;
    }

    /// <summary>One bit above the lowest alone; of a negative number ones from some place up and zeros below it.</summary>
    private int IsPowerOfTwo(Variable number)
    {
        var bits = Bits(number);
        var (one, more) = (GateGraph.Zero, GateGraph.Zero);
        foreach (var bit in bits)
        {
            more = graph.Or(more, graph.And(one, bit));
            one = graph.Or(one, bit);
        }
        // A signed word of a top bit alone is the negative of a power.
        var isPower = graph.And(graph.And(one, GateGraph.Not(more)), GateGraph.Not(bits[0]));
        if (!number.IsSigned)
        {
            return isPower;
        }
        var (broken, seen) = (GateGraph.Zero, GateGraph.Zero);
        foreach (var bit in bits)
        {
            broken = graph.Or(broken, graph.And(seen, GateGraph.Not(bit)));
            seen = graph.Or(seen, bit);
        }
        var isNegative = graph.And(graph.And(seen, GateGraph.Not(broken)), GateGraph.Not(bits[0]));
        return graph.Or(isPower, isNegative);
    }

    private int AreEqual(Variable a, Variable b)
    {
        var width = Math.Max(a.Width, b.Width) + 1;
        return GateGraph.Not(Planes.Differ(graph, Wide(a, width), Wide(b, width)));
    }

    private int[] Wide(Variable number, int width) =>
        number.IsSigned
            ? Planes.Extended(Bits(number), width)
            : [.. Bits(number), .. Enumerable.Repeat(GateGraph.Zero, width - number.Width)];
}
