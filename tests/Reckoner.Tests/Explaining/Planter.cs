using Reckoner.Explaining;

namespace Reckoner.Tests.Explaining;

/// <summary>A table with a cause in it that is known.</summary>
internal sealed record Planted(string Kind, ulong[] Operands, List<UInt128> Rows, Mishap Mishap);

/// <summary>
/// Puts one cause into a table by working it out forwards. It shares the machines with the search, and nothing of how that looks.
/// </summary>
internal sealed class Planter(Ways ways, Random random)
{
    public static readonly string[] Kinds =
    [
        "slip",
        "other",
        "lapse",
        "from",
        "misread",
        "bit",
        "bit-not-carried",
        "exchanged",
        "moved",
        "kept",
        "repeated",
        "not-written",
        "stopped",
    ];

    private RowLayout Layout => ways.Layout;

    /// <summary>Null where what was drawn changes nothing.</summary>
    public Planted? Of(string kind)
    {
        var operands = ways.Samples[random.Next(ways.Samples.Count)];
        var right = ways.Right.Table(operands);
        var planted = kind switch
        {
            "slip" => Slip(operands),
            "other" => Other(operands),
            "lapse" => Lapse(operands, right),
            "from" => From(operands, right),
            "misread" => Misreading(operands),
            "repeated" => Repeated(operands, right),
            "not-written" => NotWritten(operands, right),
            "stopped" => Stopped(operands, right),
            _ => Copied(kind, operands, right),
        };
        return planted is null || planted.Rows.SequenceEqual(right) ? null : planted with { Kind = kind };
    }

    private static T? Drawn<T>(IReadOnlyList<T> items, Random random)
        where T : class => items.Count == 0 ? null : items[random.Next(items.Count)];

    private Planted? Slip(ulong[] operands) =>
        Drawn([.. ways.Slips.Where(s => !s.IsHarmless)], random) is not { } slip
            ? null
            : new Planted(
                "",
                operands,
                Shown(slip.Way.Table(operands)),
                new Slipped(slip.Slip, SlipExtent.Throughout, [])
            );

    private Planted? Other(ulong[] operands) =>
        Drawn([.. ways.Others.Where(o => !o.IsHarmless && o.Way.HasAllRegisters)], random) is not { } other
            ? null
            : new Planted("", operands, Shown(other.Way.Table(operands)), new WorkedOtherwise(other.Way.Datapath));

    private List<UInt128> Shown(List<UInt128> rows) => [.. rows.Select(r => r & Layout.Mask)];

    private Planted? Misreading(ulong[] operands)
    {
        var reading = ways.Readings[random.Next(ways.Readings.Count)];
        return reading.Of(ways.Datapath, operands) is { } read
            ? new Planted("", operands, ways.Right.Table(read), new Misread(reading))
            : null;
    }

    /// <summary>Works on from a row that was changed.</summary>
    private static List<UInt128> Worked(IReadOnlyList<UInt128> before, int at, UInt128 row, Way on)
    {
        List<UInt128> rows = [.. before, row];
        for (at = on.Next(at, row); at < on.MostCycles; at = on.Next(at, row))
        {
            rows.Add(row = on.After(at++, row));
        }
        return rows;
    }

    /// <summary>Where in the schedule each row of the right table is made.</summary>
    private List<int> Places(List<UInt128> right)
    {
        var (places, at) = (new List<int> { -1 }, 0);
        for (var i = 1; i < right.Count; i++)
        {
            at = ways.Right.Next(at, right[i - 1]);
            places.Add(at++);
        }
        return places;
    }

    private Planted? Lapse(ulong[] operands, List<UInt128> right)
    {
        if (right.Count < 2 || Drawn([.. ways.Slips.Where(s => s.IsLapsable)], random) is not { } slip)
        {
            return null;
        }
        var i = random.Next(1, right.Count);
        var at = Places(right)[i];
        var hidden = slip.Way.HiddenBits > 0 ? (UInt128)(uint)random.Next(2) << Layout.Bits : 0;
        var row = slip.Way.After(at, right[i - 1] | hidden) & Layout.Mask;
        return row == right[i]
            ? null
            : new Planted(
                "",
                operands,
                Worked(right[..i], at + 1, row, ways.Right),
                new Slipped(slip.Slip, SlipExtent.InRows, [i])
            );
    }

