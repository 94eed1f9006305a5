using System.Text.Json.Nodes;
using Reckoner.Catalogue;
using Xunit;

namespace Reckoner.Cli.Tests;

/// <summary>Names that a machine has from its core, and those that a name of a file stands for, changed by an editor in a folder.</summary>
public sealed class SharedNameTests : IDisposable
{
    private readonly string folder = Directory.CreateTempSubdirectory("reckoner-names-").FullName;

    public void Dispose() => Directory.Delete(folder, recursive: true);

    private const string Outer = "divide-signed-euclidean";
    private const string Inner = "my-core";

    /// <summary>A machine and its core, neither of the catalogue.</summary>
    private Dictionary<string, string> Texts { get; } =
        new()
        {
            [Inner] = Catalogue("divide-shared-register").Replace("machine divide-shared-register", $"machine {Inner}"),
            [Outer] = Catalogue(Outer).Replace("core divide-shared-register", $"core {Inner}"),
        };

    private static string Catalogue(string name) =>
        string.Join(
            '\n',
            MachineCatalogue
                .Find(name)!
                .Text.Split('\n')
                .Where(l => !l.StartsWith("follows ", StringComparison.Ordinal))
        );

    private string UriOf(string name) => new Uri(Path.Combine(folder, name + ".machine")).AbsoluteUri;

    private EditorClient Begun(bool opensAll)
    {
        foreach (var (name, text) in Texts)
        {
            File.WriteAllText(Path.Combine(folder, name + ".machine"), text);
        }
        var client = EditorClient.Begun();
        foreach (var (name, text) in Texts.Where(t => opensAll || t.Key == Outer))
        {
            client.Open(UriOf(name), text);
        }
        return client;
    }

    private static object At(string text, string words, int ahead)
    {
        var at = text.IndexOf(words, StringComparison.Ordinal) + ahead;
        Assert.True(at >= ahead, words);
        var line = text[..at].Count(c => c == '\n');
        return new { line, character = at - (text.LastIndexOf('\n', at - 1) + 1) };
    }

    private JsonNode Renamed(EditorClient client, string machine, string words, int ahead, string name) =>
        client.Ask(
            "textDocument/rename",
            new
            {
                textDocument = new { uri = UriOf(machine) },
                position = At(Texts[machine], words, ahead),
                newName = name,
            }
        );

    /// <summary>
    /// A register, a width and an operand of the core, each named from both machines: with its new name in all places nothing is wrong
    /// with either, and the outer machine does what it did.
    /// </summary>
    [Theory]
    [InlineData(Outer, "left <> 0", 0, true)]
    [InlineData(Outer, "left <> 0", 0, false)]
    [InlineData(Outer, "width n", 6, false)]
    [InlineData(Outer, "  dividend = abs", 2, false)]
    [InlineData(Inner, "part left", 5, true)]
    [InlineData(Inner, "width n", 6, true)]
    [InlineData(Inner, "operand divisor", 8, true)]
    public void A_name_of_a_core_is_changed_in_the_machines_around_it_too(
        string machine,
        string words,
        int ahead,
        bool opensAll
    )
    {
        using var client = Begun(opensAll);
        var answer = Renamed(client, machine, words, ahead, "fresh_one");
        Assert.True(answer["result"] is not null, answer.ToJsonString());
        var changes = answer["result"]!["changes"]!.AsObject();
        Assert.Equal([UriOf(Outer), UriOf(Inner)], changes.Select(c => c.Key).Order());
        foreach (var name in Texts.Keys)
        {
            Texts[name] = LanguageServerTests.Changed(Texts[name], changes[UriOf(name)]!);
            File.WriteAllText(Path.Combine(folder, name + ".machine"), Texts[name]);
        }
        Assert.Equal(2, Texts.Values.Count(t => t.Contains("fresh_one", StringComparison.Ordinal)));
        var width = words.StartsWith("width", StringComparison.Ordinal) ? "fresh_one=3" : "n=3";
        var checkd = Command.Run("check", Path.Combine(folder, Outer + ".machine"), "--width", width);
        Assert.Equal((0, ""), (checkd.Status, checkd.Errors));
    }

    /// <summary>Where it is declared is asked from the outer machine, of which only that is open.</summary>
    [Fact]
    public void A_name_of_a_core_is_found_where_it_is_declared()
    {
        using var client = Begun(opensAll: false);
        var asked = new { textDocument = new { uri = UriOf(Outer) }, position = At(Texts[Outer], "left <> 0", 0) };
        var there = client.Ask("textDocument/definition", asked)["result"]!;
        Assert.Equal(UriOf(Inner), there["uri"]!.GetValue<string>());
        var line = there["range"]!["start"]!["line"]!.GetValue<int>();
        Assert.StartsWith("part left", Texts[Inner].Split('\n')[line], StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(Outer, "machine divide", 8, "other", "finds it by the name of its file", true)]
    [InlineData(Inner, "machine my", 8, "other", "divide-signed-euclidean names my-core", false)]
    [InlineData(Outer, "core my-core", 5, "other", "divide-signed-euclidean names my-core", false)]
    [InlineData(Outer, "register minus", 9, "left", "declared already", false)]
    [InlineData(Outer, "register minus", 9, "two--halves", "cannot be a name", false)]
    [InlineData(Outer, "register minus", 9, "x\u0664", "cannot be a name", false)]
    [InlineData(Outer, "machine divide", 8, "halve-", "cannot be a name", false)]
    [InlineData(Inner, "part left", 5, "below", "declared already", false)]
    public void What_would_break_a_machine_is_refused(
        string machine,
        string words,
        int ahead,
        string name,
        string said,
        bool isDone
    )
    {
        using var client = Begun(opensAll: true);
        var answer = Renamed(client, machine, words, ahead, name);
        Assert.Equal(isDone, answer["result"] is not null);
        if (!isDone)
        {
            Assert.Contains(said, answer["error"]!["message"]!.GetValue<string>(), StringComparison.Ordinal);
        }
    }

    /// <summary>A register and the width belong to the core as well, which nobody can change.</summary>
    [Theory]
    [InlineData("left <> 0", 0)]
    [InlineData("width n", 6)]
    public void What_a_core_of_the_catalogue_has_is_not_renamed(string words, int ahead)
    {
        Texts[Outer] = Catalogue(Outer);
        using var client = Begun(opensAll: true);
        Assert.Contains(
            "is also a name of divide-shared-register",
            Renamed(client, Outer, words, ahead, "fresh_one")["error"]!["message"]!.GetValue<string>(),
            StringComparison.Ordinal
        );
    }

    /// <summary>Two ways to write one URI are one file.</summary>
    [Fact]
    public void A_file_counts_once_however_its_name_is_written()
    {
        using var client = Begun(opensAll: false);
        client.Open(UriOf(Inner).Replace("my-core", "%6Dy%2Dcore", StringComparison.Ordinal), Texts[Inner]);
        var places = client.Ask(
            "textDocument/references",
            new
            {
                textDocument = new { uri = UriOf(Outer) },
                position = At(Texts[Outer], "left <> 0", 0),
                context = new { includeDeclaration = true },
            }
        )["result"]!.AsArray();
        Assert.Equal(1, places.Select(p => p!["uri"]!.GetValue<string>()).Distinct().Count(u => u != UriOf(Outer)));
    }
}
