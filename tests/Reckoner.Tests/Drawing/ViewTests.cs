using Reckoner.Checking;
using Reckoner.Drawing;
using Reckoner.Questions;
using Reckoner.Words;
using Xunit;

namespace Reckoner.Tests;

public class ViewTests
{
    /// <summary>Asking every operand takes time, so only those are asked for it whose figures change by the answer.</summary>
    [Fact]
    public void Views_that_show_idle_bits_are_those_whose_figures_change_by_them()
    {
        var datapath = Walks.At("divide-shared-register", 4);
        var figure = Figure.Of(Walks.Of(datapath, 13, 3), Vocabulary.English);
        var study = Idle.OverAll(datapath, InterpretedEngine.Widest)!;
        Assert.All(View.All, view => Assert.Equal(view.ShowsIdle, Drawn(view, study) != Drawn(view, null)));

        string Drawn(View view, IdleStudy? idle) =>
            string.Concat(view.Draws(figure with { Idle = idle }).Select(s => SvgWriter.Write(s, Palette.Light)));
    }

    /// <summary>
    /// A machine is executed once for a figure, whether its bits are followed or not: who shows where they come from has them
    /// noted on the way, and nobody else asks.
    /// </summary>
    [Fact]
    public void A_walk_for_a_figure_is_traced_on_the_way_where_the_figure_needs_it()
    {
        var means = new Means(new InterpretedRunner(), () => TimeSpan.Zero);
        foreach (var view in View.All)
        {
            var question = new DrawQuestion([Walks.At("divide-shared-register", 4)], view, Vocabulary.English)
            {
                Operands = [13, 3],
            };
            var drawn = question.Ask(means).Data!;
            Assert.Equal((view.Name, view.ShowsOrigins), (view.Name, drawn.Figure!.Walk.IsTraced));
            Assert.All(drawn.Pages(), Assert.NotEmpty);
            Assert.Equal((view.Name, view.ShowsOrigins), (view.Name, drawn.Figure.Walk.IsTraced));
        }
    }

    [Fact]
    public void A_trapezoid_is_known_where_one_is_drawn()
    {
        Assert.True(BlockShapes.IsTrapezoid(Trace.Around(new(0, 0), new(90, 0), new(70, 40), new(20, 40))));
        Assert.False(BlockShapes.IsTrapezoid(Trace.Around(new(0, 0), new(90, 0), new(110, 40), new(20, 40))));
        Assert.False(BlockShapes.IsTrapezoid(Trace.Around(new(0, 0), new(8, 13), new(16, 0))));
    }
}
