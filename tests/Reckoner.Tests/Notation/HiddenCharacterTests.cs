using Reckoner.Binding;
using Reckoner.Catalogue;
using Reckoner.Diagnostics;
using Reckoner.Reporting;
using Reckoner.Styles;
using Reckoner.Words;
using Xunit;

namespace Reckoner.Tests;

/// <summary>Nothing but text leaves: what would do something where it is shown, or stands in no document, is refused where it is read.</summary>
public class HiddenCharacterTests
{
    /// <summary>The controls of ISO 6429 but tab and line ends, what turns the direction, line separators, and what XML excludes.</summary>
    public static TheoryData<int> Hidden =>
        [
            .. Enumerable.Range(0, 0x20).Except([0x09, 0x0A, 0x0D]),
            .. Enumerable.Range(0x7F, 0x21),
            .. Enumerable.Range(0x202A, 5),
            .. Enumerable.Range(0x2066, 4),
            0x2028,
            0x2029,
            0xD83D,
            0xDE00,
            0xFFFE,
            0xFFFF,
        ];

    private static readonly string[] Places =
    [
        "title \"a § title\"",
        "register R \"the § register\" : n loads word",
        "-- a § comment",
        "step keep -- behind § words",
        "  note \"§\"",
    ];

    private static string Text(string place) =>
        string.Join(
            '\n',
            "machine keep",
            place.StartsWith("title", StringComparison.Ordinal) ? place : "title \"a title\"",
            "width n = 8 in 2..64",
            "operand word : n",
            place.StartsWith("register", StringComparison.Ordinal) ? place : "register R : n loads word",
            place.StartsWith("--", StringComparison.Ordinal) ? place : "",
            place.StartsWith("step", StringComparison.Ordinal) ? place : "step keep",
            place.StartsWith("  note", StringComparison.Ordinal) ? place : "",
            "  R <- R + 1",
            "result same = R",
            ""
        );

    /// <summary>The number of U+1F600 in the Unicode Standard, not those of the two halves it is stored in.</summary>
    [Theory]
    [InlineData("\U0001F600", "U+1F600")]
    [InlineData("€\U0001F600", "€U+1F600")]
    [InlineData("€€€€€€€€€€€\U0001F600\U0001F600", "€€€€€€€€€€€…")]
    public void A_character_beyond_the_first_plane_is_one_character(string odd, string named) =>
        Assert.Equal(named, HiddenCharacters.Named(odd));

    [Fact]
    public void Half_of_one_is_named_by_its_own_number() =>
        Assert.Equal("aU+D83Db", HiddenCharacters.Named("a\uD83Db"));

    [Theory]
    [MemberData(nameof(Hidden))]
    public void In_a_description_it_is_named_wherever_it_stands_and_never_printed(int character)
    {
        foreach (var text in Places.Select(p => Text(p.Replace('§', (char)character))))
        {
            var found = Machine.Read(new Source($"odd{(char)character}.machine", text), MachineCatalogue.Find).Found;
            var error = Assert.Single(found, d => d.Severity == Severity.Error);
            Assert.Equal(Id.HiddenCharacter, error.Id);
            Assert.Equal($"U+{character:X4}", error.Facts.Single(f => f.Name == "character").Value);
            AssertPlain(DiagnosticText.Of(found, Vocabulary.English, 80));
        }
    }

    [Theory]
    [MemberData(nameof(Hidden))]
    public void In_a_house_style_too(int character)
    {
        var (style, found) = StyleReader.Read(new Source("odd.style", $"column cycle \"a {(char)character} head\"\n"));
        Assert.Null(style);
        Assert.Equal(Id.HiddenCharacter, Assert.Single(found).Id);
        AssertPlain(DiagnosticText.Of(found, Vocabulary.English, 80));
    }

    /// <summary>Letters of any script, signs made of several characters, and marks that only join or part letters are text.</summary>
    [Theory]
    [InlineData("größe, ∑, حاصل, 商, 😀, क्‍ष, a\u00ADb, שלום\u200F")]
    [InlineData("a\tb")]
    public void Whatever_can_be_read_is_taken(string words)
    {
        foreach (var place in Places)
        {
            var found = Machine
                .Read(new Source("a.machine", Text(place.Replace("§", words))), MachineCatalogue.Find)
                .Found;
            Assert.DoesNotContain(found, d => d.Severity == Severity.Error);
        }
    }

    private static void AssertPlain(string text) =>
        Assert.DoesNotContain(true, Enumerable.Range(0, text.Length).Select(i => HiddenCharacters.IsHidden(text, i)));
}
