using Reckoner.Checking;
using Reckoner.Diagnostics;
using Reckoner.Drawing;
using Reckoner.Page.State;
using Reckoner.Questions;
using Reckoner.Styles;
using Xunit;

namespace Reckoner.Page.Tests.State;

public sealed class PageModelTests
{
    /// <summary>Keeps the last of everything, and never answers a check.</summary>
    private sealed class Memory : IKeeper, ICheckRunner
    {
        public string Fragment { get; private set; } = "";
        public string Looks { get; private set; } = "";

        public void Keep(string fragment) => Fragment = fragment;

        public void KeepLooks(string looks) => Looks = looks;

        public int Threads => 1;

        public Diagnostic? Refusal => null;

        public IPlaneEngine Engine(PlaneProgram program, long steps) => InterpretedEngine.Widest;

        public Task<CoveredSteps> Run(
            CheckProgram program,
            long from,
            long to,
            Action<long>? covered,
            CancellationToken stop
        ) => Task.FromResult(new CoveredSteps(from, new WordCheck(program.Datapath, null).Nothing, "never"));
    }

    private static (PageModel Model, Memory Memory) Opened(string looks = "")
    {
        var memory = new Memory();
        var start = Fragment.Read("machine=divide-still-divisor&width.n=5&operands=29,6&at=1")!;
        return (new PageModel(memory, memory, () => TimeSpan.FromHours(1), start, Looks.Read(looks)), memory);
    }

    [Fact]
    public void Every_change_is_kept_at_once()
    {
        var (model, memory) = Opened();
        using (model)
        {
            model.SetOperand(0, "30");
            Assert.Equal("machine=divide-still-divisor&width.n=5&operands=30,6&at=1", memory.Fragment);
            model.Step(2);
            Assert.Equal("machine=divide-still-divisor&width.n=5&operands=30,6&at=3", memory.Fragment);
            model.Undo();
            Assert.Equal("machine=divide-still-divisor&width.n=5&operands=29,6&at=1", memory.Fragment);
        }
    }

    [Fact]
    public void Who_predicts_first_sees_values_only_when_they_are_asked_for()
    {
        var (model, _) = Opened("predict");
        using (model)
        {
            model.LookAt(0);
            model.Step(1);
            Assert.False(model.Shown < 1 && !model.IsCovered);
            model.SetOperand(0, "30");
            Assert.Equal((0, true), (model.Shown, model.IsCovered));
            model.Reveal();
            Assert.Equal((1, false), (model.Shown, model.IsCovered));
            model.Reveal();
            Assert.Equal((2, 1, true), (model.Desk.Moment, model.Shown, model.IsCovered));
            model.Step(-1);
            Assert.False(model.IsCovered);
        }
    }

    [Fact]
    public void Looks_come_back_and_words_that_mean_nothing_are_passed_over()
    {
        var (model, memory) = Opened();
        using (model)
        {
            model.Look(new Looks("dark", IsLarge: true, Predicts: true, "en"));
            Assert.Equal("dark large predict en", memory.Looks);
            Assert.Equal(model.Looks, Looks.Read(memory.Looks));
            Assert.Equal(Looks.Usual, Looks.Read("<script> purple xx"));
        }
    }

    [Fact]
    public void A_base_and_a_house_style_are_kept_and_shape_the_table()
    {
        const string Sheet = "style \"Ours\"\nlanguage de\ncolumn label\ncolumn R \"Rest\"\n";
        var (model, memory) = Opened();
        using (model)
        {
            model.UseStyle("ours.style", Sheet);
            model.Look(model.Looks with { Base = 16 });
            Assert.Equal(("Ours", "de", null), (model.Style.Title, model.Looks.Language, model.Desk.Refused));
            Assert.Equal(model.Looks, Looks.Read(memory.Looks));
            var walk = model.Desk.Walk!;
            var table = View.All.Single(v => v.Name == "table");
            var figure = Views.Figure(table, walk, 1, model.Looks, model.Style, model.Shown);
            Assert.Empty(table.Lacks(figure));
            var texts = table.Draws(figure).SelectMany(s => s.Leaves).OfType<Text>().Select(t => t.Words).ToList();
            Assert.Contains("Rest", texts);
            Assert.DoesNotContain("Q", texts);
            Assert.Contains("in Basis 16", string.Join(' ', texts), StringComparison.Ordinal);
        }
    }

    [Fact]
    public void A_wrong_house_style_is_refused_in_a_sentence_and_nothing_changes()
    {
        var (model, memory) = Opened();
        using (model)
        {
            var kept = memory.Looks;
            model.UseStyle("ours.style", "column label\ncolour red\n");
            Assert.Equal("page.style-wrong", model.Desk.Refused!.Key);
            Assert.Contains("line 2", model.Words.Text(model.Desk.Refused), StringComparison.Ordinal);
            Assert.Equal((HouseStyle.None, kept), (model.Style, memory.Looks));
            model.UseStyle("ours.style", new string(' ', Looks.LongestStyle + 1));
            Assert.Equal("page.style-too-long", model.Desk.Refused!.Key);
        }
    }

