using System.Collections.Immutable;
using System.Globalization;
using Reckoner.Classroom;

namespace Reckoner.Page.State;

/// <summary>
/// A sheet as the part of a link behind "#": names and values as in a query. A text of the catalogue is there by its name, one
/// of the visitor's own packed (raw deflate, in base64 for links). Whatever stands in a link, reading it gives a sheet or null.
/// </summary>
public static class Fragment
{
    /// <summary>Longer links are not read: no description that is accepted packs into more, even of letters of three bytes each.</summary>
    public const int Longest = TaskLink.Longest;

    /// <summary>So many characters of operands, and of any width, are read from a link.</summary>
    public const int LongestValue = 20_000;

    private const int MostValues = 64;
    private const int MostMoments = 100_000;
    private const string WidthMark = TaskLink.WidthMark;

    public static string Of(Sheet sheet)
    {
        var parts = new List<(string Key, string Value)>();
        if (sheet.Origin.Length > 0)
        {
            parts.Add(("machine", sheet.Origin));
        }
        if (!sheet.IsOriginal)
        {
            parts.Add(("text", PackedText.Of(sheet.Text)));
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
        parts.AddRange(sheet.Task?.Values ?? []);
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
        var values = TaskLink.Values(fragment);
        var origin = values.GetValueOrDefault("machine", "");
        var sheet = Sheet.Of(origin) ?? Sheet.Empty;
        if (values.TryGetValue("text", out var packed))
        {
            if (PackedText.Read(packed) is not { } text)
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
            Task = Assignment.Read(values),
        };
    }

    private static bool IsShort(string value) => value.Length <= LongestValue;
}
