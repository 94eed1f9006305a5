using System.Text;
using System.Text.RegularExpressions;
using Reckoner.Catalogue;

namespace Reckoner.Tests;

/// <summary>Texts spoilt by one or a few changes of characters, words or lines.</summary>
internal static partial class Mutations
{
    private static readonly string[] Texts =
    [
        .. MachineCatalogue.Entries.Select(e => e.Source.Text),
        .. NotationCases.Names.Select(n => NotationCases.Source(n).Text),
    ];

    private static readonly string[] Words =
    [
        .. Texts.SelectMany(t => Word().Matches(t)).Select(m => m.Value).Distinct(),
    ];

    private static readonly string[] Lines = [.. Texts.SelectMany(t => t.Split('\n')).Distinct()];

    private static readonly string[] Junk =
    [
        "\0",
        "\t",
        "\r\n",
        "\u001b[31m",
        "\u2028",
        "\uFEFF",
        "é",
        "ß",
        "Ω",
        "数",
        "😀",
        "\ud83d",
        "e\u0301",
        "٣",
        "²",
        "\"",
        "--",
        "<-",
        "x",
        "(",
        ")",
        "[",
        "]",
        ":",
        "..",
        "0b",
        "0b_",
        "0bx",
        "99999999999999999999",
        "18446744073709551616",
        "-1",
        "2^2^2^2^9",
        "1_",
        "0x1F",
        "65537",
        "loads",
        "end",
        "else",
        "then",
        "{}",
        "#",
        ";",
        "\\",
        "/*",
        "0b0b1",
        "2n",
        "2 n",
        "n2",
        "last",
        "signed",
        "when 1 else",
    ];

    public static string Of(int seed)
    {
        var random = new Random(seed);
        var text = Pick(random, Texts);
        for (var changes = 1 + random.Next(4) * random.Next(2); changes > 0; changes--)
        {
            text = random.Next(3) switch
            {
                0 => Character(random, text),
                1 => AWord(random, text),
                _ => Line(random, text),
            };
        }
        return text;
    }

    private static string Character(Random random, string text)
    {
        if (text.Length < 2)
        {
            return text + "m";
        }
        var at = random.Next(text.Length - 1);
        return random.Next(6) switch
        {
            0 => text.Remove(at, 1),
            1 => text.Insert(at, text[at].ToString()),
            2 => text[..at] + text[at + 1] + text[at] + text[(at + 2)..],
            3 => text[..at] + text[random.Next(text.Length)] + text[(at + 1)..],
            4 => text.Insert(at, Pick(random, Junk)),
            _ => text.Insert(at, Deep(random)),
        };
    }

    private static string Deep(Random random)
    {
        var count = random.Next(1, 400);
        var (open, close) = Pick(
            random,
            [("(", ")"), ("A[", "]"), ("not ", ""), ("-", ""), ("- ", ""), ("signed(", ")"), ("2^", "")]
        );
        return new StringBuilder().Insert(0, open, count)
            + "n"
            + new StringBuilder().Insert(0, close, random.Next(2) * count);
    }

    private static string AWord(Random random, string text)
    {
        var words = Word().Matches(text);
        if (words.Count == 0)
        {
            return text + Pick(random, Words);
        }
        var (word, other) = (words[random.Next(words.Count)], words[random.Next(words.Count)]);
        var changed = random.Next(6) switch
        {
            0 => "",
            1 => word.Value + " " + word.Value,
            2 => other.Value,
            3 => Pick(random, Junk),
            4 => word.Value + " " + Pick(random, Words),
            _ => Pick(random, Words),
        };
        return text[..word.Index] + changed + text[(word.Index + word.Length)..];
    }

    private static string Line(Random random, string text)
    {
        var lines = text.Split('\n').ToList();
        var at = random.Next(lines.Count);
        switch (random.Next(6))
        {
            case 0:
                lines.RemoveAt(at);
                break;
            case 1:
                lines.Insert(at, lines[at]);
                break;
            case 2:
                lines.Insert(random.Next(lines.Count), lines[at]);
                break;
            case 3:
                lines.RemoveAt(at);
                lines.Insert(random.Next(lines.Count + 1), text.Split('\n')[at]);
                break;
            case 4:
                lines[at] = Pick(random, Lines);
                break;
            default:
                lines.Insert(at, Pick(random, Lines));
                break;
        }
        return string.Join('\n', lines);
    }

    private static T Pick<T>(Random random, T[] choices) => choices[random.Next(choices.Length)];

    [GeneratedRegex(@"[\p{L}\d_]+|<-|<=|>=|<>|\.\.|--|[^\s]")]
    private static partial Regex Word();
}
