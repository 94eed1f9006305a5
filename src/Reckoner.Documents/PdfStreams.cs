using System.Globalization;
using System.IO.Compression;
using System.Text;
using System.Text.RegularExpressions;

namespace Reckoner.Documents;

/// <summary>
/// The PDF library ends its compressed streams without the check sum that ends a zlib stream (RFC 1950, section 2.2). Readers that
/// check files complain of each; so it is put there, and the places of all that stands behind are counted anew.
/// </summary>
internal static partial class PdfStreams
{
    private const int CheckSum = 4;

    /// <summary>What ends a file says within so many bytes where its table of objects is.</summary>
    private const int TailLength = 200;

    /// <summary>The same file with every stream complete.</summary>
    public static byte[] Completed(byte[] pdf)
    {
        // In Latin-1 a character is a byte, whatever it is.
        var text = Encoding.Latin1.GetString(pdf);
        using var made = new MemoryStream(pdf.Length + pdf.Length / 50);
        var moves = new List<(int From, int By)>();
        var (copied, moved) = (0, 0);
        for (var match = Begin().Match(text); match.Success; )
        {
            var length = int.Parse(match.Groups["length"].ValueSpan, CultureInfo.InvariantCulture);
            var (start, end) = (match.Index + match.Length, match.Index + match.Length + length);
            if (
                match.Value.Contains("/Filter/FlateDecode", StringComparison.Ordinal)
                && Sum(pdf, start, length) is { } sum
            )
            {
                var (at, digits) = (match.Groups["length"].Index, match.Groups["length"].Length);
                var now = (length + CheckSum).ToString(CultureInfo.InvariantCulture);
                made.Write(pdf.AsSpan(copied, at - copied));
                made.Write(Encoding.Latin1.GetBytes(now));
                made.Write(pdf.AsSpan(at + digits, end - at - digits));
                made.Write(sum);
                copied = end;
                moved += now.Length - digits + CheckSum;
                moves.Add((end, moved));
            }
            match = Begin().Match(text, end);
        }
        var where = Where().Match(text, Math.Max(copied, pdf.Length - TailLength)).Groups["place"];
        var place = int.Parse(where.ValueSpan, CultureInfo.InvariantCulture);
        made.Write(pdf.AsSpan(copied, where.Index - copied));
        made.Write(Encoding.Latin1.GetBytes(Moved(moves, place).ToString(CultureInfo.InvariantCulture)));
        made.Write(pdf.AsSpan(where.Index + where.Length));
        var whole = made.ToArray();
        foreach (var entry in Entry().Matches(text, place).Select(m => m.Groups["place"]))
        {
            var now = Moved(moves, int.Parse(entry.ValueSpan, CultureInfo.InvariantCulture));
            Encoding
                .Latin1.GetBytes(now.ToString("D10", CultureInfo.InvariantCulture))
                .CopyTo(whole, Moved(moves, place) + entry.Index - place);
        }
        return whole;
    }

    /// <summary>Where a place comes to stand.</summary>
    /// <param name="moves">From where on everything moves, and how far in all, in order.</param>
    private static int Moved(List<(int From, int By)> moves, int at)
    {
        var (low, high) = (0, moves.Count);
        while (low < high)
        {
            var middle = (low + high) / 2;
            (low, high) = moves[middle].From <= at ? (middle + 1, high) : (low, middle);
        }
        return low == 0 ? at : at + moves[low - 1].By;
    }

    /// <summary>Adler-32 of what a stream holds, highest byte first; null where it cannot be read or is complete.</summary>
    private static byte[]? Sum(byte[] pdf, int start, int length)
    {
        // Two bytes of head, then deflated data.
        using var packed = new MemoryStream(pdf, start + 2, length - 2, writable: false);
        using var inflate = new DeflateStream(packed, CompressionMode.Decompress);
        var (low, high) = (1u, 0u);
        var buffer = new byte[1 << 12];
        try
        {
            for (int read; (read = inflate.Read(buffer)) > 0; )
            {
                // 4,096 bytes overflow neither sum: 5,552 would.
                foreach (var one in buffer.AsSpan(0, read))
                {
                    low += one;
                    high += low;
                }
                low %= 65521;
                high %= 65521;
            }
        }
        catch (InvalidDataException)
        {
            return null;
        }
        var sum = (high << 16) | low;
        byte[] bytes = [(byte)(sum >> 24), (byte)(sum >> 16), (byte)(sum >> 8), (byte)sum];
        return pdf.AsSpan(start, length)[^CheckSum..].SequenceEqual(bytes) ? null : bytes;
    }

    [GeneratedRegex(@"<<[^<>]*/Length (?<length>\d+)(?=[/>])[^<>]*>>\s*stream\r?\n")]
    private static partial Regex Begin();

    [GeneratedRegex(@"startxref\s+(?<place>\d+)\s+%%EOF")]
    private static partial Regex Where();

    [GeneratedRegex(@"(?<place>\d{10}) \d{5} n")]
    private static partial Regex Entry();
}
