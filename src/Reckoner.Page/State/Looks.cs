using Reckoner.Drawing;
using Reckoner.Words;

namespace Reckoner.Page.State;

/// <summary>How the page looks to this visitor; kept on the device, no part of a link.</summary>
/// <param name="Ground">The name of a palette; empty to follow the system.</param>
/// <param name="IsLarge">For the back row.</param>
/// <param name="Predicts">The next values stay covered until they are asked for.</param>
/// <param name="Language">The tag of a table of words.</param>
public sealed record Looks(string Ground, bool IsLarge, bool Predicts, string Language)
{
    public static readonly Looks Usual = new("", IsLarge: false, Predicts: false, "en");

    public Vocabulary Words => Vocabulary.Of(Language) ?? Vocabulary.English;

    public Palette PaletteFor(bool systemIsDark) =>
        Palette.All.FirstOrDefault(p => p.Name == Ground) ?? (systemIsDark ? Palette.Dark : Palette.Light);

    /// <summary>One line, such as "dark large en".</summary>
    public string Kept() =>
        string.Join(
            ' ',
            new[] { Ground, IsLarge ? "large" : "", Predicts ? "predict" : "", Language }.Where(w => w.Length > 0)
        );

    /// <summary>Words that mean nothing any more are passed over.</summary>
    public static Looks Read(string kept)
    {
        var words = kept.Split(' ', StringSplitOptions.RemoveEmptyEntries);
        return new Looks(
            Palette.All.FirstOrDefault(p => words.Contains(p.Name))?.Name ?? "",
            words.Contains("large"),
            words.Contains("predict"),
            Vocabulary.Languages.FirstOrDefault(words.Contains) ?? Usual.Language
        );
    }
}
