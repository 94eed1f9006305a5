using System.Text;
using Reckoner.Reporting;
using Reckoner.Words;

namespace Reckoner.Cli;

/// <summary>Help from the tables of verbs and options and the words.</summary>
internal static class HelpText
{
    public static string Of(Verb? verb, Vocabulary words, int columns)
    {
        var text = new StringBuilder();
        Paragraph(text, words.Say(verb is null ? "help.reckoner" : $"help.{verb.Name}"), columns);
        if (verb is null)
        {
            Rows(
                text,
                [.. Verb.All.Select(v => ($"{v.Name} {v.Usage}".TrimEnd(), words.Say($"help.{v.Name}.short")))],
                columns
            );
            Paragraph(text, words.Say("help.more"), columns);
            Rows(
                text,
                [
                    .. Enumerable
                        .Range(1, 3)
                        .Select(i => (words.Say($"help.example.{i}"), words.Say($"help.example.{i}.said"))),
                ],
                columns
            );
        }
        else
        {
            Paragraph(text, Request.Usage(verb), columns);
            Rows(
                text,
                [.. verb.Options.Select(o => (Text(o, verb), words.Say($"help.option.{o.Name.TrimStart('-')}")))],
                columns
            );
        }
        return text.ToString().TrimEnd('\n') + "\n";
    }

    private static string Text(Option option, Verb verb) =>
        option == Option.Format
            ? $"{option.Name} {string.Join('|', verb.Formats)}"
            : $"{option.Name} {option.Example}".TrimEnd();

    private static void Paragraph(StringBuilder text, string said, int columns)
    {
        foreach (var line in Wrapping.Lines(said, columns))
        {
            text.Append(line).Append('\n');
        }
        text.Append('\n');
    }

    private static void Rows(StringBuilder text, IReadOnlyList<(string Left, string Right)> rows, int columns)
    {
        var width = rows.Max(r => r.Left.Length) + 3;
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
