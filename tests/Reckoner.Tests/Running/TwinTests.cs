using System.Security.Cryptography;
using System.Text;
using Reckoner.Binding;
using Reckoner.Running;
using Reckoner.Timelines;
using Xunit;

namespace Reckoner.Tests;

/// <summary>
/// The walks recorded from an interpreter that shares no code with this one, against the walk and the timeline. The descriptions it
/// was given are run, and those of the catalogue that have grown from them.
/// </summary>
public class TwinTests
{
    public static TheoryData<string> Recorded => [.. TwinFiles.Machines];

    [Fact]
    public void Every_machine_of_the_catalogue_was_recorded() =>
        Assert.Empty(Machines.Catalogue.Except(TwinFiles.Machines));

    [Theory]
    [MemberData(nameof(Recorded))]
    public void Recorded_walks_are_walked_again(string machine) => Check(machine, TwinFiles.Given(machine), b => b);

    /// <summary>How it cuts a cycle into moments is a description's own affair; what the clock edges store is not.</summary>
    [Theory]
    [MemberData(nameof(Recorded))]
    public void The_catalogue_stores_what_was_recorded(string machine) =>
        Check(machine, TwinFiles.Present(machine), EdgesOnly);

    private static string EdgesOnly(string block) =>
        string.Join('\n', block.Split('\n').Where(line => !line.Split(' ')[0].Contains('.')));

    private static void Check(string name, Machine machine, Func<string, string> compared)
    {
        var timelines = new Dictionary<string, Timeline>();
        foreach (var block in TwinFiles.Blocks(name))
        {
            var numbers = WalkBlock.Numbers(block[..block.IndexOf('\n')]);
            var widths = machine.Widths.Select(w => (w.Name.Text, numbers[w.Name.Text])).ToArray();
            var key = string.Join(' ', widths);
            if (!timelines.TryGetValue(key, out var timeline))
            {
                timelines[key] = timeline = Timeline.Of(Machines.Bound(machine, widths));
            }
            var walk = Walk.Of(timeline.Datapath, WalkBlock.Operands(timeline.Datapath, numbers));
            Assert.Equal(compared(block), compared(WalkBlock.Of(walk)));
            Agreement.Check(timeline, walk);
        }
    }

    /// <summary>So many walks of a width are walked again in the quick run.</summary>
    private const int QuickWalks = 300;

    [Theory]
    [MemberData(nameof(RecordedSmall))]
    public void All_operands_of_small_widths_give_the_recorded_digest(string name) =>
        Digested(name, w => w <= QuickWalks);

    public static TheoryData<string> RecordedSmall =>
        [.. TwinFiles.Machines.Where(m => TwinFiles.Digests(m).Any(d => d.Walks <= QuickWalks))];

    /// <summary>As the head of the digests says.</summary>
    [Fact]
    public void Only_machines_of_too_many_operands_have_no_digest() =>
        Assert.All(
            TwinFiles.Machines.Where(m => !TwinFiles.Digests(m).Any()),
            name =>
            {
                var machine = TwinFiles.Given(name);
                var operands = Machines.Bound(machine, Machines.Range(machine).Low).Operands;
                Assert.True(operands.Sum(o => o.Width) > 12, name);
            }
        );

    [Theory]
    [Trait("Length", "long")]
    [MemberData(nameof(RecordedLarger))]
    public void All_operands_of_widths_that_take_longer_give_the_recorded_digest(string name) =>
        Digested(name, w => w > QuickWalks);

    public static TheoryData<string> RecordedLarger =>
        [.. TwinFiles.Machines.Where(m => TwinFiles.Digests(m).Any(d => d.Walks > QuickWalks))];

    private static void Digested(string name, Predicate<int> isDone)
    {
        var machine = TwinFiles.Given(name);
        var digests = TwinFiles.Digests(name).Where(d => isDone(d.Walks)).ToList();
        Assert.NotEmpty(digests);
        foreach (var (width, walks, digest) in digests)
        {
            Assert.Equal((width, walks, digest), (width, Count(machine, width, out var found), found));
        }
    }

    /// <summary>Walks all operands inside "given", each compared with the timeline on the way; the digest of their texts.</summary>
    private static int Count(Machine machine, int width, out string digest)
    {
        var timeline = Timeline.Of(Machines.Bound(machine, width));
        using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        var count = 0;
        foreach (var operands in TwinFiles.AllOperands(timeline.Datapath).Where(o => timeline.Datapath.IsGiven(o)))
        {
            var walk = Walk.Of(timeline.Datapath, operands);
            hash.AppendData(Encoding.UTF8.GetBytes(WalkBlock.Of(walk)));
            Agreement.Check(timeline, walk);
            count++;
        }
        digest = Convert.ToHexStringLower(hash.GetHashAndReset());
        return count;
    }
}
