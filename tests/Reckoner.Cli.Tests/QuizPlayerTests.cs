using System.Diagnostics;
using System.Globalization;
using System.Net;
using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using System.Xml.Linq;
using Xunit;

namespace Reckoner.Cli.Tests;

/// <summary>
/// Banks graded by a player that is not ours, in a browser: items of version 3 as they are, those of version 2.1 through a converter
/// that is not ours either. Both are fetched by npm, and neither is a part of Reckoner.
/// </summary>
[Trait("Length", "long")]
public sealed class QuizPlayerTests(QuizPlayerTests.Programs programs) : IClassFixture<QuizPlayerTests.Programs>
{
    /// <summary>A folder with both, or the reason why there is none.</summary>
    public sealed class Programs : IDisposable
    {
        private static readonly string[] Wanted = ["@citolab/qti-components@7.27.4", "@citolab/qti-convert@0.3.52"];

        public Programs()
        {
            if (Chromium.Program.Length == 0)
            {
                Missing = "chromium is missing";
                return;
            }
            try
            {
                File.WriteAllText(Path.Combine(Folder, "package.json"), "{\"private\":true}");
                string[] options = ["--no-audit", "--no-fund", "--ignore-scripts", "--loglevel=error"];
                var (status, _, errors) = Child.Run(
                    new ProcessStartInfo("npm", ["install", .. options, .. Wanted]) { WorkingDirectory = Folder }
                );
                Assert.True(status == 0, errors);
            }
            catch (System.ComponentModel.Win32Exception)
            {
                Missing = "npm is missing";
            }
        }

        public string Folder { get; } = Directory.CreateTempSubdirectory("reckoner-player-").FullName;

        public string? Missing { get; }

        public void Dispose() => Directory.Delete(Folder, recursive: true);
    }

    private sealed record Played(double Score, double Most, IReadOnlyList<string> Shown);

    private static string Beside(string file) =>
        Path.Combine(WorkFolder.Repository, "tests", "Reckoner.Cli.Tests", file);

    [Fact]
    public void Items_of_version_3_are_graded_by_a_player()
    {
        Assert.SkipWhen(programs.Missing is not null, programs.Missing ?? "");
        AllAreGraded(QtiReading.Package(QuizLesson.Banks["qti3"]), i => i.Xml.ToString(SaveOptions.DisableFormatting));
    }

    /// <summary>What the converter makes of version 2.1 is what we write as version 3, and is graded likewise.</summary>
    [Fact]
    public void Items_of_version_2_1_are_graded_by_a_player_behind_a_converter()
    {
        Assert.SkipWhen(programs.Missing is not null, programs.Missing ?? "");
        var items = QtiReading.Package(QuizLesson.Banks["qti"]);
        var converted = Converted(items);
        var own = QtiReading.Package(QuizLesson.Banks["qti3"]).ToDictionary(i => i.Identifier);
        Assert.All(
            items,
            i => Assert.Equal(Shape(own[i.Identifier].Xml), Shape(XElement.Parse(converted[i.Identifier])))
        );
        AllAreGraded(items, i => converted[i.Identifier]);
    }

    /// <summary>The order of attributes and how an empty element is closed say nothing.</summary>
    private static string Shape(XElement element) =>
        $"<{element.Name}{string.Concat(element.Attributes().Where(a => !a.IsNamespaceDeclaration && a.Name.LocalName != "schemaLocation").OrderBy(a => a.Name.LocalName, StringComparer.Ordinal).Select(a => $" {a.Name.LocalName}='{a.Value}'"))}>{string.Concat(element.Nodes().Select(n => n is XElement e ? Shape(e) : ((XText)n).Value))}</>";

