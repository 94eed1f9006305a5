using System.Text;
using Reckoner.Numbers;
using Reckoner.Words;

namespace Reckoner.Page.State;

/// <summary>What is on the screen as the Markdown of a lesson, to go on with and to build with the command.</summary>
public static class Handout
{
    /// <summary>The file that a text of the visitor's own is expected in, beside the lesson.</summary>
    public static string FileOf(Reading reading) =>
        (reading.Machine.Name.Length > 0 ? reading.Machine.Name : "machine") + ".machine";

    /// <param name="reading">With a walk.</param>
    public static string Lesson(Reading reading, string view, Vocabulary words)
    {
        var walk = reading.Walk!;
        var machine = reading.Sheet.IsOriginal ? reading.Sheet.Origin : FileOf(reading);
        var title = (reading.Machine.Title?.In(words.Language) ?? reading.Machine.Name).ReplaceLineEndings(" ");
        var operands = walk.Datapath.Operands.Zip(walk.Operands, (o, bits) => Bits.Text(o.Number(bits)));
        var text = new StringBuilder();
        text.Append($"---\ntitle: {title}\nmachine: {machine}\n");
        text.Append($"width: {string.Join(',', walk.Datapath.Widths.Select(w => $"{w.Name}={Bits.Text(w.Value)}"))}\n");
        text.Append($"operands: {string.Join(' ', operands)}\nlanguage: {words.Language}\n---\n\n# {title}\n\n");
        if (!reading.Sheet.IsOriginal)
        {
            var description = reading.Machine.Description.Source.Text.TrimEnd('\n');
            text.Append($"{words.Say("page.lesson-file", ("file", machine))}\n\n```text\n{description}\n```\n\n");
        }
        text.Append($"```reckoner\nwalk\ndraw {view}\n{Compared(reading.Sheet.Beside, machine)}```\n");
        return text.ToString();
    }

    private static string Compared(string beside, string machine) =>
        beside.Length == 0 ? ""
        : Machines.SlipOf(beside) is { } slip ? $"compare {machine} {machine} --slip {slip}\n"
        : $"compare {machine} {beside}\n";
}
