using System.Diagnostics;
using System.Formats.Tar;
using System.IO.Compression;
using System.Text.Json;
using System.Text.Json.Nodes;
using Xunit;

namespace Reckoner.Cli.Tests;

/// <summary>The extension for editors: what npm's own packer put into it, and what it does when an editor starts it.</summary>
[Trait("Length", "long")]
public sealed class ExtensionTests : IDisposable
{
    private readonly string folder = Directory.CreateTempSubdirectory("reckoner-extension-").FullName;

    public void Dispose() => Directory.Delete(folder, recursive: true);

    private static string At(string file) => Path.Combine(WorkFolder.Repository, file);

    [Fact]
    public void What_is_packed_is_what_an_editor_needs_and_starts_the_command()
    {
        Assert.SkipWhen(OperatingSystem.IsWindows(), "not applicable: bash");
        Assert.SkipUnless(NodeClients.Has("npm"), "npm is missing");
        var made = Child.Run(new ProcessStartInfo(At(".ci/extension")));
        var name = $"artifacts/extension/reckoner-machine-{ProductVersion.Number}.tgz";
        Assert.Equal(new Ended(0, name + "\n", ""), made);
        using (var zipped = File.OpenRead(At(name)))
        using (var tar = new GZipStream(zipped, CompressionMode.Decompress))
        {
            TarFile.ExtractToDirectory(tar, folder, overwriteFiles: false);
        }
        var package = Path.Combine(folder, "package");
        Assert.Equal(
            Directory
                .EnumerateFiles(At("editors/extension"))
                .Select(Path.GetFileName)
                .Append("LICENSE")
                .Append("machine.tmLanguage.json")
                .Order(StringComparer.Ordinal),
            Directory.EnumerateFiles(package).Select(Path.GetFileName).Order(StringComparer.Ordinal)
        );
        Assert.Equal(
            File.ReadAllBytes(At("editors/machine.tmLanguage.json")),
            File.ReadAllBytes(Path.Combine(package, "machine.tmLanguage.json"))
        );
        var manifest = JsonNode.Parse(File.ReadAllText(Path.Combine(package, "package.json")))!;
        Assert.Equal(ProductVersion.Number, manifest["version"]!.GetValue<string>());
        AssertNamedFilesAreThere(package, manifest["contributes"]!);
        AssertWordsAreThere(package, manifest);
        AssertStarts(package, "de-AT", "{}", new { language = "de" });
        AssertStarts(
            package,
            "fr",
            """{"reckoner.command":"/opt/reckoner","reckoner.width":"5"}""",
            new { width = "5" },
            "/opt/reckoner"
        );
    }

    /// <summary>Whatever begins like a path within the package.</summary>
    private static void AssertNamedFilesAreThere(string package, JsonNode contributed)
    {
        var named = Texts(contributed).Where(t => t.StartsWith("./", StringComparison.Ordinal)).ToList();
        Assert.Equal(4, named.Count);
        Assert.All(named, file => Assert.True(File.Exists(Path.Combine(package, file)), file));
    }

    /// <summary>What is said in one language is said in the other, and nothing else is said in words.</summary>
    private static void AssertWordsAreThere(string package, JsonNode manifest)
    {
        var wanted = Texts(manifest).Where(t => t is ['%', .., '%']).Select(t => t.Trim('%')).Order().ToList();
        foreach (var file in new[] { "package.nls.json", "package.nls.de.json" })
        {
            var words = JsonNode.Parse(File.ReadAllText(Path.Combine(package, file)))!.AsObject();
            Assert.Equal(wanted, words.Select(w => w.Key).Order());
        }
    }

    private static IEnumerable<string> Texts(JsonNode? node) =>
        node switch
        {
            JsonObject o => o.SelectMany(p => Texts(p.Value)),
            JsonArray a => a.SelectMany(Texts),
            JsonValue v when v.TryGetValue<string>(out var text) => [text],
            _ => [],
        };

    /// <summary>What an editor gives for each setting that nobody chose.</summary>
    private static JsonObject Defaults(string package)
    {
        var manifest = JsonNode.Parse(File.ReadAllText(Path.Combine(package, "package.json")))!;
        var settings = manifest["contributes"]!["configuration"]!["properties"]!.AsObject();
        return new(settings.Select(s => KeyValuePair.Create(s.Key, s.Value!["default"]?.DeepClone())));
    }

    private static void AssertStarts(
        string package,
        string language,
        string settings,
        object options,
        string command = "reckoner"
    )
    {
        var chosen = Defaults(package);
        foreach (var (setting, value) in JsonNode.Parse(settings)!.AsObject())
        {
            chosen[setting] = value!.DeepClone();
        }
        var (status, output, errors) = NodeClients.Run("extension.js", [package, language, chosen.ToJsonString()]);
        Assert.Equal((0, ""), (status, errors));
        var said = output.TrimEnd().Split('\n');
        Assert.Equal(
            JsonSerializer.Serialize(
                new
                {
                    id = "reckoner",
                    name = "Reckoner",
                    server = new { command, args = new[] { "language-server" } },
                    options = new
                    {
                        documentSelector = new[] { new { language = "machine" } },
                        initializationOptions = options,
                    },
                }
            ),
            said[0]
        );
        Assert.Equal(["\"stopped\"", "\"node_modules/vscode-languageclient/node.js\""], said[1..]);
    }
}
