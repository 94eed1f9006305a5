using Reckoner.Diagnostics;
using Reckoner.Reporting;
using Reckoner.Running;
using Reckoner.Styles;
using Reckoner.Tables;
using Reckoner.Words;
using Xunit;

namespace Reckoner.Tests;

/// <summary>House styles as tests need them.</summary>
internal static class Styled
{
    public static IReadOnlyList<string> Examples { get; } =
    [
        .. Directory
            .EnumerateFiles(Path.GetDirectoryName(Sources.File("examples/styles/x"))!, "*.style")
            .Select(f => Path.GetFileNameWithoutExtension(f))
            .Order(StringComparer.Ordinal),
    ];

    public static HouseStyle Example(string name) =>
        Read(File.ReadAllText(Sources.File($"examples/styles/{name}.style")));

    /// <summary>A style that must be right.</summary>
    public static HouseStyle Read(string text)
    {
        var (style, found) = StyleReader.Read(new Source("test.style", text));
        Assert.Empty(found.Select(d => $"{d.Id} on line {d.Line}"));
        return style!;
    }

    /// <summary>What is said of a wrong one.</summary>
    public static IReadOnlyList<Diagnostic> Found(string text) =>
        StyleReader.Read(new Source("test.style", text)).Found;

    public static Document Document(Walk walk, HouseStyle? style = null, bool oneByOne = false)
    {
        var (document, found) = WalkDocument.Of(walk, style ?? HouseStyle.None, Vocabulary.English, oneByOne);
        Assert.Empty(found);
        return document!;
    }
}
