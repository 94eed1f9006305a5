using Reckoner.Diagnostics;

namespace Reckoner.Editing;

/// <summary>What to put in the place of a stretch of a text so that what was found there is mended.</summary>
internal sealed record Cure(Span Place, string Text)
{
    /// <summary>Where one is certain: the words that it puts there are in the diagnostic already, or only one can be meant. Else null.</summary>
    public static Cure? Of(Diagnostic diagnostic)
    {
        if (diagnostic.Source is not { IsRequest: false } source || diagnostic.Span.End > source.Text.Length)
        {
            return null;
        }
        var written = source[diagnostic.Span];
        return Said(diagnostic, "mended") is { } mended && Said(diagnostic, "literal") == written ? At(mended)
            : Said(diagnostic, "near") is { } near && IsWord(written) ? At(near)
            : diagnostic.Id == Id.NameOfWords && Said(diagnostic, "name") is { } joined && written.Contains(' ')
                ? At(joined)
            : diagnostic.Id == Id.NameNotFile
            && Said(diagnostic, "name") is { } name
            && Said(diagnostic, "path") == written
            // Where the path gives none, an example was named instead.
            && written.Contains(name, StringComparison.Ordinal)
                ? At(name)
            : diagnostic.Id == Id.EqualsTwice && written == "==" ? At("=")
            : diagnostic.Id == Id.HiddenCharacter || (diagnostic.Id == Id.EndExtra && written == "end") ? At("")
            : null;

        Cure At(string text) => new(diagnostic.Span, text);
    }

    /// <summary>A fact that is one text; of several near names none is certain.</summary>
    private static string? Said(Diagnostic diagnostic, string fact) =>
        diagnostic.Facts.FirstOrDefault(f => f.Name == fact).Value switch
        {
            string text => text,
            IReadOnlyList<string> { Count: 1 } one => one[0],
            _ => null,
        };

    private static bool IsWord(string text) =>
        text.Length > 0 && text.All(c => char.IsLetter(c) || char.IsAsciiDigit(c) || c is '_' or '-');
}
