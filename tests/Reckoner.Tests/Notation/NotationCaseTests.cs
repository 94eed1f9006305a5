using System.Numerics;
using Reckoner.Diagnostics;
using Reckoner.Notation;
using Reckoner.Running;
using Reckoner.Timelines;
using Xunit;

namespace Reckoner.Tests;

/// <summary>One description per construct of the language, with what it means worked out beside it.</summary>
public class NotationCaseTests
{
    private const int MostOperandBits = 12;

    public static TheoryData<string> Cases => [.. NotationCases.Names];

    [Theory]
    [MemberData(nameof(Cases))]
    public void It_says_what_it_is_about_and_bears_the_name_of_its_file(string name)
    {
        var (description, found) = Parser.Read(NotationCases.Source(name));
        Assert.Empty(found);
        Assert.Equal(name, description.Name);
        Assert.StartsWith("-- ", description.Source.Text.TrimStart());
    }

    [Theory]
    [MemberData(nameof(Cases))]
    public void It_prints_as_expected(string name)
    {
        var source = NotationCases.Source(name);
        Assert.Equal(
            NotationCases.Expected(name).Printed ?? source.Text,
            Printer.Text(Parser.Read(source).Description)
        );
    }

    [Theory]
    [MemberData(nameof(Cases))]
    public void It_walks_as_expected(string name)
    {
        var machine = NotationCases.Machine(name);
        var walks = NotationCases.Expected(name).Walks;
        Assert.NotEmpty(walks);
        foreach (var expected in walks)
        {
            var numbers = WalkBlock.Numbers(expected[..expected.IndexOf('\n')]);
            var widths = machine.Widths.Select(w => (w.Name.Text, numbers[w.Name.Text])).ToArray();
            var datapath = Machines.Bound(machine, widths);
            var walk = Walk.Of(datapath, WalkBlock.Operands(datapath, numbers));
            Assert.Equal(expected, WalkBlock.Of(walk));
            Agreement.Check(Timeline.Of(datapath), walk);
        }
    }

    /// <summary>The laws say a second time, as arithmetic, what the walks show on examples.</summary>
    [Theory]
    [MemberData(nameof(Cases))]
    public void Its_laws_hold_for_all_operands(string name)
    {
        var machine = NotationCases.Machine(name);
        foreach (var width in Machines.Widths(machine, upTo: 6))
        {
            var (datapath, _) = machine.At(width);
            if (datapath is null || datapath.Operands.Sum(o => o.Width) > MostOperandBits)
            {
                continue;
            }
            Assert.NotEmpty(datapath.Laws);
            var timeline = Timeline.Of(datapath);
            foreach (var operands in TwinFiles.AllOperands(datapath))
            {
                var walk = Walk.Of(datapath, operands);
                var broken = walk.Claims.Where(c => !c.Holds).Select(c => c.Claim.Text);
                Assert.True(walk.Holds, $"{string.Join("; ", broken)} at {width} bits:\n{WalkBlock.Of(walk)}");
                Agreement.Check(timeline, walk);
            }
        }
    }

    [Theory]
    [MemberData(nameof(Cases))]
    public void It_is_taken_at_every_width_and_refused_as_expected(string name)
    {
        var machine = NotationCases.Machine(name);
        foreach (var width in Machines.Widths(machine, upTo: 16))
        {
            Machines.Bound(machine, width);
        }
        foreach (var (widths, ids) in NotationCases.Expected(name).Refused)
        {
            Dictionary<string, BigInteger> chosen = WalkBlock.Numbers(widths);
            var said = machine.At(chosen).Diagnostics.Where(d => d.Severity == Severity.Error).Select(d => d.Id.Name);
            Assert.Equal(ids, string.Join(' ', said));
        }
    }
}
