using System.Text.Json.Nodes;
using Reckoner.Catalogue;
using Reckoner.Proving;
using Reckoner.Reporting;
using Xunit;

namespace Reckoner.Cli.Tests;

/// <summary>
/// What is printed as holding in every round holds in every state that the outside twin reaches, and every state in which it holds,
/// reached or not, steps to one in which it does.
/// </summary>
public sealed class OutsideInvariantTests : IDisposable
{
    private readonly string folder = Directory.CreateTempSubdirectory("reckoner-invariants-").FullName;

    public void Dispose() => Directory.Delete(folder, recursive: true);

    [Fact]
    public void It_holds_and_is_kept_outside_too()
    {
        string[] names = ["divide-shared-register", "multiply-shared-register"];
        var answers = Judged(names.Select(n => Task(n, tried: 3, all: [2, 3])));
        Assert.All(answers, a => Assert.Empty(a["wrong"]!.AsArray()));
        Assert.All(answers, a => Assert.True((int)a["reached"]! > 500 && (int)a["taken"]! > 100, $"{a}"));
    }

    /// <summary>Without one of the equations some state steps to one in which another does not hold; and a wrong formula is found.</summary>
    [Fact]
    public void An_equation_that_is_left_out_or_a_wrong_bound_is_missed()
    {
        var right = Task("divide-shared-register", tried: 3, all: [2, 3]);
        var spoilt = new List<JsonObject>();
        foreach (var (formula, f) in Head(right).Select((f, i) => ((string)f!, i)))
        {
            if (formula.Contains(" = ", StringComparison.Ordinal))
            {
                var less = right.DeepClone().AsObject();
                Head(less).RemoveAt(f);
                spoilt.Add(less);
            }
        }
        Assert.Equal(2, spoilt.Count);
        var wrong = right.DeepClone().AsObject();
        Head(wrong)[0] = "R.low <= 2^(i-2)";
        Assert.All(Judged(spoilt.Append(wrong)), a => Assert.NotEmpty(a["wrong"]!.AsArray()));
    }

    public static TheoryData<string> Proved =>
        [
            "divide-moving-divisor",
            "divide-still-divisor",
            "divide-shared-register",
            "divide-adding-back",
            "divide-non-restoring",
            "divide-shift-first",
            "divide-shift-subtract-restore",
            "divide-signed-truncating",
            "multiply-moving-multiplicand",
            "multiply-still-multiplicand",
            "multiply-shared-register",
            "multiply-carry-save",
            "multiply-signed-shift-add",
            "multiply-booth",
            "multiply-in-steps",
            "root-restoring",
            "root-rounded",
        ];

    [Theory]
    [Trait("Length", "long")]
    [MemberData(nameof(Proved))]
    public void So_it_does_for_these(string name)
    {
        var answer = Judged([Task(name, tried: 5, all: [3, 4])])[0];
        Assert.Empty(answer["wrong"]!.AsArray());
        Assert.True((int)answer["reached"]! > 1000, $"{answer}");
        Assert.True((int)answer["taken"]! > 100, $"{answer}");
    }

    private static JsonArray Head(JsonObject task) => task["parts"]![0]!["loops"]![0]!["head"]!.AsArray();

    /// <param name="tried">All operands up to this width are run; and some that are drawn at 64 and 128.</param>
    /// <param name="all">Widths at which every state is taken in which the formulas hold.</param>
    private static JsonObject Task(string name, int tried, int[] all)
    {
        var machine = Binding.Machine.Read(MachineCatalogue.Find(name)!, MachineCatalogue.Find);
        var report = ProofReport.Of(machine, machine.At().Datapath!, () => false);
        var parts = new JsonArray();
        foreach (var section in JsonNode.Parse(ProofJson.Of(report))!["sections"]!.AsArray())
        {
            foreach (var part in section!["parts"]!.AsArray().Where(p => p!["when"]!.AsArray().Count == 0))
            {
                parts.Add(
                    new JsonObject
                    {
                        ["outside"] = (string)section["name"]! == "outside",
                        ["loops"] = part!["loops"]!.DeepClone(),
                    }
                );
            }
        }
        Assert.NotEmpty(parts);
        return new JsonObject
        {
            ["name"] = name,
            ["text"] = machine.Description.Source.Text,
            ["beside"] = new JsonObject(
                MachineCatalogue.Entries.Select(e => KeyValuePair.Create(e.Name, (JsonNode?)e.Source.Text))
            ),
            ["width"] = machine.Widths.First().Name.Text,
            ["parts"] = parts,
            ["widths"] = new JsonArray([.. Enumerable.Range(2, tried - 1).Select(n => (JsonNode?)n)]),
            ["drawn"] = new JsonArray(new JsonArray(64, 20), new JsonArray(128, 10)),
            ["all"] = new JsonArray([.. all.Select(n => (JsonNode?)n)]),
        };
    }

    private List<JsonNode> Judged(IEnumerable<JsonObject> tasks)
    {
        var file = System.IO.Path.Combine(folder, "tasks.json");
        File.WriteAllLines(file, tasks.Select(t => t.ToJsonString()));
        return
        [
            .. OutsideTwinTests
                .Python("invariants.py", file)
                .Split('\n', StringSplitOptions.RemoveEmptyEntries)
                .Select(line => JsonNode.Parse(line)!),
        ];
    }
}
