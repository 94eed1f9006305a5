using System.Globalization;
using System.Numerics;
using System.Text;
using Reckoner.Diagnostics;
using Reckoner.Numbers;

namespace Reckoner.Words;

/// <summary>The words of one language, from its table; everything that anybody reads is said through it.</summary>
public sealed class Vocabulary
{
    private static readonly Dictionary<string, Vocabulary> Loaded = [];

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
        lock (Loaded)
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
            var bytes = new byte[stream.Length];
            stream.ReadExactly(bytes);
            return Loaded[language] = new Vocabulary(language, Read(Encoding.UTF8.GetString(bytes)));
        }
    }

    /// <summary>Every start of the program reads one, so nothing is copied but what is kept.</summary>
    private static Dictionary<string, string> Read(ReadOnlySpan<char> table)
    {
        const int UsualLine = 64;
        var texts = new Dictionary<string, string>(table.Length / UsualLine, StringComparer.Ordinal);
        while (!table.IsEmpty)
        {
            var end = table.IndexOf('\n');
            var line = end < 0 ? table : table[..end];
            table = end < 0 ? default : table[(end + 1)..];
            var at = line.IndexOf(" = ", StringComparison.Ordinal);
            if (at >= 0 && line[0] != '#')
            {
                texts.Add(line[..at].Trim().ToString(), Unquoted(line[(at + 3)..].TrimEnd('\r')).ToString());
            }
        }
        return texts;
    }

    /// <summary>A text whose ends are blanks stands in quotes.</summary>
    private static ReadOnlySpan<char> Unquoted(ReadOnlySpan<char> text) =>
        text is ['"', .. var inside, '"'] && !inside.Contains('"') ? inside : text;

    /// <summary>A text as the table has it, its facts still in braces.</summary>
    public string Template(string key) => texts[key];

    public bool Knows(string key) => texts.ContainsKey(key);

    /// <summary>A text with its facts put in. A missing key or fact is a fault of ours and throws.</summary>
    public string Say(string key, params IReadOnlyList<Fact> facts)
    {
        var said = new StringBuilder();
        Fill(run => said.Append(run.Text), Known(key), facts, key);
        return said.ToString();
    }

    /// <summary>The same as runs; a fact may be a run or a content of its own and keeps what it is.</summary>
    public Content Spell(string key, params IReadOnlyList<Fact> facts)
    {
        var runs = new List<Run>();
        Fill(runs.Add, Known(key), facts, key);
        return new Content(runs);
    }

    private string Known(string key) =>
        texts.TryGetValue(key, out var template)
            ? template
            : throw new InvalidOperationException($"the words of {Language} have no {key}");

    private void Fill(Action<Run> put, string template, IReadOnlyList<Fact> facts, string key)
    {
        if (!template.Contains('{'))
        {
            put(new Run(RunKind.Text, template));
            return;
        }
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
            Place(put, template[(open + 1)..close], facts, key);
            at = close + 1;
        }
        Flush();

        void Flush()
        {
            if (said.Length > 0)
            {
                put(new Run(RunKind.Text, said.ToString()));
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

    private void Place(Action<Run> put, string hole, IReadOnlyList<Fact> facts, string key)
    {
        var parts = hole.Split(':', 2);
        var fact = Named(facts, parts[0], key);
        if (parts.Length == 2)
        {
            var forms = parts[1].Split('|');
            Fill(put, IsOne(fact) ? forms[0] : forms[^1], facts, key);
            return;
        }
        switch (fact)
        {
            case Run run:
                put(run);
                break;
            case Content content:
                foreach (var one in content.Runs)
                {
                    put(one);
                }
                break;
            default:
                put(new Run(RunKind.Phrase, Text(fact)));
                break;
        }
    }

    private static object Named(IReadOnlyList<Fact> facts, string name, string key)
    {
        for (var i = 0; i < facts.Count; i++)
        {
            if (facts[i].Name == name)
            {
                return facts[i].Value;
            }
        }
        throw new InvalidOperationException($"{key} has no fact {name}");
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
