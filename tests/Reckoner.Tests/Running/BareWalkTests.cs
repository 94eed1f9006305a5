using Reckoner.Checking;
using Reckoner.Drawing;
using Reckoner.Running;
using Reckoner.Words;
using Xunit;

namespace Reckoner.Tests;

/// <summary>Machines without operands, without registers, and cycles in which nothing happens.</summary>
public class BareWalkTests
{
    [Fact]
    public void Without_operands_there_is_one_case()
    {
        var datapath = Machines.Bound(
            "machine b\nwidth n = 2 in 1..6\nregister R : n loads 1\nstep s\n  R <- R + 1\nresult r = R\nlaw r = 2\n"
        );
        var space = new CaseSpace(datapath.Operands);
        Assert.Equal((1, 1, 1), (space.Steps, space.StepsInARow, space.Lanes));
        var run = new CheckRun(CheckProgram.Of(datapath, null, OracleUse.Written), InterpretedEngine.Widest);
        run.Run(0, space.Steps, TestContext.Current.CancellationToken);
        Assert.Equal((1, 0), ((int)run.Counts[0].Cases, (int)run.Counts[0].Failures));
    }

    [Theory]
    [InlineData("machine b\nwidth n = 2 in 1..6\nstep s\n  if 0b1\n    if 0b1\n      hold\n    end\n  end\n")]
    [InlineData(
        "machine b\nwidth n = 2 in 1..6\noperand a : n\nregister R : n loads a\nstep s\nstep t\n  note \"so\"\nresult r = R\n"
    )]
    public void Every_view_is_drawn_where_hardly_anything_is_there(string text)
    {
        var datapath = Machines.Bound(text);
        var walk = Walk.Of(datapath, [.. datapath.Operands.Select(_ => new System.Numerics.BigInteger(1))]);
        var idle = IdleByStructure.Of(datapath);
        foreach (var view in View.All.Where(v => v.ShowsIdle))
        {
            Assert.NotEmpty(
                view.Draws(Figure.Of(walk, Vocabulary.English) with { Idle = view.ShowsIdle ? idle : null })
            );
        }
        Assert.NotEmpty(DatapathView.Still(datapath, Vocabulary.English));
    }
}
