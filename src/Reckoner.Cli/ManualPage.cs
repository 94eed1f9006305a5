using System.Text;
using Reckoner.Words;

namespace Reckoner.Cli;

/// <summary>The help of all verbs, options and topics as one page for man, in the macros of man(7).</summary>
internal static class ManualPage
{
    public static string Of(Vocabulary words)
    {
        var text = new StringBuilder();
        text.Append($".TH RECKONER 1 \"\" \"reckoner {ProductVersion.Number}\"\n");
        Section(text, words.Say("manual.name"));
        Line(text, $"reckoner - {words.Say("manual.is")}");
        Section(text, words.Say("manual.synopsis"));
        Line(text, $"reckoner {words.Say("manual.verb")} ...");
        Section(text, words.Say("manual.says"));
        Line(text, words.Say("help.reckoner"));
        foreach (var group in Verb.All.GroupBy(v => v.Group).OrderBy(g => g.Key))
        {
            Section(text, words.Say($"help.verbs.{HelpText.Key(group.Key)}"));
            foreach (var verb in group)
            {
                Entry(text, Request.Usage(verb), words.Say($"help.{verb.Name}"));
                Also(text, string.Join(", ", verb.Own.Select(o => o.Name)));
            }
        }
        Options(text, words);
        Section(text, words.Say("manual.topics"));
        foreach (var topic in HelpTopic.All)
        {
            Entry(text, topic.Name, words.Say($"help.topic.{topic.Name}"));
        }
        Section(text, words.Say("manual.examples"));
        foreach (var i in Enumerable.Range(1, 3))
        {
            Entry(text, words.Say($"help.example.{i}"), words.Say($"help.example.{i}.said"));
        }
        return text.ToString();
    }

    /// <summary>Each once, with the verbs that take it; two of one name differ in that.</summary>
    private static void Options(StringBuilder text, Vocabulary words)
    {
        Section(text, words.Say("manual.options"));
        var options = Verb.All.SelectMany(v => v.Options).Distinct().OrderBy(o => o.Word, StringComparer.Ordinal);
        foreach (var option in options)
        {
            var takers = Verb.All.Where(v => v.Options.Contains(option)).Select(v => v.Name).ToList();
            Entry(text, $"{option.Name} {option.Example}".TrimEnd(), words.Say($"help.option.{option.Word}"));
            Also(
                text,
                takers.Count == Verb.All.Count
                    ? words.Say("help.taken-by-all")
                    : words.Say("help.taken-by", ("verbs", takers))
            );
        }
    }

    private static void Section(StringBuilder text, string heading) =>
        text.Append($".SH \"{Escaped(heading).Replace("\"", "\\(dq", StringComparison.Ordinal)}\"\n");

    private static void Entry(StringBuilder text, string named, string said)
    {
        text.Append(".TP\n");
        Line(text, $"\\fB{Escaped(named)}\\fR", isEscaped: true);
        Line(text, said);
    }

    /// <summary>A further line of an entry.</summary>
    private static void Also(StringBuilder text, string said)
    {
        if (said.Length > 0)
        {
            text.Append(".br\n");
            Line(text, said);
        }
    }

    private static void Line(StringBuilder text, string said, bool isEscaped = false)
    {
        var line = isEscaped ? said : Escaped(said);
        // A line that begins so would be a request of the language of man pages.
        text.Append(line.StartsWith('.') || line.StartsWith('\'') ? "\\&" : "").Append(line).Append('\n');
    }

    private static string Escaped(string text) =>
        text.Replace("\\", "\\e", StringComparison.Ordinal).Replace("-", "\\-", StringComparison.Ordinal);
}
