namespace Reckoner.Checking;

/// <summary>
/// What is known of other planes in the cases where a literal is 1: an OR that is 0 has only zeros as inputs, and so on backwards
/// from gate to gate. Follows one literal at a time, since a condition is asked about bit after bit.
/// </summary>
internal sealed class Implications(GateGraph graph)
{
    /// <summary>A walk backwards ends after so many planes; what was found until then is true all the same.</summary>
    private const int Most = 512;

    private readonly Dictionary<int, bool> known = [];
    private readonly Queue<int> open = [];
    private int literal = -1;

    /// <summary>A literal as it stands where a condition is 1: a constant if it can be nothing else there.</summary>
    public int Given(int condition, int literal)
    {
        if (condition >> 1 == 0 || literal >> 1 == 0)
        {
            return literal;
        }
        Follow(condition);
        return Value(literal >> 1) is { } one ? GateGraph.Zero + (one == ((literal & 1) == 0) ? 1 : 0) : literal;
    }

    private bool? Value(int plane)
    {
        if (known.TryGetValue(plane, out var one))
        {
            return one;
        }
        if (plane <= graph.Inputs)
        {
            return null;
        }
        var rows = Rows(graph.Gates[plane - 1 - graph.Inputs]);
        var function = graph.Gates[plane - 1 - graph.Inputs].Function;
        return (function & rows) == 0 ? false
            : (~function & rows) == 0 ? true
            : null;
    }

    /// <summary>The rows of a gate's table that agree with what is known of its inputs.</summary>
    private int Rows(Gate gate) => Agreeing(gate.A, 0xF0) & Agreeing(gate.B, 0xCC) & Agreeing(gate.C, 0xAA);

    private int Agreeing(int plane, int ones) =>
        plane == 0 ? ~ones & 0xFF
        : !known.TryGetValue(plane, out var one) ? 0xFF
        : one ? ones
        : ~ones & 0xFF;

    private void Follow(int condition)
    {
        if (condition == literal)
        {
            return;
        }
        literal = condition;
        known.Clear();
        open.Clear();
        Learn(condition >> 1, (condition & 1) == 0);
        while (open.Count > 0 && known.Count < Most)
        {
            var plane = open.Dequeue();
            var gate = graph.Gates[plane - 1 - graph.Inputs];
            var rows = Rows(gate) & (known[plane] ? gate.Function : ~gate.Function);
            LearnFrom(rows, gate.A, 0xF0);
            LearnFrom(rows, gate.B, 0xCC);
            LearnFrom(rows, gate.C, 0xAA);
        }
    }

    private void LearnFrom(int rows, int plane, int ones)
    {
        if ((rows & ones) == 0)
        {
            Learn(plane, false);
        }
        else if ((rows & ~ones & 0xFF) == 0)
        {
            Learn(plane, true);
        }
    }

    private void Learn(int plane, bool one)
    {
        if (plane != 0 && known.TryAdd(plane, one) && plane > graph.Inputs)
        {
            open.Enqueue(plane);
        }
    }
}
