using Reckoner.Reporting;
using Reckoner.Structure;
using Reckoner.Styles;
using Reckoner.Words;
using Xunit;

namespace Reckoner.Tests;

/// <summary>The state table of the control unit.</summary>
public class StatesTests
{
    private static string Pages(int columns) =>
        string.Join(
            '\n',
            new[]
            {
                "divide-still-divisor",
                "divide-adding-back",
                "multiply-booth",
                "divide-early-out",
                "divide-srt-radix-2",
            }.Select(m =>
                DocumentText.Of(
                    StatesDocument.Of(ControlStates.Of(Walks.At(m, 8)), HouseStyle.None, Vocabulary.English),
                    columns
                )
            )
        );

    [Fact]
    public void The_tables_look_like_this() => Snapshot.Match(nameof(The_tables_look_like_this), Pages(80));

    private static List<Transition> Transitions(Datapaths.Datapath datapath) =>
        [.. MachineStructure.Of(datapath).States.SelectMany(s => s.Next)];

    public static TheoryData<string> Catalogue => [.. Machines.Catalogue];

    /// <summary>A walk is the twin: whatever cycle comes after another, the table has a way from the one's state to the other's.</summary>
    [Theory]
    [MemberData(nameof(Catalogue))]
    public void Every_walk_goes_ways_that_the_table_has(string machine)
    {
        foreach (var width in Machines.Widths(Machines.Named(machine), 5))
        {
            var datapath = Walks.At(machine, width);
            var transitions = Transitions(datapath);
            foreach (var operands in SampleOperands.Of(datapath, new Random(1)).Take(20))
            {
                var steps = Running.Walk.Of(datapath, operands).Rows.Select(r => r.Step).Append(null).ToList();
                foreach (var (from, to) in steps.Zip(steps.Skip(1)))
                {
                    Assert.Contains(transitions, t => t.From == from && t.To == to);
                }
            }
            Assert.All(
                datapath.Steps,
                step => Assert.Contains(transitions, t => t.To == step || datapath.MayStopEarly)
            );
        }
    }

    /// <summary>The three steps of the adding-back divider and their order, read from its description.</summary>
    [Fact]
    public void Named_steps_are_states_in_their_order()
    {
        var transitions = Transitions(Walks.At("divide-adding-back", 4));
        Assert.Equal(
            [(null, "shift"), ("shift", "subtract"), ("subtract", "restore"), ("restore", "shift"), ("restore", null)],
            transitions.Select(t => (t.From?.Name, t.To?.Name))
        );
    }
}
