namespace Reckoner.Texts;

/// <summary>The text of one description and the name its reader knows it by (a file or a catalogue name).</summary>
public sealed class Source
{
    private readonly List<int> lineStarts = [0];

    public Source(string name, string text)
    {
        Name = name;
        Text = text.Replace("\r\n", "\n", StringComparison.Ordinal).Replace('\r', '\n');
        for (var end = Text.IndexOf('\n'); end >= 0; end = Text.IndexOf('\n', end + 1))
        {
            lineStarts.Add(end + 1);
        }
    }

    public string Name { get; }

    /// <summary>True for the words of a command line, which has no lines to count.</summary>
    public bool IsRequest { get; init; }

    /// <summary>The text with every line end as a single line feed; spans count in it.</summary>
    public string Text { get; }

    /// <summary>The line of a position, counted from 1.</summary>
    public int LineOf(int position)
    {
        var found = lineStarts.BinarySearch(position);
        return found >= 0 ? found + 1 : ~found;
    }

    /// <summary>Where a line (counted from 1) stands, without its line feed.</summary>
    public Span LineSpan(int line)
    {
        var start = lineStarts[line - 1];
        var end = line < lineStarts.Count ? lineStarts[line] - 1 : Text.Length;
        return new Span(start, end);
    }

    public string this[Span span] => Text[span.Start..span.End];
}
