namespace Reckoner.Texts;

/// <summary>The beginning of a text that somebody wrote: enough to know it by, never half of a character.</summary>
internal static class Excerpt
{
    /// <param name="longest">The most UTF-16 code units of what is given back, the mark of what is left out among them.</param>
    public static string Of(string text, int longest = 40)
    {
        if (text.Length <= longest)
        {
            return text;
        }
        var end = longest - 1;
        return text[..(char.IsHighSurrogate(text[end - 1]) ? end - 1 : end)] + "…";
    }
}
