using System.Numerics;
using Reckoner.Datapaths;

namespace Reckoner.Explaining;

/// <summary>A way to miscopy a row, and how much it takes to say it.</summary>
internal readonly record struct Miscopy(CopyingKind How, Register Register, Register? Other, int Place, double Bits);

/// <summary>How one row becomes another by a single error of copying.</summary>
internal static class Miscopying
{
    /// <param name="worked">The row as it was worked out.</param>
    /// <param name="written">As it stands, cells that are empty filled in as worked out.</param>
    /// <param name="above">The row above as it stands; null where there is none.</param>
    public static IEnumerable<Miscopy> Of(RowLayout layout, UInt128 worked, UInt128 written, UInt128? above)
    {
        var differing = layout
            .Datapath.Registers.Where(r => layout.Field(worked, r.Index) != layout.Field(written, r.Index))
            .Take(3)
            .ToList();
        return differing.Count switch
        {
            1 => One(
                differing[0],
                layout.Field(worked, differing[0].Index),
                layout.Field(written, differing[0].Index),
                above is { } row ? layout.Field(row, differing[0].Index) : null,
                Math.Log2(layout.Bits)
            ),
            2 => Columns(layout, worked, written, differing[0], differing[1]),
            _ => [],
        };
    }

    private static IEnumerable<Miscopy> Columns(
        RowLayout layout,
        UInt128 worked,
        UInt128 written,
        Register first,
        Register second
    )
    {
        if (
            first.Width == second.Width
            && layout.Field(worked, first.Index) == layout.Field(written, second.Index)
            && layout.Field(worked, second.Index) == layout.Field(written, first.Index)
        )
        {
            yield return new Miscopy(CopyingKind.Columns, first, second, 0, 4);
        }
    }

    private static IEnumerable<Miscopy> One(Register register, ulong worked, ulong written, ulong? above, double cell)
    {
        var (wrong, width) = (worked ^ written, register.Width);
        var low = BitOperations.TrailingZeroCount(wrong);
        if (BitOperations.PopCount(wrong) == 1)
        {
            yield return Found(CopyingKind.OneBit, low, cell);
        }
        // At the top of 64 bits the upper of the two falls out.
        if (BitOperations.PopCount(wrong) == 2 && wrong == 3UL << low && BitOperations.PopCount(worked & wrong) == 1)
        {
            yield return Found(CopyingKind.Exchanged, low, cell);
        }
        if (width > 2)
        {
            var ones = (ulong)RowLayout.Ones(width);
            if (written >> 1 == (worked & (ones >> 1)))
            {
                yield return Found(CopyingKind.MovedLeft, 0, cell);
            }
            if (worked >> 1 == (written & (ones >> 1)))
            {
                yield return Found(CopyingKind.MovedRight, 0, cell);
            }
            if (FirstPlace(width, p => IsLeftOut(worked, written, p, ones)) is { } gone)
            {
                yield return Found(CopyingKind.DigitLeftOut, gone, cell + 1);
            }
            if (FirstPlace(width, p => IsTwice(worked, written, p, ones)) is { } twice)
            {
                yield return Found(CopyingKind.DigitTwice, twice, cell + 1);
            }
        }
        if (written == above)
        {
            yield return Found(CopyingKind.Kept, 0, 3);
        }

        Miscopy Found(CopyingKind how, int place, double bits) => new(how, register, null, place, bits);
    }

    private static int? FirstPlace(int width, Func<int, bool> fits)
    {
        // At either end it would only be moved.
        for (var place = 1; place < width - 1; place++)
        {
            if (fits(place))
            {
                return place;
            }
        }
        return null;
    }

    /// <summary>What stands above the place comes down, with a 0 on top, or what stands below goes up, with a 0 at the end.</summary>
    private static bool IsLeftOut(ulong worked, ulong written, int place, ulong ones)
    {
        var below = (1UL << place) - 1;
        var shorter = ((worked >> 1) & ~below) | (worked & below);
        return written == shorter || written == ((shorter << 1) & ones);
    }

    private static bool IsTwice(ulong worked, ulong written, int place, ulong ones)
    {
        var below = (1UL << place) - 1;
        var longer = ((worked & ~below) << 1) | (worked & ((below << 1) | 1));
        // Of a register of 64 bits the one on top is lost, and stands nowhere to be moved down again.
        return written == (longer & ones) || (ones != ulong.MaxValue && written == longer >> 1);
    }
}
