namespace Reckoner.Explaining;

/// <summary>How a table is worked as a whole, before anything goes wrong in a row of it.</summary>
/// <param name="Mishap">What is wrong with that; null where nothing is.</param>
/// <param name="Bits">How much it takes to say it.</param>
internal sealed record Mode(Way Way, ulong[] Operands, Mishap? Mishap, double Bits)
{
    public int Causes => Mishap is null ? 0 : 1;

    /// <summary>
    /// Every way and every reading of the operands, the machine's own first, then others whose results are right: before anybody is
    /// blamed for something, it is asked whether it can be done so.
    /// </summary>
    public static IReadOnlyList<Mode> Of(Ways ways, ulong[] operands)
    {
        var right = ways.Right.Final(operands);
        var slip = Math.Log2(ways.Slips.Count + 1);
        var modes = new List<Mode> { new(ways.Right, operands, null, 0) };
        foreach (var other in ways.Others)
        {
            var isRight = other.IsHarmless && other.Way.Final(operands).AsSpan().SequenceEqual(right);
            modes.Add(new Mode(other.Way, operands, isRight ? null : new WorkedOtherwise(other.Way.Datapath), 4));
        }
        foreach (var way in ways.Slips)
        {
            var isRight = way.IsHarmless && way.Way.Final(operands).AsSpan().SequenceEqual(right);
            var mishap = isRight ? null : new Slipped(way.Slip, SlipExtent.Throughout, []);
            modes.Add(new Mode(way.Way, operands, mishap, 2 + slip));
        }
        foreach (var reading in ways.Readings)
        {
            if (reading.Of(ways.Datapath, operands) is { } read)
            {
                modes.Add(new Mode(ways.Right, read, new Misread(reading), 7));
            }
        }
        return [.. modes.OrderBy(m => m.Causes)];
    }
}
