using System.Text.Json.Nodes;
using Reckoner.Datapaths;
using Reckoner.Numbers;
using Reckoner.Slips;
using Xunit;

namespace Reckoner.Tests.Proving;

/// <summary>
/// Certificates with some numbers, facts, ways and names changed: for the machine itself nothing more is shown than before, and for
/// the same machine with something wrong, nothing that is wrong.
/// </summary>
public class TamperedTests
{
    /// <summary>What they claim is one law, or all of it is broken by the slips that are taken.</summary>
    public static TheoryData<string> Twelve =>
        [
            .. Proofs.Base,
            "divide-adding-back",
            "divide-non-restoring",
            "multiply-carry-save",
            "multiply-signed-shift-add",
            "multiply-booth",
            "root-restoring",
        ];

    public static TheoryData<string> Two => ["divide-still-divisor", "multiply-shared-register"];

    [Theory]
    [MemberData(nameof(Two))]
    public void Some_are_not_accepted(string name) => Tamper(name, 60);

    /// <summary>More than ten thousand in all.</summary>
    [Theory]
    [Trait("Length", "long")]
    [MemberData(nameof(Twelve))]
    public void None_is_accepted(string name) => Tamper(name, 850);

    private static void Tamper(string name, int times)
    {
        var machine = Machines.Named(name);
        var report = Proofs.Of(name);
        var certificate = report.Certificate!;
        var whole = Proofs.Verified(machine, certificate);
        var wrong = Wrong(machine);
        Assert.NotEmpty(wrong);
        var random = new Generator(23);
        var accepted = 0;
        for (var t = 0; t < times; t++)
        {
            var root = JsonNode.Parse(certificate)!;
            for (var changes = 1 + random.Below(2); changes > 0; changes--)
            {
                Change(root, random);
            }
            var text = root.ToJsonString();
            var verdict = Proofs.Verified(machine, text);
            accepted += verdict.IsAccepted ? 1 : 0;
            Assert.Empty(verdict.Laws.Except(whole.Laws).Concat(verdict.Outside.Except(whole.Outside)));
            var other = wrong[random.Below(wrong.Count)];
            text = text.Replace(machine.Hash, other.Hash, StringComparison.Ordinal);
            Assert.True(Proofs.Verified(other, text).Laws.Count < whole.Laws.Count, $"{other.Slip}: {text}");
        }
        // What changes nothing: a factor as "2/2", a fact of a list that no sum has, a name for the bits of a register.
        Assert.True(accepted * 4 < times, $"{accepted} of {times} were accepted");
    }

    /// <summary>The machine with slips that some operands expose at n = 4.</summary>
    private static List<IMachine> Wrong(IMachine machine)
    {
        var study = SlipStudy.Of(
            Machines.Bound(machine, 4),
            Reckoner.Checking.InterpretedEngine.Widest,
            sample: null,
            withConditions: false
        );
        return [.. study.Slips.Where(s => s.Exposed > 0).Select(s => s.Slip.Machine).Take(40)];
    }

    private static void Change(JsonNode root, Generator random)
    {
        var nodes = All(root["sections"]!).ToList();
        var node = nodes[random.Below(nodes.Count)];
        switch (node)
        {
            case JsonArray { Count: > 0 } list:
                var at = random.Below(list.Count);
                switch (random.Below(3))
                {
                    case 0:
                        list.RemoveAt(at);
                        break;
                    case 1:
                        list.Insert(random.Below(list.Count + 1), list[at]?.DeepClone());
                        break;
                    default:
                        list[at] = list[random.Below(list.Count)]?.DeepClone();
                        break;
                }
                break;
            case JsonObject found when found["no"] is not null:
                found.Remove("no");
                found["go"] = nodes.OfType<JsonObject>().First(o => o["end"] is not null).DeepClone();
                break;
            case JsonObject found when found["go"] is not null:
                found.Remove("go");
                found["no"] = Other(nodes, random, o => o["no"])?.DeepClone() ?? new JsonArray();
                break;
            case JsonValue value when value.TryGetValue<int>(out var number):
                value.ReplaceWith(number + (random.Below(2) == 0 ? 1 : -1));
                break;
            case JsonValue value when value.TryGetValue<string>(out var text):
                var texts = nodes.OfType<JsonValue>().Where(v => v.TryGetValue<string>(out _)).ToList();
                value.ReplaceWith(
                    random.Below(2) == 0 && text.Length > 0 && (text[0] == '-' || char.IsDigit(text[0]))
                        ? (text[0] == '-' ? text[1..] : "-" + text)
                        : texts[random.Below(texts.Count)].GetValue<string>()
                );
                break;
        }
    }

    private static JsonNode? Other(List<JsonNode> nodes, Generator random, Func<JsonObject, JsonNode?> of)
    {
        var found = nodes.OfType<JsonObject>().Select(of).OfType<JsonNode>().ToList();
        return found.Count == 0 ? null : found[random.Below(found.Count)];
    }

    private static IEnumerable<JsonNode> All(JsonNode node)
    {
        var inner = node switch
        {
            JsonObject found => found.Select(p => p.Value),
            JsonArray list => list,
            _ => [],
        };
        return inner.OfType<JsonNode>().SelectMany(All).Prepend(node);
    }
}
