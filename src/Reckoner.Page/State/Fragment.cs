using System.Buffers.Text;
using System.Collections.Immutable;
using System.Globalization;
using System.IO.Compression;
using System.Text;
using Reckoner.Notation;

namespace Reckoner.Page.State;

/// <summary>
/// A sheet as the part of a link behind "#": names and values as in a query. A text of the catalogue is there by its name, one
/// of the visitor's own packed (raw deflate, in base64 for links). Whatever stands in a link, reading it gives a sheet or null.
/// </summary>
public static class Fragment
{
    /// <summary>Longer links are not read: no description that is accepted packs into more, even of letters of three bytes each.</summary>
    public const int Longest = 5 * Parser.LongestText;

    /// <summary>So many characters of operands, and of any width, are read from a link.</summary>
    public const int LongestValue = 20_000;

    private const int MostValues = 64;
    private const int MostMoments = 100_000;
    private const string WidthMark = "width.";

    public static string Of(Sheet sheet)
    {
        var parts = new List<(string Key, string Value)>();
        if (sheet.Origin.Length > 0)
        {
            parts.Add(("machine", sheet.Origin));
        }
        if (!sheet.IsOriginal)
        {
            parts.Add(("text", Packed(sheet.Text)));
        }
        parts.AddRange(sheet.Widths.Select(w => (WidthMark + w.Key, w.Value)));
        if (!sheet.Operands.IsEmpty)
        {
            parts.Add(("operands", string.Join(',', sheet.Operands.Select(o => o.Replace(',', ' ')))));
        }
        if (sheet.Moment > 0)
        {
            parts.Add(("at", sheet.Moment.ToString(CultureInfo.InvariantCulture)));
        }
        if (sheet.View != Sheet.Empty.View)
        {
            parts.Add(("view", sheet.View));
        }
        if (sheet.Beside.Length > 0)
        {
            parts.Add(("beside", sheet.Beside));
        }
        return string.Join(
            '&',
            parts.Select(p => $"{p.Key}={Uri.EscapeDataString(p.Value).Replace("%2C", ",", StringComparison.Ordinal)}")
        );
    }

    /// <summary>Whether what was typed into fields is read again from a link; numbers of any machine are.</summary>
    public static bool Holds(Sheet sheet) =>
        IsShort(string.Join(',', sheet.Operands)) && sheet.Widths.Values.All(IsShort);

    /// <summary>Null where it holds neither a machine of the catalogue nor a text that can be unpacked.</summary>
    public static Sheet? Read(string fragment)
    {
        fragment = fragment.TrimStart('#');
        if (fragment.Length is 0 or > Longest)
        {
            return null;
        }
        var values = Values(fragment);
        var origin = values.GetValueOrDefault("machine", "");
        var sheet = Sheet.Of(origin) ?? Sheet.Empty;
        if (values.TryGetValue("text", out var packed))
        {
            if (Unpacked(packed) is not { } text)
            {
                return null;
            }
            sheet = sheet with { Text = text };
        }
        else if (sheet.Origin.Length == 0)
        {
            return null;
        }
        return sheet with
        {
            Widths = sheet.Widths.AddRange(
                values
                    .Where(v => v.Key.StartsWith(WidthMark, StringComparison.Ordinal) && IsShort(v.Value))
                    .Select(v => KeyValuePair.Create(v.Key[WidthMark.Length..], v.Value))
            ),
            Operands =
                values.TryGetValue("operands", out var operands) && IsShort(operands)
                    ? [.. operands.Split(',').Take(MostValues)]
                    : [],
            Moment = int.TryParse(
                values.GetValueOrDefault("at", "0"),
                NumberStyles.None,
                CultureInfo.InvariantCulture,
                out var at
            )
                ? Math.Min(at, MostMoments)
                : 0,
            View = Views.All.FirstOrDefault(v => v.Name == values.GetValueOrDefault("view"))?.Name ?? sheet.View,
            Beside = values.GetValueOrDefault("beside", "") is { } beside && IsShort(beside) ? beside : "",
        };
    }

    private static bool IsShort(string value) => value.Length <= LongestValue;

    private static Dictionary<string, string> Values(string fragment)
    {
        var values = new Dictionary<string, string>(StringComparer.Ordinal);
        foreach (var part in fragment.Split('&', MostValues))
        {
            var equals = part.IndexOf('=', StringComparison.Ordinal);
            if (equals > 0)
            {
                values[Uri.UnescapeDataString(part[..equals])] = Uri.UnescapeDataString(part[(equals + 1)..]);
            }
        }
        return values;
    }

    private static string Packed(string text)
    {
        using var packed = new MemoryStream();
        using (var deflate = new DeflateStream(packed, CompressionLevel.SmallestSize))
        {
            deflate.Write(Encoding.UTF8.GetBytes(text));
        }
        return Base64Url.EncodeToString(packed.ToArray());
    }

    /// <summary>Stops where a text would be longer than any that is read: a small link may unpack to gigabytes.</summary>
    private static string? Unpacked(string packed)
    {
        if (!Base64Url.IsValid(packed))
        {
            return null;
        }
        try
        {
            using var deflate = new DeflateStream(
                new MemoryStream(Base64Url.DecodeFromChars(packed)),
                CompressionMode.Decompress
            );
            var bytes = new byte[Parser.LongestText * sizeof(int) + 1];
            var length = deflate.ReadAtLeast(bytes, bytes.Length, throwOnEndOfStream: false);
            var text = length < bytes.Length ? TextFile.Decoded(bytes.AsSpan(0, length)) : null;
            // What is cut off right at its beginning unpacks to nothing, as an emptied text does.
            return text is { Length: <= Parser.LongestText } && (text.Length > 0 || packed == Packed(text))
                ? text
                : null;
        }
        catch (InvalidDataException)
        {
            return null;
        }
    }
}
