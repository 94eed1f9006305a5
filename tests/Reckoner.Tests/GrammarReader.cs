using System.Text.RegularExpressions;

namespace Reckoner.Tests;

/// <summary>
/// Reads texts by a grammar alone, trying every way. It is slow and says nothing about mistakes, but it knows nothing of the
/// parser: what the two accept can be compared.
/// </summary>
internal sealed partial class GrammarReader
{
    private enum Surroundings
    {
        Sentences,
        Values,
        Formulas,
    }

    private readonly Grammar grammar;
    private readonly IReadOnlySet<string> reserved;
    private readonly List<string> words;
    private readonly Dictionary<(string Rule, int At, Surroundings Inside), HashSet<int>> known = [];
    private int furthest;

    private GrammarReader(Grammar grammar, IReadOnlySet<string> reserved, List<string> words)
    {
        this.grammar = grammar;
        this.reserved = reserved;
        this.words = words;
    }

    /// <summary>Null when the text is a description by the grammar; else the words about as far as it could be read.</summary>
    public static string? WhereItStops(string text, Grammar grammar, IReadOnlySet<string> reserved)
    {
        var reader = new GrammarReader(grammar, reserved, Words(text));
        if (reader.Ends(new Reference("description"), 0, Surroundings.Sentences).Contains(reader.words.Count))
        {
            return null;
        }
        var from = Math.Max(0, reader.furthest - 8);
        return string.Join(' ', reader.words[from..Math.Min(reader.words.Count, reader.furthest + 1)]);
    }

    /// <summary>The words of a text. A line end counts unless a bracket is open or the last word leaves the sentence unfinished.</summary>
    private static List<string> Words(string text)
    {
        var words = new List<string>();
        var open = 0;
        foreach (Match match in Word().Matches(text))
        {
            var word = match.Value;
            if (word.StartsWith("--", StringComparison.Ordinal))
            {
                continue;
            }
            open +=
                word is "(" or "[" ? 1
                : word is ")" or "]" ? -1
                : 0;
            if (word != "\n")
            {
                words.Add(word);
            }
            else if (open == 0 && words.Count > 0 && words[^1] != "\n" && !Unfinished().IsMatch(words[^1]))
            {
                words.Add(word);
            }
        }
        return words;
    }

    private HashSet<int> Ends(Piece piece, int at, Surroundings inside)
    {
        furthest = Math.Max(furthest, at);
        switch (piece)
        {
            case Literal literal:
                return at < words.Count && words[at] == literal.Text ? [at + 1] : [];
            case WordClass wordClass:
                return at < words.Count && IsOf(wordClass.Name, at) ? [at + 1] : [];
            case Reference reference:
                return OfRule(reference.Name, at, inside);
            case Sequence sequence:
                return sequence.Pieces.Aggregate(
                    new HashSet<int> { at },
                    (ends, next) => [.. ends.SelectMany(end => Ends(next, end, inside))]
                );
            case Alternatives alternatives:
                return [.. alternatives.Pieces.SelectMany(one => Ends(one, at, inside))];
            case Only only:
                return inside == (only.InFormulas ? Surroundings.Formulas : Surroundings.Values)
                    ? Ends(only.Inner, at, inside)
                    : [];
            case Optional optional:
                return Any(optional, at, inside);
            default:
                throw new InvalidOperationException(piece.GetType().Name);
        }
    }

    private HashSet<int> Any(Optional optional, int at, Surroundings inside)
    {
        var ends = new HashSet<int> { at };
        var latest = ends;
        do
        {
            latest = [.. latest.SelectMany(end => Ends(optional.Inner, end, inside)).Where(end => !ends.Contains(end))];
            ends = [.. ends, .. latest];
        } while (optional.Again && latest.Count > 0);
        return ends;
    }

    private HashSet<int> OfRule(string rule, int at, Surroundings inside)
    {
        inside = rule switch
        {
            "value" => Surroundings.Values,
            "formula" or "number" => Surroundings.Formulas,
            _ => inside,
        };
        if (!known.TryGetValue((rule, at, inside), out var ends))
        {
            known[(rule, at, inside)] = ends = Ends(grammar.Rules[rule], at, inside);
        }
        return ends;
    }

    private bool IsOf(string wordClass, int at)
    {
        var word = words[at];
        return wordClass switch
        {
            "NL" => word == "\n",
            "STRING" => word[0] == '"',
            "NUMBER" => Number().IsMatch(word),
            "MULTIPLE" => char.IsAsciiDigit(word[0]) && !Number().IsMatch(word) && !Pattern().IsMatch(word),
            "BITS" => Pattern().IsMatch(word) && !word.Contains('x', StringComparison.OrdinalIgnoreCase),
            "PATTERN" => Pattern().IsMatch(word),
            "NAME" => char.IsLetter(word[0])
                && !word.Contains('-', StringComparison.Ordinal)
                && !reserved.Contains(word),
            "MACHINE" => char.IsLetter(word[0]),
            _ => throw new InvalidOperationException($"The handbook names no class of words {wordClass}."),
        };
    }

    /// <summary>Behind "machine", "follows" and "core" at the start of a line a hyphen belongs to the name.</summary>
    [GeneratedRegex(
        """
            \n | --[^\n]* | "[^"\n]*" | (?<=(^|\n)[ ]*(machine|follows|core)[ ]+)[\p{L}][\p{L}0-9_-]* | [\p{L}0-9][\p{L}0-9_]*
            | <- | \.\. | <= | >= | <> | [^ ]
            """,
        RegexOptions.IgnorePatternWhitespace
    )]
    private static partial Regex Word();

    [GeneratedRegex(@"^(<-|\.\.|<=|>=|<>|[=<>+\-*/^,]|and|or|xor|when)$")]
    private static partial Regex Unfinished();

    [GeneratedRegex(@"^[0-9][0-9_]*$")]
    private static partial Regex Number();

    [GeneratedRegex(@"^0[bB][01xX_]+$")]
    private static partial Regex Pattern();
}