    [Fact]
    public void Drawn_operands_are_those_that_the_machine_is_for()
    {
        var (model, _) = Opened();
        using (model)
        {
            var datapath = model.Desk.Reading.Datapath!;
            for (var seed = 0; seed < 40; seed++)
            {
                model.SetOperands(DrawnOperands.Of(datapath, seed)!);
                Assert.True(model.Desk.Walk!.IsGiven);
            }
        }
    }

    /// <summary>In order, and passing over what there is not of a walk: nothing was saved where nothing is followed.</summary>
    [Fact]
    public void A_walk_can_be_read_in_every_way_there_is_of_it()
    {
        var (model, memory) = Opened();
        using (model)
        {
            var read = new List<string>();
            for (var i = 0; i < 6; i++)
            {
                model.LookOn();
                read.Add(model.Desk.Sheet.View);
            }
            Assert.Equal(["datapath", "paper", "table", "comparison", "trade", "weave"], read);
            model.Begin(Sheet.Of("divide-moving-divisor")!);
            model.Look(View.All.Single(v => v.Name == "comparison"));
            Assert.Equal(("page.read-not", "weave"), (model.Desk.Refused!.Key, model.Desk.Sheet.View));
            model.Look(View.All.Single(v => v.Name == "table"));
            Assert.Equal((null, "table"), (model.Desk.Refused, model.Desk.Sheet.View));
            model.LookOn();
            Assert.Equal("trade", model.Desk.Sheet.View);
            model.LookOn();
            Assert.Equal("weave", model.Desk.Sheet.View);
            Assert.EndsWith("machine=divide-moving-divisor", memory.Fragment, StringComparison.Ordinal);
        }
    }

    [Fact]
    public void Every_way_to_read_a_walk_has_a_name_in_every_language() =>
        Assert.All(
            Words.Vocabulary.Languages.Select(l => Words.Vocabulary.Of(l)!),
            words => Assert.All(Views.All, v => Assert.True(words.Knows($"page.read-{v.Name}"), v.Name))
        );

    [Fact]
    public void Who_predicts_first_finds_nothing_uncovered_after_a_reload()
    {
        var (model, _) = Opened("predict");
        using (model)
        {
            Assert.Equal((1, true), (model.Desk.Moment, model.IsCovered));
        }
    }

    /// <summary>29 by 6 is 4: the third digit of five comes in cycle 4, and before it is asked for nothing tells it.</summary>
    [Theory]
    [InlineData(3, "00")]
    [InlineData(4, "001")]
    [InlineData(6, "00100")]
    public void A_sum_by_hand_grows_with_what_was_asked_for(int shown, string quotient)
    {
        var (model, _) = Opened("predict");
        using (model)
        {
            model.Look(View.All.Single(v => v.Name == "paper"));
            model.LookAt(shown);
            model.Reveal();
            model.Step(1);
            var (view, figure, _) = model.Drawn(model.Desk.Walk!);
            var texts = view.Draws(figure)[0].Leaves.OfType<Text>().ToList();
            var top = texts.Where(t => t.Words is "0" or "1").GroupBy(t => t.At.Y).MinBy(line => line.Key)!;
            Assert.Equal(quotient, string.Concat(top.OrderBy(t => t.At.X).Select(t => t.Words)));
        }
    }

    [Fact]
    public void Paper_is_light_whatever_the_screen_is()
    {
        var (model, memory) = Opened("dark");
        using (model)
        {
            model.IsOnPaper = true;
            Assert.Equal(Palette.Light, model.Palette);
            model.Look(model.Looks with { Ground = "grey" });
            Assert.Equal(("grey", "grey en"), (model.Palette.Name, memory.Looks));
        }
    }

    [Fact]
    public void A_book_pasted_into_a_field_is_refused_and_what_is_kept_can_be_read_again()
    {
        var (model, memory) = Opened();
        using (model)
        {
            model.SetOperand(0, "30");
            var kept = memory.Fragment;
            model.SetOperand(0, new string('7', Fragment.LongestValue + 1));
            Assert.Equal(("page.field-too-long", "30"), (model.Desk.Refused!.Key, model.Desk.Sheet.Operand(0)));
            model.SetWidth("n", new string('7', Fragment.LongestValue + 1));
            Assert.Equal(("page.field-too-long", kept), (model.Desk.Refused!.Key, memory.Fragment));
            model.SetOperand(0, new string('7', Fragment.LongestValue - 2));
            Assert.Null(model.Desk.Refused);
            Assert.Equal(model.Desk.Sheet, Fragment.Read(memory.Fragment));
        }
    }

    [Fact]
    public void A_press_on_a_bit_marks_it_and_a_second_takes_the_mark_away()
    {
        var (model, _) = Opened();
        using (model)
        {
            model.Pick("R", 3);
            Assert.Equal(("R", 3), model.Bit);
            model.Pick("R", 3);
            Assert.Null(model.Bit);
        }
    }
}
