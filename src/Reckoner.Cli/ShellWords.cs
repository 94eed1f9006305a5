using System.Text;

namespace Reckoner.Cli;

/// <summary>A line as shells cut it into words: at blanks that are not quoted. What is not closed goes to the end.</summary>
internal static class ShellWords
{
    /// <summary>The last word is what is being typed: empty behind a blank.</summary>
    public static IReadOnlyList<string> Of(string line)
    {
        var words = new List<string>();
        var word = new StringBuilder();
        var quote = '\0';
        var isOpen = true;
        for (var at = 0; at < line.Length; at++)
        {
            var c = line[at];
            if (quote != '\0' ? c == quote : c is '"' or '\'')
            {
                quote = quote == '\0' ? c : '\0';
                isOpen = true;
            }
            else if (c == '\\' && quote != '\'' && !OperatingSystem.IsWindows() && at + 1 < line.Length)
            {
                word.Append(line[++at]);
                isOpen = true;
            }
            else if (quote == '\0' && char.IsWhiteSpace(c))
            {
                if (word.Length > 0 || isOpen)
                {
                    words.Add(word.ToString());
                }
                word.Clear();
                isOpen = false;
            }
            else
            {
                word.Append(c);
                isOpen = true;
            }
        }
        words.Add(word.ToString());
        return words;
    }
}
