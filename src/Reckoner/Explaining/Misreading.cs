using System.Globalization;
using Reckoner.Datapaths;

namespace Reckoner.Explaining;

/// <summary>How an operand may be read as another number than it is.</summary>
public enum Misreading
{
    /// <summary>Decimal digits taken for binary ones; <see cref="AsOctal"/> and <see cref="AsHexadecimal"/> likewise.</summary>
    AsBinary,
    AsOctal,
    AsHexadecimal,

    /// <summary>The sign of a negative number is lost.</summary>
    WithoutSign,

    /// <summary>A negative number written as its magnitude with a 1 in front.</summary>
    AsSignAndMagnitude,

    /// <summary>A negative number written as the complement of its magnitude, without the one.</summary>
    AsOnesComplement,

    /// <summary>A number that is not negative taken for one that is.</summary>
    Negated,

    /// <summary>Its bits in the other order.</summary>
    Reversed,

    /// <summary>The two operands taken for each other.</summary>
    Exchanged,
}

/// <summary>A way in which operands are read.</summary>
/// <param name="Operand">Null for all of them.</param>
public sealed record OperandReading(Misreading Kind, Operand? Operand)
{
    /// <summary>Every misreading of a machine's operands, those of one operand before those of all.</summary>
    internal static IReadOnlyList<OperandReading> Of(Datapath datapath) =>
        [
            .. from kind in Enum.GetValues<Misreading>()
            where kind != Misreading.Exchanged
            from operand in datapath.Operands.Cast<Operand?>().Concat(datapath.Operands.Count > 1 ? [null] : [])
            select new OperandReading(kind, operand),
            .. datapath.Operands.Count == 2 ? [new OperandReading(Misreading.Exchanged, null)] : NoReading,
        ];

    private static readonly OperandReading[] NoReading = [];

    /// <summary>The bits that are worked with instead; null where there is no such reading, or it is none other.</summary>
    internal ulong[]? Of(Datapath datapath, IReadOnlyList<ulong> operands)
    {
        ulong[] read = [.. operands];
        if (Kind == Misreading.Exchanged)
        {
            Array.Reverse(read);
            var fits = datapath.Operands.All(o => read[o.Index] <= Ones(o.Width));
            return fits && !read.SequenceEqual(operands) ? read : null;
        }
        foreach (var operand in datapath.Operands.Where(o => Operand is null || o == Operand))
        {
            if (Otherwise(operands[operand.Index], operand) is not { } bits || bits == operands[operand.Index])
            {
                return null;
            }
            read[operand.Index] = bits;
        }
        return read;
    }

    private ulong? Otherwise(ulong bits, Operand operand)
    {
        var (width, top) = (operand.Width, 1UL << (operand.Width - 1));
        var isNegative = operand.IsSigned && (bits & top) != 0;
        var opposite = (0 - bits) & Ones(width);
        return Kind switch
        {
            Misreading.AsBinary => Digits(bits, operand, 2),
            Misreading.AsOctal => Digits(bits, operand, 8),
            Misreading.AsHexadecimal => Digits(bits, operand, 16),
            Misreading.WithoutSign => isNegative ? opposite : null,
            Misreading.AsSignAndMagnitude => isNegative && opposite != bits ? opposite | top : null,
            Misreading.AsOnesComplement => isNegative ? bits - 1 : null,
            Misreading.Negated => operand.IsSigned && !isNegative ? opposite : null,
            Misreading.Reversed => Backwards(bits, width),
            Misreading.Exchanged => null,
        };
    }

    /// <summary>The decimal digits of a number without sign, read in another base.</summary>
    private static ulong? Digits(ulong bits, Operand operand, int radix)
    {
        var digits = bits.ToString(CultureInfo.InvariantCulture);
        if (operand.IsSigned || digits.Length < 2 || digits.Any(d => d - '0' >= radix))
        {
            return null;
        }
        var number = digits.Aggregate(UInt128.Zero, (n, d) => n * (UInt128)radix + (UInt128)(d - '0'));
        return number <= Ones(operand.Width) ? (ulong)number : null;
    }

    private static ulong Backwards(ulong bits, int width)
    {
        ulong turned = 0;
        for (var i = 0; i < width; i++)
        {
            turned |= ((bits >> i) & 1) << (width - 1 - i);
        }
        return turned;
    }

    private static ulong Ones(int width) => (ulong)RowLayout.Ones(width);
}
