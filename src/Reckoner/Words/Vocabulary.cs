using System.Collections.Concurrent;
using System.Globalization;
using System.Numerics;
using System.Text;
using Reckoner.Diagnostics;
using Reckoner.Numbers;

namespace Reckoner.Words;

/// <summary>The words of one language, from its table; everything that anybody reads is said through it.</summary>
public sealed class Vocabulary
{
    private static readonly ConcurrentDictionary<string, Vocabulary> Loaded = new();

    private readonly Dictionary<string, string> texts;

    private Vocabulary(string language, Dictionary<string, string> texts)
    {
        Language = language;
        this.texts = texts;
    }

    /// <summary>The language's tag, such as en.</summary>
    public string Language { get; }

    public IReadOnlyCollection<string> Keys => texts.Keys;

    /// <summary>The tags of the languages that there are words for.</summary>
    public static IReadOnlyList<string> Languages =>
        [
            .. typeof(Vocabulary)
                .Assembly.GetManifestResourceNames()
                .Where(r => r.StartsWith("words/", StringComparison.Ordinal))
                .Select(r => Path.GetFileNameWithoutExtension(r))
                .Order(StringComparer.Ordinal),
        ];

    public static Vocabulary English => Of("en")!;

    /// <summary>The vocabulary of a language, or null when there is none.</summary>
    public static Vocabulary? Of(string language)
    {
        if (Loaded.TryGetValue(language, out var known))
        {
            return known;
        }
        using var stream = typeof(Vocabulary).Assembly.GetManifestResourceStream($"words/{language}.words");
        if (stream is null)
        {
            return null;
        }
        using var reader = new StreamReader(stream);
        return Loaded.GetOrAdd(language, new Vocabulary(language, Read(reader.ReadToEnd())));
    }

    private static Dictionary<string, string> Read(string table)
    {
        var texts = new Dictionary<string, string>(StringComparer.Ordinal);
        foreach (var line in table.Split('\n'))
        {
            var at = line.IndexOf(" = ", StringComparison.Ordinal);
            if (at >= 0 && !line.StartsWith('#'))
            {
                texts.Add(line[..at].Trim(), Unquoted(line[(at + 3)..].TrimEnd('\r')));
            }
        }
        return texts;
    }

    /// <summary>A text whose ends are blanks stands in quotes.</summary>
    private static string Unquoted(string text) =>
        text.Length >= 2 && text.StartsWith('"') && text.EndsWith('"') && text.Count(c => c == '"') == 2
            ? text[1..^1]
            : text;

    /// <summary>A text as the table has it, its facts still in braces.</summary>
    public string Template(string key) => texts[key];

    public bool Knows(string key) => texts.ContainsKey(key);

    /// <summary>A text with its facts put in. A missing key or fact is a fault of ours and throws.</summary>
    public string Say(string key, params IReadOnlyList<Fact> facts) => Spell(key, facts).ToString();

    /// <summary>The same as runs; a fact may be a run or a content of its own and keeps what it is.</summary>
    public Content Spell(string key, params IReadOnlyList<Fact> facts)
    {
        if (!texts.TryGetValue(key, out var template))
        {
            throw new InvalidOperationException($"the words of {Language} have no {key}");
        }
        var runs = new List<Run>();
        Fill(runs, template, facts, key);
        return new Content(runs);
    }

    private void Fill(List<Run> runs, string template, IReadOnlyList<Fact> facts, string key)
    {
        var said = new StringBuilder();
        var at = 0;
        while (at < template.Length)
        {
            var open = template.IndexOf('{', at);
            if (open < 0 || open + 1 >= template.Length || !char.IsAsciiLetter(template[open + 1]))
            {
                // A brace that opens no fact, such as {} for a number, stays as it is.
                var next = open < 0 ? template.Length : open + 1;
                said.Append(template, at, next - at);
                at = next;
                continue;
            }
            said.Append(template, at, open - at);
            var close = Closing(template, open);
            Flush();
            Place(runs, template[(open + 1)..close], facts, key);
            at = close + 1;
        }
        Flush();

        void Flush()
        {
            if (said.Length > 0)
            {
                runs.Add(new Run(RunKind.Text, said.ToString()));
                said.Clear();
            }
        }
    }

    private static int Closing(string template, int open)
    {
        var depth = 0;
        for (var i = open; i < template.Length; i++)
        {
            depth +=
                template[i] == '{' ? 1
                : template[i] == '}' ? -1
                : 0;
            if (depth == 0)
            {
                return i;
            }
        }
        throw new InvalidOperationException($"a brace is not closed in: {template}");
    }

    private void Place(List<Run> runs, string hole, IReadOnlyList<Fact> facts, string key)
    {
        var parts = hole.Split(':', 2);
        var index = facts.ToList().FindIndex(f => f.Name == parts[0]);
        if (index < 0)
        {
            throw new InvalidOperationException($"{key} has no fact {parts[0]}");
        }
        var fact = facts[index].Value;
        if (parts.Length == 2)
        {
            var forms = parts[1].Split('|');
            Fill(runs, IsOne(fact) ? forms[0] : forms[^1], facts, key);
            return;
        }
        switch (fact)
        {
            case Run run:
                runs.Add(run);
                break;
            case Content content:
                runs.AddRange(content.Runs);
                break;
            default:
                runs.Add(new Run(RunKind.Phrase, Text(fact)));
                break;
        }
    }

    /// <summary>The first form is for the number one.</summary>
    private static bool IsOne(object fact) =>
        fact switch
        {
            int n => n == 1,
            long n => n == 1,
            BigInteger n => n.IsOne,
            Size size => size.Count == 1,
            _ => false,
        };

    /// <summary>A fact as it is read: numbers of five digits and more in groups of three.</summary>
    public string Text(object fact) =>
        fact switch
        {
            string s => s,
            Term term => Say(term.Key, term.Facts),
            Size size => size.ToString(),
            int n => InGroups(n),
            long n => InGroups(n),
            BigInteger n => InGroups(n),
            IReadOnlyList<string> names => string.Join(", ", names),
            IReadOnlyList<Term> terms => string.Join("; ", terms.Select(Text)),
            Advice advice => Text(advice.Neutral),
            AskedWord word => Say(word.Key()),
            IReadOnlyList<Advice> several => string.Join("; ", several.Select(a => Text(a.Neutral))),
            _ => throw new InvalidOperationException($"no words for a fact of {fact.GetType().Name}"),
        };

    /// <summary>With the sign that this language puts between groups.</summary>
    private string InGroups(BigInteger number) =>
        Grouped(number).Replace(",", texts["thousands"], StringComparison.Ordinal);

    /// <summary>A decimal fraction, written with a point, with the sign that this language puts there.</summary>
    public string Decimal(string number) => number.Replace(".", texts["decimal"], StringComparison.Ordinal);

    /// <summary>4096, but 65,536.</summary>
    public static string Grouped(BigInteger number) =>
        BigInteger.Abs(number) < 10_000
            ? number.ToString(CultureInfo.InvariantCulture)
            : number.ToString("#,##0", CultureInfo.InvariantCulture);
}
