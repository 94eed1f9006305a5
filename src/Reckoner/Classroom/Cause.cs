using System.Numerics;
using Reckoner.Numbers;
using Reckoner.Slips;

namespace Reckoner.Classroom;

/// <summary>Why a row came out wrong, as far as the row itself shows it.</summary>
internal enum CauseKind
{
    /// <summary>A decision was taken another way than it falls.</summary>
    Decision,

    /// <summary>It is just what one slip in the description makes of the row before.</summary>
    Slip,

    /// <summary>A register was left as it was, though the cycle writes it.</summary>
    NotWritten,

    /// <summary>A register holds the right bits one place beside their places.</summary>
    Moved,

    /// <summary>A single bit is wrong.</summary>
    OneBit,

    /// <summary>Several bits are wrong, and nothing simpler gives them.</summary>
    Bits,
}

/// <summary>What went wrong in a row.</summary>
/// <param name="Word">The first register that is wrong.</param>
/// <param name="Slip">For <see cref="CauseKind.Slip"/> the first in the text that gives the row.</param>
internal sealed record Cause(CauseKind Kind, JudgedWord Word, Slip? Slip)
{
    /// <summary>Null where no bit is wrong.</summary>
    /// <param name="lapses">Of the same machine at the same widths.</param>
    public static Cause? Of(RowJudgement row, Lapses lapses)
    {
        if (row.Words.FirstOrDefault(w => !w.Wrong.IsZero) is not { } word)
        {
            return null;
        }
        var slips = row.IsWhole ? lapses.Giving(row.Put.Right.Before, row.Put.At, row.Own) : [];
        return slips.Count > 0
            ? new Cause(CauseKind.Slip, word, slips[0])
            : new Cause(Plain(word, row.Put.Right.Before[word.Register.Index]), word, null);
    }

    /// <summary>What the bits of one register alone show.</summary>
    private static CauseKind Plain(JudgedWord word, BigInteger before)
    {
        var (own, right, width) = (word.Own, word.Right, word.Register.Width);
        return own == before ? CauseKind.NotWritten
            : IsMoved(own, right, width) || IsMoved(right, own, width) ? CauseKind.Moved
            : BigInteger.PopCount(word.Wrong).IsOne ? CauseKind.OneBit
            : CauseKind.Bits;
    }

    /// <summary>Whether all bits but the one that left stand one place further left; of fewer than three any would.</summary>
    private static bool IsMoved(BigInteger moved, BigInteger word, int width) =>
        width > 2 && !Bits.Wrap(word, width - 1).IsZero && moved >> 1 == Bits.Wrap(word, width - 1);
}
