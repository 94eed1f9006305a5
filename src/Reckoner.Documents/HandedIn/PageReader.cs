using System.Net;
using System.Text.Json;
using System.Text.RegularExpressions;
using Reckoner.Diagnostics;

namespace Reckoner.Documents.HandedIn;

/// <summary>A sheet that was filled in on a screen and saved itself, or any other page, whose text is read.</summary>
internal static partial class PageReader
{
    /// <summary>Longer no page takes but one that was made to.</summary>
    private const int MostMilliseconds = 5_000;

    public static HandedReading Of(string html)
    {
        if (Written().Match(html) is not { Success: true } written)
        {
            return SeparatedText.Of(Plain(html));
        }
        var sheet = Number().Match(html) is { Success: true } number ? number.Groups[1].Value : null;
        try
        {
            using var document = JsonDocument.Parse(written.Groups[1].Value);
            var json = document.RootElement;
            var places = new Dictionary<string, string>();
            if (json.TryGetProperty("answers", out var answers) && answers.ValueKind == JsonValueKind.Object)
            {
                foreach (var answer in answers.EnumerateObject().Where(a => a.Value.ValueKind == JsonValueKind.String))
                {
                    places[answer.Name] = answer.Value.GetString()!.Trim();
                }
            }
            return new HandedText([]) { Places = places, Sheet = sheet };
        }
        catch (Exception e) when (e is JsonException or InvalidOperationException)
        {
            return new Term("handed.broken");
        }
    }

    /// <summary>Cells become tabs, and whatever ends a line ends one.</summary>
    private static string Plain(string html)
    {
        var text = Unseen().Replace(html, "");
        text = text.ReplaceLineEndings(" ");
        text = CellEnd().Replace(text, "\t");
        text = LineEnd().Replace(text, "\n");
        return WebUtility.HtmlDecode(Tag().Replace(text, "")).Replace('\u00A0', ' ');
    }

    [GeneratedRegex("<script[^>]*id=\"written\"[^>]*>(.*?)</script>", RegexOptions.Singleline, MostMilliseconds)]
    private static partial Regex Written();

    [GeneratedRegex("data-sheet=\"([^\"]*)\"", RegexOptions.None, MostMilliseconds)]
    private static partial Regex Number();

    [GeneratedRegex(
        "<(script|style|head)\\b.*?</\\1>",
        RegexOptions.Singleline | RegexOptions.IgnoreCase,
        MostMilliseconds
    )]
    private static partial Regex Unseen();

    [GeneratedRegex("</t[dh]>\\s*(?=<t[dh])", RegexOptions.IgnoreCase, MostMilliseconds)]
    private static partial Regex CellEnd();

    [GeneratedRegex("<br\\s*/?>|</(p|div|tr|li|h[1-6])>", RegexOptions.IgnoreCase, MostMilliseconds)]
    private static partial Regex LineEnd();

    [GeneratedRegex("<[^>]*>", RegexOptions.None, MostMilliseconds)]
    private static partial Regex Tag();
}
