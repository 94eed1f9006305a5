using System.Buffers.Binary;
using System.Security.Cryptography;
using System.Text;

namespace Reckoner.Sheets;

/// <summary>
/// What sheets are drawn by. Whoever has one sheet, the lesson and the program, but not the seed, cannot tell another: every
/// number comes from HMAC-SHA-256 (RFC 2104) of the seed and of what it is for.
/// </summary>
internal sealed class SheetSecret(byte[] seed)
{
    /// <summary>The length of a seed.</summary>
    public const int Length = 32;

    public ReadOnlyMemory<byte> Bytes => seed;

    /// <summary>In hexadecimal.</summary>
    public string Seed => Convert.ToHexStringLower(seed);

    /// <summary>Null for what is no seed.</summary>
    public static SheetSecret? Read(string seed) =>
        seed.Length == 2 * Length && seed.All(char.IsAsciiHexDigit)
            ? new SheetSecret(Convert.FromHexString(seed))
            : null;

    /// <summary>64 bits that are the same for the same words, and for no others but by chance.</summary>
    public ulong Number(params IReadOnlyList<string> words)
    {
        // With the length before each, no two lists of words are one text.
        var text = string.Concat(words.Select(w => $"{w.Length}:{w}"));
        return BinaryPrimitives.ReadUInt64BigEndian(HMACSHA256.HashData(seed, Encoding.UTF8.GetBytes(text)));
    }

    /// <summary>A number for each, all different. Who comes later changes nobody's.</summary>
    /// <param name="kept">Numbers that were given before, by identifier.</param>
    /// <param name="others">Those of other sheets, which nobody is to get.</param>
    public IReadOnlyDictionary<string, SheetNumber> Numbers(
        IReadOnlyList<string> students,
        IReadOnlyDictionary<string, SheetNumber> kept,
        IEnumerable<SheetNumber>? others = null
    )
    {
        var numbers = students.Where(kept.ContainsKey).ToDictionary(s => s, s => kept[s]);
        var taken = kept.Values.Concat(others ?? []).ToHashSet();
        foreach (var student in students.Where(s => !numbers.ContainsKey(s)))
        {
            var tried = 0;
            SheetNumber number;
            do
            {
                number = new SheetNumber((int)(Number("sheet", student, $"{tried++}") >> (64 - SheetNumber.Bits)));
            } while (!taken.Add(number));
            numbers.Add(student, number);
        }
        return numbers;
    }
}
