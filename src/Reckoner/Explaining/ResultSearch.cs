namespace Reckoner.Explaining;

/// <summary>
/// Looks for what gives just these results where no row was seen. What happens throughout comes first; a slip in one row alone is
/// asked for only where nothing else gives them, since among so many rows one fits too easily.
/// </summary>
internal sealed class ResultSearch(Ways ways, ulong[] operands, Seen seen)
{
    /// <summary>A result is read off wrongly less often than something is worked out wrongly: behind all slips.</summary>
    private const double OffBits = 12;

    public IReadOnlyList<Explanation> With(IReadOnlyList<Mode> modes, int causes)
    {
        var fitting = modes.Where(m => m.Causes <= causes).SelectMany(m => Of(m, causes)).ToList();
        if (fitting.Count == 0 && causes == 1)
        {
            fitting.AddRange(Lapses());
        }
        if (fitting.Count == 0 && causes == 2)
        {
            fitting.AddRange(MisreadToo());
        }
        return [.. fitting.OrderBy(e => e.Bits)];
    }

    private IEnumerable<Explanation> Of(Mode mode, int causes)
    {
        var final = mode.Way.Final(mode.Operands);
        IReadOnlyList<Mishap> mishaps = mode.Mishap is { } mishap ? [mishap] : [];
        if (seen.Agrees(final))
        {
            yield return new Explanation(mode.Way, mode.Operands, mishaps, mode.Bits);
        }
        else if (mode.Causes < causes && ResultReading.Of(ways.Datapath, final, seen.Results) is { } off)
        {
            yield return new Explanation(mode.Way, mode.Operands, [.. mishaps, off], mode.Bits + OffBits);
        }
    }

    private IEnumerable<Explanation> Lapses()
    {
        var (right, table) = (ways.Right, ways.Right.Table(operands));
        var slipBits = Math.Log2(ways.Slips.Count + 1) + Math.Log2(Math.Max(2, table.Count));
        foreach (var slip in ways.Slips.Where(s => s.IsLapsable && s.Way.HiddenBits == 0))
        {
            var at = 0;
            for (var i = 1; i < table.Count; i++)
            {
                at = right.Next(at, table[i - 1]);
                var row = slip.Way.After(at++, table[i - 1]);
                if (row == table[i])
                {
                    continue;
                }
                for (var on = right.Next(at, row); on < right.MostCycles; on = right.Next(on + 1, row))
                {
                    row = right.After(on, row);
                }
                if (seen.Agrees(right.Results(row)))
                {
                    yield return new Explanation(
                        right,
                        operands,
                        [new Slipped(slip.Slip, SlipExtent.InRows, [i])],
                        3 + slipBits
                    );
                }
            }
        }
    }

    /// <summary>A slip, or another machine, and operands misread.</summary>
    private IEnumerable<Explanation> MisreadToo()
    {
        foreach (var reading in ways.Readings)
        {
            if (reading.Of(ways.Datapath, operands) is not { } read)
            {
                continue;
            }
            foreach (var mode in Mode.Of(ways, read).Where(m => m.Mishap is Slipped or WorkedOtherwise))
            {
                if (seen.Agrees(mode.Way.Final(read)))
                {
                    yield return new Explanation(mode.Way, read, [new Misread(reading), mode.Mishap!], mode.Bits + 7);
                }
            }
        }
    }
}
