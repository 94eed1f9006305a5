using System.Globalization;
using System.Numerics;
using System.Text.Json;

namespace Reckoner.Reporting;

/// <summary>Reads fields of documents that may be anything: what is not as it should be is null.</summary>
internal static class JsonReading
{
    /// <summary>The format of a document of ours when it is another than this one, as written; else null.</summary>
    public static string? OtherFormat(JsonElement json) =>
        json.ValueKind == JsonValueKind.Object
        && json.TryGetProperty("format", out var format)
        && format.ValueKind == JsonValueKind.Number
        && !(format.TryGetInt32(out var number) && number == Json.Format)
            ? format.GetRawText()
            : null;

    public static string? Text(JsonElement json, string name) =>
        json.ValueKind == JsonValueKind.Object
        && json.TryGetProperty(name, out var value)
        && value.ValueKind == JsonValueKind.String
        && value.GetString() is { } text
        && text == HiddenCharacters.Dotted(text)
            ? text
            : null;

    /// <summary>A number that is written as a text.</summary>
    public static BigInteger? Number(JsonElement json, string name) =>
        json.ValueKind == JsonValueKind.Object && json.TryGetProperty(name, out var value) ? Number(value) : null;

    public static BigInteger? Number(JsonElement value) =>
        value.ValueKind == JsonValueKind.String
        && BigInteger.TryParse(
            value.GetString(),
            NumberStyles.AllowLeadingSign,
            CultureInfo.InvariantCulture,
            out var number
        )
            ? number
            : null;

    /// <summary>An object of a name.</summary>
    public static JsonElement? Object(JsonElement json, string name) =>
        json.ValueKind == JsonValueKind.Object
        && json.TryGetProperty(name, out var value)
        && value.ValueKind == JsonValueKind.Object
            ? value
            : null;

    /// <summary>The items of a list, each read; null where there is no such list or one of them cannot be read.</summary>
    public static IReadOnlyList<T>? List<T>(JsonElement json, string name, Func<JsonElement, T?> read)
        where T : class
    {
        if (
            json.ValueKind != JsonValueKind.Object
            || !json.TryGetProperty(name, out var list)
            || list.ValueKind != JsonValueKind.Array
        )
        {
            return null;
        }
        var items = list.EnumerateArray().Select(read).ToList();
        return items.Contains(null) ? null : [.. items.Select(i => i!)];
    }

    /// <summary>The numbers of an object, each by its name.</summary>
    public static IReadOnlyList<(string Name, BigInteger Number)>? Numbers(JsonElement json, string name) =>
        Object(json, name) is { } numbers
        && numbers.EnumerateObject().Select(n => (n.Name, Number: Number(n.Value))).ToList() is var read
        && read.TrueForAll(n => n.Number is not null)
            ? [.. read.Select(n => (n.Name, n.Number!.Value))]
            : null;
}
