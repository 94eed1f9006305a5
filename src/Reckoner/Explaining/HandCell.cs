using Reckoner.Classroom;
using Reckoner.Numbers;
using Reckoner.Running;

namespace Reckoner.Explaining;

/// <summary>Reads the cell of a table: bits as people write them.</summary>
internal static class HandCell
{
    /// <summary>
    /// Bits, grouped or not, a ? or . for one that was left open, an O or l for a digit; or a number behind 0b or 0x. Zeros in
    /// front of a digit may be missing; in front of a ? nothing is known. Null where that cannot be read: it is not guessed what was
    /// meant.
    /// </summary>
    public static HandWord? Of(string cell, int width, HashSet<TableAssumption> assumed)
    {
        var text = string.Concat(cell.Where(c => !char.IsWhiteSpace(c) && c is not ('_' or '\'' or '|')));
        if (text.Length == 0)
        {
            return HandWord.Blank;
        }
        if (text.Length > 2 && text[0] == '0' && text[1] is 'x' or 'X' or 'b' or 'B')
        {
            var number = OperandReader.Number(text);
            return number is { } bits && Bits.Fits(bits, width, isSigned: false) ? HandWord.Whole(bits, width) : null;
        }
        var word = HandWord.Blank;
        if (text.Length > width)
        {
            return null;
        }
        for (var i = 0; i < text.Length; i++)
        {
            var place = text.Length - 1 - i;
            bool? bit = text[i] switch
            {
                '0' or 'O' or 'o' => false,
                '1' or 'l' or 'I' => true,
                _ => null,
            };
            if (bit is null && text[i] is not ('?' or '.'))
            {
                return null;
            }
            if (char.IsLetter(text[i]))
            {
                assumed.Add(TableAssumption.LettersAsDigits);
            }
            word = word.With(place, bit);
        }
        if (text.Length < width && text[0] is not ('?' or '.'))
        {
            assumed.Add(TableAssumption.ZerosInFront);
            word = word with { Written = word.Written | (Bits.Mask(width) & ~Bits.Mask(text.Length)) };
        }
        return word;
    }
}
