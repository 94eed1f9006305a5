namespace Reckoner.Tests;

/// <summary>What stands in a case's ".expected" file; the form is described in tests/cases/notation/README.md.</summary>
/// <param name="Printed">The canonical text; null when the text is printed as it stands.</param>
internal sealed record Expectation(
    string? Printed,
    IReadOnlyList<string> Walks,
    IReadOnlyList<(string Widths, string Ids)> Refused
)
{
    public static Expectation Read(string text)
    {
        var lines = text.TrimEnd('\n').Split('\n').Where(l => !l.StartsWith("--", StringComparison.Ordinal)).ToList();
        string? printed = null;
        var walks = new List<string>();
        var refused = new List<(string, string)>();
        for (var i = 0; i < lines.Count; i++)
        {
            switch (lines[i].Split(' ')[0])
            {
                case "prints" when lines[i] == "prints itself":
                    break;
                case "prints":
                    var count = lines.Skip(i + 1).TakeWhile(l => l.StartsWith('|')).Count();
                    var own = lines.GetRange(i + 1, count).Select(l => l == "|" ? "" : l[2..]);
                    printed = string.Join('\n', own) + "\n";
                    i += count;
                    break;
                case "walk" or "walk!":
                    var end = lines.IndexOf("end", i);
                    walks.Add(string.Join('\n', lines[i..(end + 1)]) + "\n");
                    i = end;
                    break;
                case "refused":
                    var colon = lines[i].IndexOf(':');
                    refused.Add((lines[i][..colon], lines[i][(colon + 2)..]));
                    break;
                default:
                    throw new InvalidOperationException($"an expectation cannot be '{lines[i]}'");
            }
        }
        return new Expectation(printed, walks, refused);
    }
}
