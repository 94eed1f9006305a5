using System.Text.Json.Nodes;
using Reckoner.Numbers;
using Reckoner.Verifier;
using Xunit;

namespace Reckoner.Tests.Proving;

/// <summary>The verifier knows nothing of the prover, and believes no certificate that was tampered with.</summary>
public class CertificateTests
{
    public static TheoryData<string> Base => [.. Proofs.Base];

    [Fact]
    public void The_verifier_refers_to_nothing_of_ours()
    {
        var names = typeof(Verification).Assembly.GetReferencedAssemblies().Select(a => a.Name!);
        Assert.All(names, n => Assert.StartsWith("System", n, StringComparison.Ordinal));
    }

    [Theory]
    [MemberData(nameof(Base))]
    public void A_certificate_is_accepted_for_its_machine_and_no_other(string name)
    {
        var certificate = Proofs.Of(name).Certificate!;
        var verdict = Proofs.Verified(Machines.Named(name), certificate);
        Assert.True(verdict.IsAccepted, $"{verdict.Refusal} {verdict.What}");
        var other = Proofs.Base.First(b => b != name);
        Assert.Equal(Refusal.OtherDescription, Proofs.Verified(Machines.Named(other), certificate).Refusal);
        // With the hash exchanged the cases must be those of the other machine, and are not.
        var moved = certificate.Replace(
            Machines.Named(name).Hash,
            Machines.Named(other).Hash,
            StringComparison.Ordinal
        );
        Assert.False(Proofs.Verified(Machines.Named(other), moved).IsAccepted);
    }

    [Theory]
    [InlineData("", Refusal.Unreadable)]
    [InlineData("certainly", Refusal.Unreadable)]
    [InlineData("{}", Refusal.Unreadable)]
    [InlineData("[1, 2]", Refusal.Unreadable)]
    [InlineData("{\"format\":2}", Refusal.OtherForm)]
    [InlineData("{\"\\ud800\":1}", Refusal.Unreadable)]
    [InlineData("{\"format\":1,\"description\":\"\\ud800\"}", Refusal.Unreadable)]
    [InlineData("\"\ud800\"", Refusal.Unreadable)]
    [InlineData("{\"format\":1,\"description\":\"sha256:0\"}", Refusal.OtherDescription)]
    public void What_is_no_certificate_is_refused(string text, Refusal refusal) =>
        Assert.Equal(refusal, Proofs.Verified(Machines.Named("divide-still-divisor"), text).Refusal);

    [Fact]
    public void Ten_megabytes_of_nonsense_and_numbers_without_end_are_refused()
    {
        var machine = Machines.Named("divide-still-divisor");
        Assert.Equal(Refusal.TooLong, Proofs.Verified(machine, new string('[', 10_000_001)).Refusal);
        Assert.Equal(Refusal.Unreadable, Proofs.Verified(machine, new string('[', 1_000_000)).Refusal);
        var certificate = Proofs.Of("divide-still-divisor").Certificate!;
        const string First = "\"facts\":[[\"=\",[[\"";
        var at = certificate.IndexOf(First, StringComparison.Ordinal) + First.Length;
        var long_ = certificate.Insert(at, new string('9', 1_000_000));
        Assert.Equal(Refusal.Unreadable, Proofs.Verified(machine, long_).Refusal);
        for (var length = 0; length < certificate.Length; length += 97)
        {
            Assert.False(Proofs.Verified(machine, certificate[..length]).IsAccepted);
        }
    }

    /// <summary>
    /// A piece without a name would vanish from products, and one of no width beside a signed one would stand in its register's place.
    /// Both are refused as pieces, before anything is said of them.
    /// </summary>
    [Fact]
    public void Pieces_are_named_and_a_signed_one_stands_alone()
    {
        const string Machine = "divide-non-restoring";
        Assert.Equal(Refusal.WrongPieces, Changed(list => list[^1]!.AsArray()[0] = "").Refusal);
        Assert.Equal("", Changed(list => list[^1]!.AsArray()[0] = "").What);
        Assert.Equal(Refusal.WrongPieces, Changed(Beside).Refusal);
        Assert.Equal("", Changed(Beside).What);

        static void Beside(JsonArray list)
        {
            var signed = list.Single(p => p!.AsArray()[4]!.GetValue<int>() == 1)!.AsArray();
            list.Insert(list.IndexOf(signed) + 1, JsonNode.Parse($"[\"z\",\"{signed[1]}\",[0,0,-1],[0,0,0],0]"));
        }

        static Verdict Changed(Action<JsonArray> change)
        {
            var root = JsonNode.Parse(Proofs.Of(Machine).Certificate!)!;
            change(Pieces(root).First());
            return Proofs.Verified(Machines.Named(Machine), root.ToJsonString());
        }
    }

    private static IEnumerable<JsonArray> Pieces(JsonNode? node) =>
        node switch
        {
            JsonObject o => o.SelectMany(p => p.Key == "pieces" ? [p.Value!.AsArray()] : Pieces(p.Value)),
            JsonArray a => a.SelectMany(Pieces),
            _ => [],
        };

    /// <summary>What would take for ever is refused for its size.</summary>
    [Fact]
    public void Lists_and_powers_without_end_are_refused()
    {
        var machine = Machines.Named("divide-still-divisor");
        var certificate = Proofs.Of("divide-still-divisor").Certificate!;
        const string First = "\"facts\":[[\"=\",[";
        var at = certificate.IndexOf(First, StringComparison.Ordinal) + First.Length;
        var many = string.Concat(Enumerable.Range(0, 5000).Select(i => $"[\"1\",{i},0],"));
        Assert.Equal(Refusal.TooLong, Proofs.Verified(machine, certificate.Insert(at, many)).Refusal);
        var names = string.Concat(Enumerable.Repeat(",\"R\"", 1000));
        Assert.Equal(Refusal.TooLong, Proofs.Verified(machine, certificate.Insert(at, $"[\"1\",0,0{names}],")).Refusal);
    }

