using System.Diagnostics;
using System.Text.Json;
using System.Text.Json.Nodes;
using Reckoner.Catalogue;
using Xunit;

namespace Reckoner.Cli.Tests;

/// <summary>Clients of others drive the language server: the library of npm that many editors are built on, and an editor.</summary>
public sealed class OutsideClientTests : IDisposable
{
    /// <summary>What a server may use, in megabytes.</summary>
    private const int MostMemory = 150;

    private readonly string folder = Directory.CreateTempSubdirectory("reckoner-client-").FullName;

    public void Dispose() => Directory.Delete(folder, recursive: true);

    private static string[] Server =>
        ["dotnet", Path.Combine(AppContext.BaseDirectory, "reckoner.dll"), "language-server"];

    /// <summary>What the client of npm printed, a line each.</summary>
    private static List<JsonNode?> Asked(params IReadOnlyList<object> lines)
    {
        var (status, output, errors) = NodeClients.Run(
            "editor.js",
            Server,
            [.. lines.Select(l => JsonSerializer.Serialize(l) + "\n")]
        );
        Assert.Equal((0, ""), (status, errors));
        return [.. output.TrimEnd().Split('\n').Select(l => JsonNode.Parse(l))];
    }

    /// <summary>
    /// Each answer is what the library's own types know as such, where it has a judge for it; the client ends where one is not.
    /// </summary>
    [Fact]
    public void The_protocol_library_of_others_understands_every_answer()
    {
        var later = LanguageServerTests.Halve.Replace(
            "machine halve",
            "machine later\nfollows halve",
            StringComparison.Ordinal
        );
        var wrong = later.Replace("A <- less", "A <- lss", StringComparison.Ordinal);
        File.WriteAllText(Path.Combine(folder, "halve.machine"), LanguageServerTests.Halve);
        var halve = new Uri(Path.Combine(folder, "halve.machine")).AbsoluteUri;
        var uri = new Uri(Path.Combine(folder, "later.machine")).AbsoluteUri;
        var textDocument = new { uri };
        var position = LanguageServerTests.Position(later, "half <=");
        var cured = LanguageServerTests.Position(wrong, "lss");
        var said = Asked(
            new { open = uri, text = wrong },
            new { notes = uri },
            new
            {
                ask = "textDocument/codeAction",
                @params = new
                {
                    textDocument,
                    range = new { start = cured, end = cured },
                    context = new { diagnostics = Array.Empty<object>() },
                },
                @is = "CodeAction",
            },
            new
            {
                open = uri,
                text = later,
                version = 2,
            },
            new { notes = uri, version = 2 },
            About("hover", "Hover", LanguageServerTests.Position(later, "A <- less")),
            About("definition", "Location", position),
            About("references", "Location", position),
            new
            {
                ask = "textDocument/rename",
                @params = new
                {
                    textDocument,
                    position,
                    newName = "rest",
                },
                @is = "WorkspaceEdit",
            },
            About("completion", null, position),
            About("documentSymbol", "DocumentSymbol", position),
            About("foldingRange", "FoldingRange", position),
            About("formatting", "TextEdit", position)
        );
        Assert.Equal($$"""{"name":"reckoner","version":"{{ProductVersion.Number}}"}""", said[0]!.ToJsonString());
        Assert.Equal(["unknown-name"], said[1]!.AsArray().Select(n => n!["code"]!.GetValue<string>()));
        var cure = said[2]![0]!["edit"]!["documentChanges"]![0]!;
        Assert.Equal((uri, 1), (Uri(cure), cure["textDocument"]!["version"]!.GetValue<int>()));
        Assert.Equal(later, LanguageServerTests.Changed(wrong, cure["edits"]!));
        Assert.Empty(said[3]!.AsArray());
        Assert.Equal("register A\nthe number\nn = 5 bits at n = 5", said[4]!["contents"]!["value"]!.GetValue<string>());
        Assert.Equal(uri, said[5]!["uri"]!.GetValue<string>());
        Assert.Equal(4, said[6]!.AsArray().Count);
        // Of the text that is open it is said which version is meant, of the one that is not, that none is.
        var changes = said[7]!["documentChanges"]!.AsArray().ToDictionary(c => Uri(c!), c => c!);
        Assert.Equal(2, changes[uri]["textDocument"]!["version"]!.GetValue<int>());
        Assert.Null(changes[halve]["textDocument"]!["version"]);
        Assert.True(changes[halve]["textDocument"]!.AsObject().ContainsKey("version"));
        Assert.Equal(
            LanguageServerTests
                .Halve.Replace("result half", "result rest", StringComparison.Ordinal)
                .Replace("law half", "law rest", StringComparison.Ordinal),
            LanguageServerTests.Changed(LanguageServerTests.Halve, changes[halve]["edits"]!)
        );
        Assert.Contains("given_number", said[8]!.AsArray().Select(i => i!["label"]!.GetValue<string>()));
        Assert.Equal("later", said[9]![0]!["name"]!.GetValue<string>());
        Assert.NotEmpty(said[10]!.AsArray());
        Assert.Empty(said[11]!.AsArray());
        Assert.Equal("""{"status":0}""", said[^1]!.ToJsonString());

        object About(string method, string? type, object position) =>
            new
            {
                ask = $"textDocument/{method}",
                @params = new
                {
                    textDocument,
                    position,
                    context = new { includeDeclaration = true },
                    options = new { tabSize = 2, insertSpaces = true },
                },
                @is = type,
            };

        static string Uri(JsonNode change) => change["textDocument"]!["uri"]!.GetValue<string>();
    }