    private Dictionary<string, string> Converted(IReadOnlyList<QtiReading> items)
    {
        const string Script = """
            import { convertQti2toQti3 } from "@citolab/qti-convert/qti-convert-node";
            import { readFileSync, writeFileSync } from "node:fs";
            const items = JSON.parse(readFileSync("items.json", "utf8"));
            for (const name of Object.keys(items)) items[name] = await convertQti2toQti3(items[name]);
            writeFileSync("converted.json", JSON.stringify(items));
            """;
        File.WriteAllText(Path.Combine(programs.Folder, "convert.mjs"), Script);
        File.WriteAllText(
            Path.Combine(programs.Folder, "items.json"),
            JsonSerializer.Serialize(
                items.ToDictionary(i => i.Identifier, i => i.Xml.ToString(SaveOptions.DisableFormatting))
            )
        );
        var (status, _, errors) = Child.Run(
            new ProcessStartInfo("node", ["convert.mjs"]) { WorkingDirectory = programs.Folder }
        );
        Assert.True(status == 0, errors);
        return JsonSerializer.Deserialize<Dictionary<string, string>>(
            File.ReadAllText(Path.Combine(programs.Folder, "converted.json"))
        )!;
    }

    /// <summary>
    /// The right answer, typed, scores all; each wrong one that is known scores nothing and shows its own feedback; so does an empty one,
    /// and one that nobody knows.
    /// </summary>
    private void AllAreGraded(IReadOnlyList<QtiReading> items, Func<QtiReading, string> xml)
    {
        var played = Play(items, xml);
        var answers = 0;
        foreach (var item in items)
        {
            var results = played[item.Identifier];
            Assert.Equal(item.Wrong.Count + 3, results.Count);
            Assert.Equal(["right"], results[0].Shown);
            Assert.True(results[0].Score == results[0].Most && results[0].Most > 0, item.Identifier);
            for (var i = 0; i < item.Wrong.Count; i++)
            {
                Assert.Equal((0, $"wrong{i + 1}"), (results[i + 1].Score, Assert.Single(results[i + 1].Shown)));
            }
            Assert.All(results.TakeLast(2), r => Assert.Equal((0, "wrong"), (r.Score, Assert.Single(r.Shown))));
            answers += results.Count;
        }
        Assert.True(answers > 200, $"{answers}");
    }

    private Dictionary<string, List<Played>> Play(IReadOnlyList<QtiReading> items, Func<QtiReading, string> xml)
    {
        var asked = items.Select(i => new
        {
            xml = xml(i),
            typed = i.Right,
            answers = i
                .Wrong.Append(new Dictionary<string, string>())
                .Append(i.Right.ToDictionary(r => r.Key, _ => "no answer")),
        });
        var player = File.ReadAllText(
            Path.Combine(programs.Folder, "node_modules", "@citolab", "qti-components", "cdn", "index.global.js")
        );
        var page = Path.Combine(programs.Folder, "page.html");
        File.WriteAllText(
            page,
            $"<!DOCTYPE html><html><body><script>{Inside(player)}</script><pre id=\"told\"></pre><script>const items = {Inside(JsonSerializer.Serialize(asked))};\n{File.ReadAllText(Beside("quiz-player.js"))}</script></body></html>",
            Encoding.UTF8
        );
        // Time in the page goes on as soon as nothing is to be done, so that the budget is no waiting.
        var shown = Child.Run(
            Chromium.Program,
            [
                .. Chromium.Arguments,
                "--headless",
                "--virtual-time-budget=3000000",
                "--dump-dom",
                new Uri(page).ToString(),
            ]
        );
        var told = Regex.Match(shown.Output, "<pre id=\"told\">(.*?)</pre>", RegexOptions.Singleline).Groups[1].Value;
        var results = JsonNode.Parse(WebUtility.HtmlDecode(told))!.AsArray();
        Assert.All(results, r => Assert.Null((string?)r!["fault"]));
        return results.ToDictionary(
            r => (string)r!["identifier"]!,
            r =>
                r!["results"]!
                    .AsArray()
                    .Select(a => new Played(
                        Number(a!["score"]),
                        Number(a["most"]),
                        [.. a["shown"]!.AsArray().Select(s => (string)s!)]
                    ))
                    .ToList()
        );
    }

    /// <summary>The player gives outcomes as texts or as numbers.</summary>
    private static double Number(JsonNode? node) => double.Parse($"{node}", CultureInfo.InvariantCulture);

    private static string Inside(string script) => script.Replace("</", "<\\/", StringComparison.Ordinal);
}
