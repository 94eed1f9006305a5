using System.Buffers.Text;
using System.Text;
using Reckoner.Drawing;
using Reckoner.Tables;
using Reckoner.Words;

namespace Reckoner.Page.State;

/// <summary>How the page looks to this visitor; kept on the device, no part of a link.</summary>
/// <param name="Ground">The name of a palette; empty to follow the system.</param>
/// <param name="IsLarge">For the back row.</param>
/// <param name="Predicts">The next values stay covered until they are asked for.</param>
/// <param name="Language">The tag of a table of words.</param>
public sealed record Looks(string Ground, bool IsLarge, bool Predicts, string Language)
{
    private const string BaseMark = "base";
    private const string StyleMark = "style:";

    /// <summary>Longer styles are not kept: none that anybody writes comes near.</summary>
    public const int LongestStyle = 20_000;

    /// <summary>The base of tables and of sums by hand: 2, 8, 10 or 16; null for as usual.</summary>
    public int? Base { get; init; }

    /// <summary>The text of a house style; empty for none.</summary>
    public string StyleText { get; init; } = "";

    public static readonly Looks Usual = new("", IsLarge: false, Predicts: false, "en");

    public Vocabulary Words => Vocabulary.Of(Language) ?? Vocabulary.English;

    public Palette PaletteFor(bool systemIsDark) =>
        Palette.All.FirstOrDefault(p => p.Name == Ground) ?? (systemIsDark ? Palette.Dark : Palette.Light);

    /// <summary>One line, such as "dark large en".</summary>
    public string Kept() =>
        string.Join(
            ' ',
            new[]
            {
                Ground,
                IsLarge ? "large" : "",
                Predicts ? "predict" : "",
                Language,
                Base is { } number ? $"{BaseMark}{number}" : "",
                StyleText.Length > 0 ? StyleMark + Base64Url.EncodeToString(Encoding.UTF8.GetBytes(StyleText)) : "",
            }.Where(w => w.Length > 0)
        );

    /// <summary>Of several languages the first that there are words for; words that mean nothing here are passed over.</summary>
    public static Looks Read(string kept)
    {
        var words = kept.Split(' ', StringSplitOptions.RemoveEmptyEntries);
        return new Looks(
            Palette.All.FirstOrDefault(p => words.Contains(p.Name))?.Name ?? "",
            words.Contains("large"),
            words.Contains("predict"),
            words.FirstOrDefault(Vocabulary.Languages.Contains) ?? Usual.Language
        )
        {
            Base = Digits.Bases.Select(b => (int?)b).FirstOrDefault(b => words.Contains($"{BaseMark}{b}")),
            StyleText = words.FirstOrDefault(w => w.StartsWith(StyleMark, StringComparison.Ordinal)) is { } packed
                ? Unpacked(packed[StyleMark.Length..])
                : "",
        };
    }

    private static string Unpacked(string packed) =>
        packed.Length <= 2 * LongestStyle && Base64Url.IsValid(packed)
            ? TextBytes.Decoded(Base64Url.DecodeFromChars(packed)) ?? ""
            : "";
}
