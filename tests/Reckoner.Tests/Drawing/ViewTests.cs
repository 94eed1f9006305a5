using Reckoner.Checking;
using Reckoner.Drawing;
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
}
