namespace Reckoner.Page.State;

/// <summary>Where a visitor may begin: each opens at once on something worth seeing.</summary>
public static class Tours
{
    /// <summary>The keys of what they are called, and the links that they open: a line each in a text, since no machine is named in C#.</summary>
    public static IReadOnlyList<(string Key, string Link)> All { get; } = [.. Lines().Select(Parted)];

    private static IEnumerable<string> Lines()
    {
        using var stream = typeof(Tours).Assembly.GetManifestResourceStream("tours.txt")!;
        using var text = new StreamReader(stream);
        while (text.ReadLine() is { } line)
        {
            yield return line;
        }
    }

    private static (string Key, string Link) Parted(string line)
    {
        var blank = line.IndexOf(' ', StringComparison.Ordinal);
        return (line[..blank], line[(blank + 1)..]);
    }
}
