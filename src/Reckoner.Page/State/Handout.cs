using Reckoner.Reporting;
using Reckoner.Words;

namespace Reckoner.Page.State;

/// <summary>What is on the screen as a text of one's own to go on with.</summary>
public static class Handout
{
    private const int Columns = 100;

    public static string Markdown(Reading reading, Vocabulary words)
    {
        var title = reading.Machine.Title?.In(words.Language) ?? reading.Machine.Name;
        var text = reading.Machine.Description.Source.Text.TrimEnd('\n');
        var walk = WalkText.Of(reading.Walk!, words, Columns).TrimEnd('\n');
        return $"# {title}\n\n```text\n{text}\n```\n\n```text\n{walk}\n```\n";
    }
}
