namespace Reckoner.Explaining;

/// <summary>What can go wrong in a single row.</summary>
internal sealed partial class TableSearch
{
    /// <summary>A slip in this row alone, the same one again, or from here on.</summary>
    private void Lapses(Node node, int i, int at, UInt128 after, bool isMore)
    {
        var row = seen.Rows[i];
        foreach (var slip in ways.Slips)
        {
            var isAgain = slip == node.Lapse;
            if (!slip.IsLapsable || !(isMore || isAgain))
            {
                continue;
            }
            for (var hidden = UInt128.Zero; hidden <= (slip.Way.HiddenBits > 0 ? 1u : 0u); hidden++)
            {
                var made = slip.Way.After(at, node.Row | (hidden << layout.Bits));
                if (!row.Agrees(made) || (made & layout.Mask) == (after & layout.Mask))
                {
                    continue;
                }
                next.Add(isAgain ? Again(node, i, at, made) : Once(node, slip, i, at, made));
                break;
            }
            if (!isAgain && isMore && i > 1 && i + 1 < seen.Rows.Count && slip.Way.HiddenBits == 0)
            {
                From(node, slip, i, at, after);
            }
        }
    }

    private Node Once(Node node, SlipWay slip, int i, int at, UInt128 made) =>
        node.With(
            new Slipped(slip.Slip, SlipExtent.InRows, [i]),
            3 + slipBits + rowBits,
            at + 1,
            made & layout.Mask
        ) with
        {
            Lapse = slip,
        };

    /// <summary>The same lapse in another row is no other cause.</summary>
    private Node Again(Node node, int i, int at, UInt128 made) =>
        node.On(at + 1, made & layout.Mask) with
        {
            Bits = node.Bits + rowBits,
            Trail = InRowToo(node.Trail!, node.Lapse!, i),
        };

    private static Trail InRowToo(Trail trail, SlipWay slip, int i) =>
        trail.Mishap is Slipped { Extent: SlipExtent.InRows } made && made.Slip == slip.Slip
            ? trail with
            {
                Mishap = made with { Rows = [.. made.Rows, i] },
            }
            : trail with
            {
                Before = InRowToo(trail.Before!, slip, i),
            };

    private void From(Node node, SlipWay slip, int i, int at, UInt128 after)
    {
        var made = slip.Way.After(at, node.Row);
        if (!seen.Rows[i].Agrees(made) || made == after)
        {
            return;
        }
        var mode = node.Mode with { Way = slip.Way };
        var mishap = new Slipped(slip.Slip, SlipExtent.FromRow, [i]);
        next.Add(node.With(mishap, 3 + slipBits + rowBits, at + 1, made) with { Mode = mode, Lapse = null });
    }

    /// <summary>The row written otherwise than it was worked out, what was written carried on or not.</summary>
    /// <param name="on">The place in the schedule behind it.</param>
    private IEnumerable<Node> Miscopies(Node node, SeenRow row, SeenRow? above, int i, int on, UInt128 worked)
    {
        var written = row.Over(worked & layout.Mask);
        var hidden = worked & ~layout.Mask;
        if (written == (worked & layout.Mask))
        {
            yield break;
        }
        var aboveRow = above is { } a ? a.Over(node.Row & layout.Mask) : (UInt128?)null;
        foreach (var copy in Miscopying.Of(layout, worked & layout.Mask, written, aboveRow))
        {
            var carried = new Miscopied(copy.How, copy.Register, copy.Other, copy.Place, i, IsCarriedOn: true);
            yield return node.With(carried, 3 + copy.Bits + rowBits, on, hidden | written);
            if (i + 1 < seen.Rows.Count)
            {
                yield return node.With(carried with { IsCarriedOn = false }, 4 + copy.Bits + rowBits, on, worked);
            }
        }
    }

    /// <summary>What it takes to say no more than which registers of a row are wrong, and what stands there; the row left out.</summary>
    public static double Plainly(RowLayout layout, UInt128 worked, UInt128 written) =>
        layout
            .Datapath.Registers.Where(r => layout.Field(worked, r.Index) != layout.Field(written, r.Index))
            .Sum(r => Math.Log2(Math.Max(2, layout.Lows.Count)) + r.Width);
}
