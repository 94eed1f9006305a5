using System.Text;
using Reckoner.Reporting;
using Reckoner.Words;

namespace Reckoner.Cli;

/// <summary>Help from the tables of verbs and options and the words.</summary>
internal static class HelpText
{
    private static readonly VerbGroup[] VerbGroups = Enum.GetValues<VerbGroup>();
    private static readonly OptionGroup[] OptionGroups = Enum.GetValues<OptionGroup>();
    private static readonly string[] Examples = ["1", "2", "3"];

    /// <summary>
    /// What is explained, and its explanation. A class, as are all things that lists of the help hold: code for lists of values is
    /// not compiled ahead, and to compile it and the like took 46 of the 156 ms of processor time that help needed.
    /// </summary>
    private sealed record HelpRow(string Left, string Right);

    /// <summary>What reckoner is, its verbs by what they are for, and where to begin.</summary>
    public static string General(Vocabulary words, int columns)
    {
        var text = new StringBuilder();
        Paragraph(text, words.Say("help.reckoner"), columns);
        var width = Verb.All.Max(v => Called(v).Length);
        foreach (var group in VerbGroups)
        {
            Heading(text, words.Say($"help.verbs.{Key(group)}"));
            Rows(
                text,
                [
                    .. Verb
                        .All.Where(v => v.Group == group)
                        .Select(v => new HelpRow(Called(v), words.Say($"help.{v.Name}.short"))),
                ],
                columns,
                width
            );
        }
        Paragraph(text, words.Say("help.more", ("topics", HelpTopic.All.Select(t => t.Name).ToList())), columns);
        Rows(
            text,
            [.. Examples.Select(e => new HelpRow(words.Say($"help.example.{e}"), words.Say($"help.example.{e}.said")))],
            columns
        );
        return Ended(text);
    }

    /// <summary>A verb with its options, by what they are about.</summary>
    public static string Of(Verb verb, Vocabulary words, int columns)
    {
        var text = new StringBuilder();
        Append(text, verb, words, columns);
        return Ended(text);
    }

    /// <summary>What a word is: a verb, a topic, an option, or several of these; null for none.</summary>
    public static string? Of(string word, Vocabulary words, int columns)
    {
        var text = new StringBuilder();
        if (Verb.All.FirstOrDefault(v => v.Name == word) is { } verb)
        {
            Append(text, verb, words, columns);
        }
        var topic = HelpTopic.All.FirstOrDefault(t => t.Name == word);
        if (topic is not null)
        {
            Paragraph(text, words.Say($"help.topic.{topic.Name}"), columns);
        }
        var options = Verb
            .All.SelectMany(v => v.Options)
            .Where(o => o.Word == word || topic?.Options.Contains(o) == true)
            .Distinct();
        foreach (var option in options)
        {
            Rows(
                text,
                [new HelpRow($"{option.Name} {option.Example}".TrimEnd(), words.Say($"help.option.{option.Word}"))],
                columns
            );
            var takers = Verb.All.Where(v => v.Options.Contains(option)).Select(v => v.Name).ToList();
            var isForAll = takers.Count == Verb.All.Count;
            Paragraph(text, words.Say(isForAll ? "help.taken-by-all" : "help.taken-by", ("verbs", takers)), columns);
        }
        return text.Length == 0 ? null : Ended(text);
    }

    private static void Append(StringBuilder text, Verb verb, Vocabulary words, int columns)
    {
        Paragraph(text, words.Say($"help.{verb.Name}"), columns);
        Paragraph(text, Request.Usage(verb), columns);
        var options = verb.Options.ToList();
        var width = options.Max(o => Text(o, verb).Length);
        foreach (var group in OptionGroups)
        {
            var rows = options
                .Where(o => o.Group == group)
                .Select(o => new HelpRow(Text(o, verb), words.Say($"help.option.{o.Word}")))
                .ToList();
            if (rows.Count > 0)
            {
                Heading(text, words.Say($"help.options.{Key(group)}"));
                Rows(text, rows, columns, width);
            }
        }
    }

    private static string Called(Verb verb) => $"{verb.Name} {verb.Usage}".TrimEnd();

    /// <summary>The end of the key of its heading.</summary>
    public static string Key(VerbGroup group) =>
        group switch
        {
            VerbGroup.See => "see",
            VerbGroup.Sure => "sure",
            VerbGroup.Teach => "teach",
            VerbGroup.Around => "around",
        };

    private static string Key(OptionGroup group) =>
        group switch
        {
            OptionGroup.Machine => "machine",
            OptionGroup.Asked => "asked",
            OptionGroup.Look => "shown",
            OptionGroup.Result => "result",
        };

    private static string Ended(StringBuilder text) => text.ToString().TrimEnd('\n') + "\n";

    private static void Heading(StringBuilder text, string said) => text.Append(said).Append('\n');

    private static string Text(Option option, Verb verb) =>
        option == Option.Format
            ? $"{option.Name} {string.Join('|', verb.Formats)}"
            : $"{Spelled(option)} {option.Example}".TrimEnd();

    private static string Spelled(Option option) =>
        option.Short is { } letter ? $"{option.Name}, {letter}" : option.Name;

    private static void Paragraph(StringBuilder text, string said, int columns)
    {
        foreach (var line in Wrapping.Lines(said, columns))
        {
            text.Append(line).Append('\n');
        }
        text.Append('\n');
    }

    /// <param name="widest">How wide the left side is where other rows stand in the same columns.</param>
    private static void Rows(StringBuilder text, IReadOnlyList<HelpRow> rows, int columns, int widest = 0)
    {
        var width = Math.Max(rows.Max(r => r.Left.Length), widest) + 3;
        var beside = columns - width - 3;
        foreach (var (left, right) in rows)
        {
            var lead = "   " + left.PadRight(width);
            foreach (var line in Wrapping.Lines(right, Math.Max(10, beside)))
            {
                text.Append(lead).Append(line).Append('\n');
                lead = new string(' ', lead.Length);
            }
        }
        text.Append('\n');
    }
}