    private Planted? From(ulong[] operands, List<UInt128> right)
    {
        if (
            right.Count < 4
            || Drawn([.. ways.Slips.Where(s => s.IsLapsable && s.Way.HiddenBits == 0)], random) is not { } slip
        )
        {
            return null;
        }
        var i = random.Next(2, right.Count - 1);
        var at = Places(right)[i];
        var row = slip.Way.After(at, right[i - 1]);
        var rows = Worked(right[..i], at + 1, row, slip.Way);
        // Where the loop ends with this row it is a slip in this row alone.
        return row == right[i] || rows.Count == i + 1
            ? null
            : new Planted("", operands, rows, new Slipped(slip.Slip, SlipExtent.FromRow, [i]));
    }

    private Planted? Copied(string kind, ulong[] operands, List<UInt128> right)
    {
        var i = random.Next(kind == "kept" ? 1 : 0, right.Count);
        if (i >= right.Count)
        {
            return null;
        }
        var register = ways.Datapath.Registers[random.Next(ways.Datapath.Registers.Count)];
        var bits = Layout.Field(right[i], register.Index);
        var (wide, ones) = (register.Width, (ulong)RowLayout.Ones(register.Width));
        var place = random.Next(wide);
        var isCarried = kind != "bit-not-carried";
        var (how, changed) = kind switch
        {
            "exchanged" => place + 1 < wide && (((bits >> place) ^ (bits >> (place + 1))) & 1) != 0
                ? (CopyingKind.Exchanged, bits ^ (3UL << place))
                : (CopyingKind.Exchanged, bits),
            "moved" => wide < 3 ? (CopyingKind.MovedLeft, bits)
            : random.Next(2) == 0 ? (CopyingKind.MovedLeft, (bits << 1) & ones)
            : (CopyingKind.MovedRight, bits >> 1),
            "kept" => (CopyingKind.Kept, Layout.Field(right[i - 1], register.Index)),
            _ => (CopyingKind.OneBit, bits ^ (1UL << place)),
        };
        if (changed == bits || (!isCarried && i + 1 >= right.Count))
        {
            return null;
        }
        var row = Layout.With(right[i], register.Index, changed);
        var at = i == 0 ? 0 : Places(right)[i] + 1;
        List<UInt128> rows = isCarried
            ? Worked(right[..i], at, row, ways.Right)
            : [.. right[..i], row, .. right[(i + 1)..]];
        var named = how is CopyingKind.OneBit or CopyingKind.Exchanged ? place : 0;
        return new Planted("", operands, rows, new Miscopied(how, register, null, named, i, isCarried));
    }

    private Planted? Repeated(ulong[] operands, List<UInt128> right)
    {
        var i = random.Next(1, right.Count + 1);
        return i >= right.Count || right[i - 1] == right[i]
            ? null
            : new Planted(
                "",
                operands,
                [.. right[..i], right[i - 1], .. right[i..]],
                new RowsOff(RowsKind.Repeated, i, 1)
            );
    }

    private Planted? NotWritten(ulong[] operands, List<UInt128> right)
    {
        if (right.Count < 3)
        {
            return null;
        }
        var i = random.Next(1, right.Count - 1);
        return new Planted("", operands, [.. right[..i], .. right[(i + 1)..]], new RowsOff(RowsKind.NotWritten, i, 1));
    }

    private Planted? Stopped(ulong[] operands, List<UInt128> right)
    {
        if (right.Count < 3)
        {
            return null;
        }
        var left = random.Next(1, right.Count - 1);
        return new Planted(
            "",
            operands,
            right[..(left + 1)],
            new RowsOff(RowsKind.StoppedEarly, left, right.Count - left - 1)
        );
    }
}
