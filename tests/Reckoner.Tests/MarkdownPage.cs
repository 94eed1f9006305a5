using System.Text.RegularExpressions;
using Xunit;

namespace Reckoner.Tests;

/// <summary>A fenced block: what stands behind the fence, its text, its line counted from 1.</summary>
public sealed record CodeBlock(MarkdownPage Page, string Info, string Text, int Line)
{
    /// <summary>The first word behind the fence: what kind of block it is.</summary>
    public string Kind => Info.Split(' ')[0];

    public override string ToString() => $"{Page.Path}:{Line}";
}

/// <summary>A page of the documentation, read as far as the tests look at it.</summary>
public sealed partial class MarkdownPage
{
    private MarkdownPage(string path)
    {
        Path = path;
        Text = File.ReadAllText(FileOf(path)).ReplaceLineEndings("\n");
        Blocks =
        [
            .. Fence()
                .Matches(Text)
                .Select(m => new CodeBlock(
                    this,
                    m.Groups["info"].Value.Trim(),
                    m.Groups["body"].Value,
                    Text[..m.Index].Count(c => c == '\n') + 1
                )),
        ];
    }

    /// <summary>From the root of the repository, with slashes.</summary>
    public string Path { get; }

    public string Text { get; }

    public IReadOnlyList<CodeBlock> Blocks { get; }

    /// <summary>README and handbook, whose blocks are run. The page of diagnostics has examples of its own kind and tests of its own.</summary>
    public static IReadOnlyList<MarkdownPage> Read { get; } =
    [
        Of("README.md"),
        .. HandbookPaths().Where(path => !path.EndsWith("/diagnostics.md", StringComparison.Ordinal)).Select(Of),
    ];

    /// <summary>Every page, for links and paths.</summary>
    public static IReadOnlyList<MarkdownPage> All { get; } =
    [Of("README.md"), Of("ARCHITECTURE.md"), Of("CONTRIBUTING.md"), .. HandbookPaths().Select(Of)];

    public static MarkdownPage Of(string path) => new(path);

    public static string FileOf(string path) => System.IO.Path.Combine(Root(), path);

    private static string Root()
    {
        var folder = new DirectoryInfo(AppContext.BaseDirectory);
        while (!File.Exists(System.IO.Path.Combine(folder.FullName, "Reckoner.slnx")))
        {
            folder = folder.Parent ?? throw new InvalidOperationException("tests run inside the repository");
        }
        return folder.FullName;
    }

    private static IEnumerable<string> HandbookPaths() =>
        Directory
            .GetFiles(FileOf("docs/handbook"), "*.md")
            .Select(file => "docs/handbook/" + System.IO.Path.GetFileName(file))
            .Order(StringComparer.Ordinal);

    /// <summary>The text outside fenced blocks.</summary>
    public string Prose => Fence().Replace(Text, "");

    /// <summary>Where links lead, as written; what stands in code, between backticks or indented, is none.</summary>
    public IEnumerable<string> Links =>
        Link().Matches(Indented().Replace(Code().Replace(Prose, ""), "")).Select(m => m.Groups["to"].Value);

    /// <summary>What a link behind "#" may name: headings in small letters, hyphens for blanks.</summary>
    public IEnumerable<string> Anchors =>
        Heading()
            .Matches(Prose)
            .Select(m => NoAnchor().Replace(m.Groups["words"].Value.ToLowerInvariant(), "").Replace(' ', '-'));

    /// <summary>The words between backticks.</summary>
    public IEnumerable<string> InlineCode => Code().Matches(Prose).Select(m => m.Groups["code"].Value);

    /// <summary>The rows of a table below a heading, the first where none is told, without its head; cells without backticks.</summary>
    public IReadOnlyList<IReadOnlyList<string>> Table(string heading, int index = 0)
    {
        var lines = Prose.Split('\n').SkipWhile(line => line.TrimStart('#') != " " + heading).Skip(1);
        for (; index > 0; index--)
        {
            lines = lines.SkipWhile(line => !line.StartsWith('|')).SkipWhile(line => line.StartsWith('|'));
        }
        var table = lines.SkipWhile(line => !line.StartsWith('|')).TakeWhile(line => line.StartsWith('|')).Skip(2);
        IReadOnlyList<IReadOnlyList<string>> rows = [.. table.Select(Cells)];
        Assert.False(rows.Count == 0, $"{Path} has no table under the heading '{heading}'.");
        return rows;
    }

    private static List<string> Cells(string row) =>
        [
            .. Bar()
                .Split(row.Trim().Trim('|'))
                .Select(c =>
                    c.Trim().Replace("`", "", StringComparison.Ordinal).Replace("\\|", "|", StringComparison.Ordinal)
                ),
        ];

    [GeneratedRegex(@"^```(?<info>[^\n]*)\n(?<body>(?:.*\n)*?)```$", RegexOptions.Multiline)]
    private static partial Regex Fence();

    [GeneratedRegex(@"\]\((?<to>[^)\s]+)\)")]
    private static partial Regex Link();

    [GeneratedRegex(@"^#+ (?<words>.+)$", RegexOptions.Multiline)]
    private static partial Regex Heading();

    [GeneratedRegex(@"[^\w -]")]
    private static partial Regex NoAnchor();

    [GeneratedRegex(@"`(?<code>[^`\n]+)`")]
    private static partial Regex Code();

    [GeneratedRegex("^    .*$", RegexOptions.Multiline)]
    private static partial Regex Indented();

    [GeneratedRegex(@"(?<!\\)\|")]
    private static partial Regex Bar();
}
