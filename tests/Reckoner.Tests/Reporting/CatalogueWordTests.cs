using System.Text.RegularExpressions;
using Reckoner.Catalogue;
using Xunit;

namespace Reckoner.Tests;

/// <summary>
/// Nothing about a machine is coded in C#: no name, phrase or number of the catalogue's descriptions stands in the program's
/// texts or names. Comments may speak of machines; they make nothing happen.
/// </summary>
public partial class CatalogueWordTests
{
    private const int ShortestWord = 4;

    private const string FactName = "the name of a fact or field; what is read stands in the description or the words";
    private const string Key = "part of a key of the words";
    private const string Arithmetic = "a term of arithmetic, for numbers of the program's own";
    private const string Plain = "a plain word";
    private const string CaseKey = "part of the key of a case of a proof";

    /// <summary>Words in the program's texts that mean no machine's, and what they are there.</summary>
    private static readonly Dictionary<string, string> InTexts = new()
    {
        ["before"] = FactName,
        ["below"] = Key,
        ["next"] = Key,
        ["bits"] = FactName,
        ["borrow"] = FactName,
        ["carry"] = FactName,
        ["complete"] = FactName,
        ["count"] = FactName,
        ["counter"] = Key,
        ["digits"] = FactName,
        ["factor"] = FactName,
        ["half"] = Arithmetic,
        ["high"] = FactName,
        ["kept"] = "what benches say of results",
        ["left"] = FactName,
        ["mark"] = "a verb of the command",
        ["right"] = FactName,
        ["rounds"] = FactName,
        ["seed"] = FactName,
        ["shift"] = FactName,
        ["sign"] = FactName,
        ["subtract"] = FactName,
        ["difference"] = Key,
        ["product"] = Key,
        ["point"] = "a word of the notation",
        ["digit"] = "a word of conditions: has 1 digit",
        ["multiplier"] = "a kind of unit, a word of the notation",
        ["column"] = "a word of house styles",
        ["greater"] = Key,
        ["minus"] = Key,
        ["plus"] = Key,
        ["zero"] = CaseKey,
        ["negative"] = CaseKey,
        ["halves"] = CaseKey,
        ["quotient"] = CaseKey,
        ["invalid"] = "a domain that nobody can have",
        ["the count"] = "what a function of the notation takes",
    };

    /// <summary>Words that name things of the program, and what they are there.</summary>
    private static readonly Dictionary<string, string> InNames = new()
    {
        ["borrow"] = Arithmetic,
        ["carry"] = Arithmetic,
        ["denominator"] = Arithmetic,
        ["difference"] = Arithmetic,
        ["digit"] = Arithmetic,
        ["digits"] = Arithmetic,
        ["dividend"] = Arithmetic,
        ["divisor"] = Arithmetic,
        ["factor"] = Arithmetic,
        ["multiplicand"] = Arithmetic,
        ["multiplier"] = Arithmetic,
        ["negative"] = Arithmetic,
        ["numerator"] = Arithmetic,
        ["product"] = Arithmetic,
        ["quotient"] = Arithmetic,
        ["radicand"] = Arithmetic,
        ["remainder"] = Arithmetic,
        ["root"] = Arithmetic,
        ["Quotient"] = Arithmetic,
        ["Rest"] = Plain,
        ["back"] = Plain,
        ["trial"] = Arithmetic,
        ["shift"] = Arithmetic,
        ["before"] = Plain,
        ["below"] = Plain,
        ["bits"] = Plain,
        ["column"] = Plain,
        ["count"] = Plain,
        ["counter"] = Plain,
        ["differ"] = Plain,
        ["down"] = Plain,
        ["fits"] = Plain,
        ["half"] = Plain,
        ["halves"] = Plain,
        ["high"] = Plain,
        ["kept"] = Plain,
        ["left"] = Plain,
        ["look"] = Plain,
        ["mark"] = Plain,
        ["next"] = Plain,
        ["point"] = Plain,
        ["restore"] = "a word of C# (#pragma warning restore)",
        ["right"] = Plain,
        ["rounds"] = Plain,
        ["seed"] = Plain,
        ["sign"] = Arithmetic,
        ["zero"] = Arithmetic,
    };

    private static IEnumerable<(string File, SharpText Text)> Program =>
        Directory
            .EnumerateFiles(Path.GetDirectoryName(Sources.File("src/x"))!, "*.cs", SearchOption.AllDirectories)
            .Where(f => !f.Contains("/obj/", StringComparison.Ordinal))
            .Select(f => (Path.GetFileName(f), SharpText.Of(File.ReadAllText(f))));

    /// <summary>Names of machines, names declared in them, and whole phrases.</summary>
    private static IReadOnlyList<string> Words { get; } =
    [
        .. MachineCatalogue
            .Entries.SelectMany(e => DeclaredNames().Matches(e.Source.Text).Concat(Phrases().Matches(e.Source.Text)))
            .SelectMany(m => m.Groups.Values.Skip(1).Select(g => g.Value))
            .Concat(MachineCatalogue.Names)
            .Distinct()
            .Where(w => w.Length >= ShortestWord)
            .Order(StringComparer.Ordinal),
    ];

    private static readonly Regex AnyWord = new(
        $@"(?<![\w-])(?:{string.Join('|', Words.OrderByDescending(w => w.Length).Select(Regex.Escape))})(?![\w-])"
    );

    private static IEnumerable<string> Found(string text) => AnyWord.Matches(text).Select(m => m.Value);

    private static IReadOnlyList<string> Unexplained(
        IReadOnlyDictionary<string, string> explained,
        Func<SharpText, IEnumerable<string>> texts
    ) =>
        [
            .. from part in Program
            from word in texts(part.Text).SelectMany(Found).Distinct()
            where !explained.ContainsKey(word)
            select $"{word} in {part.File}",
        ];

    [Fact]
    public void No_text_of_the_program_says_a_word_of_a_machine() =>
        Assert.Equal("", string.Join("\n", Unexplained(InTexts, t => t.Literals)));

    [Fact]
    public void No_name_in_the_program_is_a_word_of_a_machine() =>
        Assert.Equal("", string.Join("\n", Unexplained(InNames, t => [t.Rest])));

    /// <summary>The search itself, on a text that does what is forbidden.</summary>
    [Fact]
    public void A_word_of_a_machine_is_found_in_texts_and_names_but_not_in_comments()
    {
        const string Program = """
            // the quotient in a comment
            var quotient_sign = $"{the_left} of the quotient" + 'x' + @"divide-signed-riscv "" at"; /* trial */
            """;
        var text = SharpText.Of(Program);
        Assert.Equal(["the quotient", "divide-signed-riscv"], text.Literals.SelectMany(Found));
        Assert.Equal(["quotient_sign"], Found(text.Rest));
    }

    [GeneratedRegex("\"([^\"]*)\"")]
    private static partial Regex Phrases();

    [GeneratedRegex(
        @"^ *(?:width|parameter|constant|operand|register|part|unit|step|result|let) (\w+)(?:, (\w+))?|"
            + @"^table (\w+)\((\w+)[^,)]*(?:, (\w+))?",
        RegexOptions.Multiline
    )]
    private static partial Regex DeclaredNames();
}
