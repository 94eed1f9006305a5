using System.Text.Json;
using System.Text.Json.Nodes;
using Json.Schema;
using Reckoner.Tests;
using Xunit;

namespace Reckoner.Cli.Tests;

/// <summary>The schemas under docs/schemas, held against the handbook's tables and, by a validator from outside, against documents.</summary>
internal static class Schemas
{
    /// <summary>Of so many documents as the validator reads in a second.</summary>
    private const int MostValidated = 12;

    private static readonly EvaluationOptions Strict = new() { OutputFormat = OutputFormat.List };

    /// <param name="seen">Documents, and what stands in some of them for each width, which is no document alone.</param>
    public static void Check(MarkdownPage page, string verb, IReadOnlyList<JsonElement> seen)
    {
        var documents = seen.Where(d => d.TryGetProperty("format", out _)).ToList();
        Assert.NotEmpty(documents);
        var made = FieldSchema.Of(page, verb);
        foreach (var document in documents)
        {
            made.See(document);
        }
        var file = FileOf(verb);
        var text = made.Text(verb);
        if (Environment.GetEnvironmentVariable("RECKONER_RENEW") is { Length: > 0 })
        {
            File.WriteAllText(file, text);
        }
        Assert.Equal(text, File.ReadAllText(file));

        Validate(verb, documents);
    }

    /// <summary>Documents against the schema that stands in its file.</summary>
    public static void Validate(string verb, IReadOnlyList<JsonElement> documents)
    {
        var schema = JsonSchema.FromText(File.ReadAllText(FileOf(verb)));
        var step = Math.Max(1, documents.Count / MostValidated);
        foreach (var document in documents.Where((_, i) => i % step == 0))
        {
            var result = schema.Evaluate(document, Strict);
            Assert.True(result.IsValid, Said(result));
            AssertRefuses(schema, document);
        }
    }

    private static string FileOf(string verb) =>
        Path.Combine(WorkFolder.Repository, "docs/schemas", $"{verb}.schema.json");

    private static string Said(EvaluationResults results) =>
        string.Join(
            "\n",
            results
                .Details?.Where(d => d.Errors is not null)
                .Select(d => $"{d.InstanceLocation}: {string.Join("; ", d.Errors!.Values)}")
                ?? []
        );

    /// <summary>
    /// A document of another format, without its format, with a list where a text belongs, or with a field that there is not, in it or
    /// in what stands in one of its lists, is none.
    /// </summary>
    private static void AssertRefuses(JsonSchema schema, JsonElement document)
    {
        Action<JsonObject>[] wrongs =
        [
            o => o["format"] = 2,
            o => o.Remove("format"),
            o => o[o.Select(f => f.Key).First(k => k != "format")] = new JsonArray(new JsonArray()),
            o => o["no_such_field"] = 1,
            .. JsonObject
                .Create(document)!
                .Where(f => f.Value is JsonArray { Count: > 0 } list && list[0] is JsonObject)
                .Select(f => (Action<JsonObject>)(o => o[f.Key]![0]!["no_such_field"] = 1)),
        ];
        foreach (var wrong in wrongs)
        {
            var changed = JsonObject.Create(document)!.DeepClone().AsObject();
            wrong(changed);
            var read = JsonDocument.Parse(changed.ToJsonString());
            Assert.False(schema.Evaluate(read.RootElement).IsValid);
        }
    }
}
