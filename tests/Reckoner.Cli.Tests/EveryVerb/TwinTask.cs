using System.Text.Json.Nodes;
using Reckoner.Tests;

namespace Reckoner.Cli.Tests;

/// <summary>A drawn machine with what Reckoner says of it, to be judged by the twin.</summary>
internal static class TwinTask
{
    /// <summary>More operands than so many bits hold are too many for the twin to try.</summary>
    private const int MostBits = 8;

    /// <summary>Null for a machine of too many operands.</summary>
    /// <param name="slips">How many of its slips are worked out; with 0 it is not asked for them.</param>
    public static JsonObject? Of(int seed, int slips)
    {
        var drawn = RandomMachine.Of(seed);
        using var files = new DrawnFiles(drawn, seed);
        if (files.OperandBits > MostBits)
        {
            return null;
        }
        var documents = new JsonArray();
        void Add(string kind, string[] words)
        {
            if (Said([kind, files.Machine, .. words]) is { } said)
            {
                documents.Add(new JsonObject { ["kind"] = kind, ["said"] = said });
            }
        }
        Add("walk", [.. files.Operands(), "--anyway"]);
        Add("walk", [.. files.Operands(), "--anyway"]);
        Add("check", []);
        Add("idle", []);
        if (slips > 0 && Said(["slips", files.Machine]) is { } study)
        {
            documents.Add(
                new JsonObject
                {
                    ["kind"] = "slips",
                    ["said"] = study,
                    ["texts"] = Texts(files, study, slips, new Random(seed)),
                }
            );
        }
        return new JsonObject
        {
            ["seed"] = seed,
            ["text"] = drawn.Text,
            ["beside"] = new JsonObject(drawn.Beside.Select(b => KeyValuePair.Create(b.Name, (JsonNode?)b.Text))),
            ["documents"] = documents,
        };
    }

    /// <summary>Some slips as descriptions.</summary>
    private static JsonObject Texts(DrawnFiles files, JsonNode study, int count, Random random)
    {
        var names = study["slips"]!.AsArray().Select(s => (string)s!["name"]!).ToArray();
        random.Shuffle(names);
        var texts = new JsonObject();
        foreach (var name in names.Take(count))
        {
            texts[name] = Command.Run("show", files.Machine, "--slip", name).Output;
        }
        return texts;
    }

    /// <summary>The document, whether what is claimed holds or not; null where the request was refused.</summary>
    private static JsonNode? Said(string[] words)
    {
        var command = Command.Run([.. words, "--format", "json"]);
        return command.Status == Exit.Wrong ? null : JsonNode.Parse(command.Output);
    }

    // ---- the same with one thing said wrongly

    private static readonly (string What, string Kind, Func<JsonNode, JsonNode?> Where, string Field)[] Places =
    [
        ("a register", "walk", d => d["rows"]![1]!["registers"], "same"),
        ("a result", "walk", d => d["results"], "same_result"),
        ("the number of cycles", "walk", d => d, "cycles"),
        ("a count of cases", "check", d => d["sections"]![0], "cases"),
        ("a count of failures", "check", d => d["sections"]![0], "failures"),
        ("the smallest that fails", "check", d => d["sections"]![0]!["smallest"]?["operands"], "o1"),
        ("idle bits", "idle", d => d["rows"]![1]!["registers"], "same"),
        ("operands that reach a cycle", "idle", d => d["rows"]![1], "cases"),
    ];

    /// <summary>How many kinds of things are spoilt where a machine has them all.</summary>
    public static int Kinds => Places.Length + 1;

    public static IEnumerable<(string What, JsonObject Task)> Spoilt(JsonObject task)
    {
        foreach (var (what, kind, where, field) in Places)
        {
            var spoilt = task.DeepClone().AsObject();
            var document = spoilt["documents"]!.AsArray().FirstOrDefault(d => (string)d!["kind"]! == kind);
            if (
                document?["said"] is { } said
                && (kind is "check" || said["rows"]!.AsArray().Count > 1)
                && where(said)?[field] is { } value
            )
            {
                where(said)![field] = Other(value);
                yield return (what, spoilt);
            }
        }
        var slips = task.DeepClone().AsObject();
        if (slips["documents"]!.AsArray().FirstOrDefault(d => (string)d!["kind"]! == "slips") is { } study)
        {
            var texts = study["texts"]!.AsObject();
            foreach (var slip in study["said"]!["slips"]!.AsArray().Where(s => texts.ContainsKey((string)s!["name"]!)))
            {
                slip!["exposed"] = Other(slip["exposed"]!);
                yield return ("slips", slips);
                yield break;
            }
        }
    }

    private static JsonNode Other(JsonNode value) =>
        value.GetValueKind() == System.Text.Json.JsonValueKind.Number ? (int)value + 1
        : (string)value! is var text && text.Length > 0 ? (text[0] == '1' ? "0" : "1") + text[1..]
        : "1";
}