    /// <summary>
    /// Every number of every sum, every fact and every piece may be changed; a change is let through only where what it changed is
    /// not used, and then what is shown is the same.
    /// </summary>
    [Theory]
    [MemberData(nameof(Base))]
    public void A_changed_sum_is_refused(string name)
    {
        var machine = Machines.Named(name);
        var certificate = Proofs.Of(name).Certificate!;
        var random = new Generator(11);
        var changed = 0;
        for (var t = 0; t < 60; t++)
        {
            var root = JsonNode.Parse(certificate)!;
            var sums = Sums(root).ToList();
            var sum = sums[random.Below(sums.Count)];
            var addend = sum[random.Below(sum.Count)]!.AsArray();
            switch (random.Below(3))
            {
                case 0:
                    sum.Remove(addend);
                    break;
                case 1:
                    var factor = addend[0]!.AsArray()[0]!.AsArray();
                    factor[1] = factor[1]!.GetValue<int>() + 1;
                    break;
                default:
                    addend[1] = addend[1]!.GetValue<int>() + 1;
                    break;
            }
            changed++;
            Assert.False(Proofs.Verified(machine, root.ToJsonString()).IsAccepted, root.ToJsonString());
        }
        Assert.Equal(60, changed);
    }

    /// <summary>Sums stand behind "no", and behind a scale where something is shown.</summary>
    private static IEnumerable<JsonArray> Sums(JsonNode? node)
    {
        if (node is JsonObject found)
        {
            foreach (var (key, inner) in found)
            {
                if (key == "no")
                {
                    yield return inner!.AsArray();
                }
                else if (key == "end")
                {
                    foreach (var part in inner!.AsArray().SelectMany(goal => goal!.AsArray()))
                    {
                        yield return part!.AsArray()[1]!.AsArray();
                    }
                }
                else
                {
                    foreach (var sum in Sums(inner))
                    {
                        yield return sum;
                    }
                }
            }
        }
        else if (node is JsonArray list)
        {
            foreach (var sum in list.SelectMany(Sums))
            {
                yield return sum;
            }
        }
    }

    /// <summary>A way that goes on, said to be impossible; and what holds in every round without one of its facts.</summary>
    [Theory]
    [MemberData(nameof(Base))]
    public void A_case_or_a_fact_that_is_left_out_is_missed(string name)
    {
        var machine = Machines.Named(name);
        var certificate = Proofs.Of(name).Certificate!;
        var ways = JsonNode.Parse(certificate)!;
        var all = Choices(ways).ToList();
        Assert.NotEmpty(all);
        for (var c = 0; c < all.Count; c++)
        {
            var root = JsonNode.Parse(certificate)!;
            var choice = Choices(root).ElementAt(c);
            for (var way = 0; way < choice.Count; way++)
            {
                if (choice[way]!["go"] is not null)
                {
                    choice[way] = new JsonObject { ["no"] = new JsonArray() };
                    Assert.False(Proofs.Verified(machine, root.ToJsonString()).IsAccepted);
                    break;
                }
            }
        }
        var facts = JsonNode.Parse(certificate)!["sections"]![0]!["loops"]![0]!["head"]!["facts"]!.AsArray();
        for (var f = 0; f < facts.Count; f++)
        {
            var root = JsonNode.Parse(certificate)!;
            root["sections"]![0]!["loops"]![0]!["head"]!["facts"]!.AsArray().RemoveAt(f);
            Assert.False(Proofs.Verified(machine, root.ToJsonString()).IsAccepted);
        }
    }

    /// <summary>A way taken out, the others counted anew; and a whole question left out, as if its last way were the only one.</summary>
    [Theory]
    [MemberData(nameof(Base))]
    public void A_case_that_is_taken_out_altogether_is_missed(string name)
    {
        var machine = Machines.Named(name);
        var certificate = Proofs.Of(name).Certificate!;
        var count = Choices(JsonNode.Parse(certificate)!).Count();
        for (var c = 0; c < count; c++)
        {
            var ways = Choices(JsonNode.Parse(certificate)!).ElementAt(c).Count;
            for (var way = 0; way < ways; way++)
            {
                var root = JsonNode.Parse(certificate)!;
                Choices(root).ElementAt(c).RemoveAt(way);
                Assert.False(Proofs.Verified(machine, root.ToJsonString()).IsAccepted, $"question {c}, way {way}");
            }
            var other = JsonNode.Parse(certificate)!;
            var choice = Choices(other).ElementAt(c);
            if (choice.Select(w => w!["go"]).LastOrDefault(w => w is not null) is { } only)
            {
                choice.Parent!.ReplaceWith(only.DeepClone());
                Assert.False(Proofs.Verified(machine, other.ToJsonString()).IsAccepted, $"question {c}");
            }
        }
    }

    private static IEnumerable<JsonArray> Choices(JsonNode? node) =>
        node switch
        {
            JsonObject found => found.SelectMany(p =>
                p.Key == "ways" ? Choices(p.Value).Prepend(p.Value!.AsArray()) : Choices(p.Value)
            ),
            JsonArray list => list.SelectMany(Choices),
            _ => [],
        };
}