    /// <summary>The whole catalogue is open at a time, and everything is asked of each of it.</summary>
    [Fact]
    [Trait("Length", "long")]
    public void With_the_whole_catalogue_open_the_server_stays_small()
    {
        Assert.SkipUnless(OperatingSystem.IsLinux(), "not applicable: /proc");
        var lines = new List<object>();
        foreach (var entry in MachineCatalogue.Entries)
        {
            var uri = $"untitled:{entry.Name}.machine";
            lines.Add(new { open = uri, text = entry.Source.Text });
            foreach (var method in new[] { "hover", "documentSymbol", "foldingRange", "formatting", "completion" })
            {
                lines.Add(
                    new
                    {
                        ask = $"textDocument/{method}",
                        @params = new
                        {
                            textDocument = new { uri },
                            position = LanguageServerTests.Position(entry.Source.Text, "law "),
                            options = new { tabSize = 2, insertSpaces = true },
                        },
                    }
                );
            }
        }
        lines.AddRange(MachineCatalogue.Entries.Select(e => new { notes = $"untitled:{e.Name}.machine" }));
        lines.Add(new { memory = true });
        var said = Asked(lines);
        Assert.InRange(said[^2]!.GetValue<int>(), 20, MostMemory);
    }

    [Fact]
    [Trait("Length", "long")]
    public void An_editor_of_others_is_told_and_changes_a_text()
    {
        Assert.SkipUnless(NodeClients.Has("nvim"), "neovim is missing");
        var wrong = LanguageServerTests.Halve.Replace("A <- less", "A <- lss", StringComparison.Ordinal);
        var file = Path.Combine(folder, "halve.machine");
        File.WriteAllText(file, wrong);
        var script = Path.Combine(WorkFolder.Repository, "tests/clients/editor.lua");
        var start = new ProcessStartInfo(
            "nvim",
            ["--headless", "-u", "NONE", "-i", "NONE", "-n", "-c", $"luafile {script}", "-c", "qa!"]
        );
        start.Environment["RECKONER_SERVER"] = JsonSerializer.Serialize(Server);
        start.Environment["RECKONER_FILE"] = file;
        start.Environment["HOME"] = folder;
        var (status, output, errors) = Child.Run(start);
        Assert.True(status == 0, output + errors);
        var renamed = LanguageServerTests.Halve.Replace("less", "fewer", StringComparison.Ordinal);
        var line = LanguageServerTests.Halve.Split('\n').ToList().FindIndex(l => l.Contains("A <- less"));
        (string, object)[] wanted =
        [
            ("note", new object[] { "unknown-name", line }),
            ("cure", "Write: less"),
            ("cured", LanguageServerTests.Halve),
            ("hover", "register A\nthe number\nn = 5 bits at n = 5"),
            ("definition", LanguageServerTests.Halve.Split('\n').ToList().FindIndex(l => l.Contains("let less"))),
            ("outline", "halve"),
            ("renamed", renamed),
            ("formatted", renamed.TrimEnd() + "\nlaw half >= 0\n"),
        ];
        Assert.Equal(
            wanted.Select(w => JsonSerializer.Serialize(new[] { w.Item1, w.Item2 })),
            output.TrimEnd().Split('\n').Select(l => JsonSerializer.Serialize(JsonNode.Parse(l)))
        );
    }
}
