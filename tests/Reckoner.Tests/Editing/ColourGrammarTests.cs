using System.Text.Json.Nodes;
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

    /// <summary>Every letter of every token of every machine has the colour of its kind: the rules are applied to each line as editors do.</summary>
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
            AssertFits(entry.Name, source, scopes);
        }
    }

    /// <summary>The same by the engine that editors colour with.</summary>
    [Fact]
    [Trait("Length", "long")]
    public void The_engine_of_editors_colours_what_is_read()
    {
        var folder = Directory.CreateTempSubdirectory("reckoner-colours-").FullName;
        try
        {
            var entries = MachineCatalogue.Entries;
            var files = entries.Select(e => Path.Combine(folder, $"{e.Name}.machine")).ToList();
            entries.Zip(files).ToList().ForEach(e => File.WriteAllText(e.Second, e.First.Source.Text));
            var (status, output, errors) = NodeClients.Run(
                "colours.js",
                [Sources.File("editors/machine.tmLanguage.json"), .. files]
            );
            Assert.Equal((0, ""), (status, errors));
            using var lines = output.TrimEnd().Split('\n').AsEnumerable().GetEnumerator();
            foreach (var entry in entries)
            {
                AssertFits(entry.Name, entry.Source, Scopes(entry.Source, lines));
            }
            Assert.False(lines.MoveNext());
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    /// <summary>What was printed for each line of a text; what has only the scope of the whole grammar has no colour.</summary>
    private static string?[] Scopes(Source source, IEnumerator<string> lines)
    {
        var scopes = new string?[source.Text.Length + 1];
        for (var line = 1; line <= source.LineOf(source.Text.Length); line++)
        {
            Assert.True(lines.MoveNext());
            var span = source.LineSpan(line);
            foreach (var token in JsonNode.Parse(lines.Current)!.AsArray())
            {
                var (from, to) = (token![0]!.GetValue<int>(), token[1]!.GetValue<int>());
                var scope = token[2]!.GetValue<string>();
                to = Math.Min(to, span.End - span.Start);
                Array.Fill(scopes, scope == "source.machine" ? null : scope, span.Start + from, Math.Max(0, to - from));
            }
        }
        return scopes;
    }

    private static void AssertFits(string machine, Source source, string?[] scopes)
    {
        foreach (var token in Lexer.Read(source, new Report(source)).Tokens.Where(t => t.Text.Trim().Length > 0))
        {
            foreach (var scope in scopes[token.Span.Start..token.Span.End].Distinct())
            {
                Assert.True(Fits(token, scope), $"{machine}: {token} is {scope}");
            }
        }
    }

    [Theory]
    [InlineData("law floor(log2(x)) = 1", "floor")]
    [InlineData("law floor(log2(x)) = 1", "log2")]
    [InlineData("core multiply-in-steps", "multiply-in-steps")]
    public void Functions_of_formulas_and_names_of_machines_have_colours_of_their_own(string line, string word)
    {
        var source = new Source("", line);
        var scopes = new string?[line.Length + 1];
        Colour(source, source.LineSpan(1), [.. ColourGrammar.Rules.Select(r => (r.Scope, new Regex(r.Match)))], scopes);
        var at = line.IndexOf(word, StringComparison.Ordinal);
        var wanted = line[0] == 'l' ? "support.function.machine" : ColourGrammar.Groups[1];
        Assert.Equal([wanted], scopes[at..(at + word.Length)].Distinct());
    }

    private static bool Fits(Token token, string? scope) =>
        token.Kind switch
        {
            TokenKind.Name => scope is null or "support.function.machine" or "entity.name.type.machine",
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
            if (scope.Length > 0)
            {
                Array.Fill(scopes, scope, line.Start + first, match.Index + match.Length - first);
            }
            for (var group = 1; group < match.Groups.Count; group++)
            {
                var part = match.Groups[group];
                Array.Fill(scopes, ColourGrammar.Groups[group - 1], line.Start + part.Index, part.Length);
            }
            at = match.Index + match.Length;
        }
    }
}
