using System.Text.RegularExpressions;
using Reckoner.Catalogue;
using Reckoner.Diagnostics;
using Reckoner.Notation;
using Xunit;

namespace Reckoner.Tests.Editing;

/// <summary>The file in "editors" against the table of reserved words, and what it colours against what the lexer reads.</summary>
public sealed class ColourGrammarTests
{
    [Fact]
    public void The_file_is_made_from_the_keywords()
    {
        var file = Sources.File("editors/machine.tmLanguage.json");
        if (Environment.GetEnvironmentVariable("RECKONER_RENEW") is { Length: > 0 })
        {
            File.WriteAllText(file, ColourGrammar.Text());
        }
        Assert.Equal(ColourGrammar.Text(), File.ReadAllText(file));
    }

    /// <summary>Every token of every machine has the colour of its kind: the rules are applied to each line as editors do.</summary>
    [Fact]
    public void What_is_coloured_is_what_is_read()
    {
        var rules = ColourGrammar.Rules.Select(r => (r.Scope, Rule: new Regex(r.Match))).ToList();
        foreach (var entry in MachineCatalogue.Entries)
        {
            var source = entry.Source;
            var scopes = new string?[source.Text.Length + 1];
            for (var line = 1; line <= source.LineOf(source.Text.Length); line++)
            {
                Colour(source, source.LineSpan(line), rules, scopes);
            }
            foreach (var token in Lexer.Read(source, new Report(source)).Tokens.Where(t => t.Text.Trim().Length > 0))
            {
                Assert.True(
                    Fits(token, scopes[token.Span.Start]),
                    $"{entry.Name}: {token} is {scopes[token.Span.Start]}"
                );
            }
        }
    }

    private static bool Fits(Token token, string? scope) =>
        token.Kind switch
        {
            TokenKind.Name => scope is null or "support.function.machine",
            TokenKind.Keyword => scope?.StartsWith("keyword.", StringComparison.Ordinal) == true,
            TokenKind.Number => scope == "constant.numeric.machine",
            TokenKind.Bits => scope == "constant.numeric.binary.machine",
            TokenKind.Quote => scope == "string.quoted.double.machine",
            TokenKind.Symbol => scope == "keyword.operator.machine"
                || "()[],".Contains(token.Text, StringComparison.Ordinal),
            TokenKind.LineEnd or TokenKind.End => true,
        };

    /// <summary>At each place the rule that fits first, and of several there the one that stands first.</summary>
    private static void Colour(Source source, Span line, List<(string Scope, Regex Rule)> rules, string?[] scopes)
    {
        var text = source[line];
        for (var at = 0; at < text.Length; )
        {
            var (scope, match) = rules
                .Select(r => (r.Scope, Match: r.Rule.Match(text, at)))
                .Where(r => r.Match is { Success: true, Length: > 0 })
                .OrderBy(r => r.Match.Index)
                .FirstOrDefault();
            if (match is null)
            {
                return;
            }
            var first = match.Index + match.Value.TakeWhile(char.IsWhiteSpace).Count();
            Array.Fill(scopes, scope, line.Start + first, match.Index + match.Length - first);
            at = match.Index + match.Length;
        }
    }
}
