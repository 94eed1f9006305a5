using Reckoner.Catalogue;
using Reckoner.Checking;
using Reckoner.Cli;
using Reckoner.Documents.Lessons;
using Reckoner.Page.State;
using Reckoner.Questions;
using Reckoner.Reporting;
using Reckoner.Running;
using Reckoner.Styles;
using Xunit;

namespace Reckoner.Page.Tests;

/// <summary>The same question, put in the words of the command, of a lesson and of the page, gets the same data.</summary>
public sealed class FrontsTests
{
    private static readonly Means Means = new(new InterpretedRunner(), () => TimeSpan.Zero);

    private static Request Command(string line) => Request.Read(line.Split(' '));

    /// <summary>The answer to the only request of a lesson.</summary>
    private static TAnswer Lesson<TAnswer>(string line)
        where TAnswer : RequestAnswer
    {
        var text = $"---\ntitle: t\n---\n\n```reckoner\n{line}\n```\n";
        var (lesson, found) = LessonReader.Read(new Source("t.md", text));
        Assert.Empty(found);
        using var errors = new StringWriter();
        using var session = new Session(TextWriter.Null, errors);
        var answers = new LessonRequests(session, lesson!, ".", HouseStyle.None).Answers();
        Assert.Equal("", $"{errors}");
        return Assert.IsType<TAnswer>(Assert.Single(Assert.Single(answers!).Answers));
    }

    private static Reading Page(string machine, string width, string operands) =>
        Reading.Of(
            Sheet.Of(machine)! with
            {
                Widths = Sheet.Empty.Widths.Add(
                    MachineCatalogue.Find(machine) is { } source
                        ? Binding.Machine.Read(source, MachineCatalogue.Find).Widths.First().Name.Text
                        : "",
                    width
                ),
                Operands = [.. operands.Split(' ')],
            }
        );

    private static string[] Told(Walk walk) =>
        [
            string.Join(' ', walk.Operands),
            string.Join(' ', walk.Results),
            $"{walk.Holds} {walk.IsGiven} {walk.Cycles}",
            .. walk.Rows.Select(r => string.Join(' ', r.Registers)),
        ];

    [Theory]
    [InlineData("divide-still-divisor", "5", "29 6")]
    [InlineData("divide-still-divisor", "8", "0xff 0b11")]
    [InlineData("divide-moving-divisor", "4", "15 1")]
    [InlineData("multiply-booth", "6", "-7 5")]
    [InlineData("multiply-shared-register", "1_0", "1_000 999")]
    public void A_walk_is_the_same(string machine, string width, string operands)
    {
        var line = $"walk {machine} {operands} --width {width}";
        var asked = Asking.Walk(Command(line))!.Ask();
        Assert.True(asked.IsGiven);
        Assert.Equal(Told(asked.Data), Told(Lesson<WalkAnswer>(line).Walk));
        Assert.Equal(Told(asked.Data), Told(Page(machine, width, operands).Walk!));
        var numbers = asked.Data.Datapath.Operands.Zip(asked.Data.Operands, (o, bits) => o.Number(bits));
        var given = new WalkQuestion(asked.Data.Datapath) { Operands = [.. numbers] }.Ask();
        Assert.Equal(Told(asked.Data), Told(given.Data!));
    }

    private static string[] Counts(IEnumerable<SectionCount> sections) =>
        [
            .. sections.Select(s =>
                $"{s.Name}: {s.Failures} of {s.Cases}, {string.Join(' ', s.Smallest?.Operands ?? [])}"
            ),
        ];

    private static string[] Counts(CheckReport report) => Counts(report.Result.Sections.Select(s => s.Count));

    [Theory]
    [InlineData("divide-still-divisor", "4", "")]
    [InlineData("multiply-booth", "4", "")]
    [InlineData("divide-still-divisor", "3", "operands-exchanged-dividend-divisor")]
    public async Task A_check_is_the_same(string machine, string width, string slip)
    {
        var known = Slips.Slip.Of(Binding.Machine.Read(MachineCatalogue.Find(machine)!, MachineCatalogue.Find));
        var made = slip.Length == 0 ? null : known.First(s => s.Name == slip);
        var line = $"check {machine} --width {width}{(made is null ? "" : $" --slip {made.Name}")}";
        var asked = (await Asking.Check(Command(line))!.Ask(Means)).Data!;
        var report = Assert.Single(asked.Checks);
        Assert.True(report.Result.IsExhaustive);
        Assert.Equal(made is null, asked.Holds);
        // A lesson tells no averages where nobody asks for them.
        var plain = Asking.Check(Command(line))! with
        {
            Averages = AveragesWish.Never,
        };
        var told = CheckDocument.Of((await plain.Ask(Means)).Data!.Checks, [], Words.Vocabulary.English);
        Assert.Equal(Said(told), Said(Lesson<ReportAnswer>(line).Documents));

        var reading = Page(machine, width, "");
        reading = made is null ? reading : Reading.Of(reading.Sheet, made.Machine);
        var judgement = new Judgement(new InterpretedRunner(), () => TimeSpan.Zero);
        await judgement.RunAll(reading.Datapath!, null, () => { }, CancellationToken.None);
        Assert.Equal(Counts(report), Counts(judgement.Verdict!.Sections));
    }

    [Theory]
    [InlineData("divide-still-divisor", 3)]
    [InlineData("multiply-booth", 3)]
    public void Slips_and_idle_bits_are_the_same(string machine, int width)
    {
        var slips = Asking.Slips(Command($"slips {machine} --width {width}"))!.Ask(Means).Data!;
        Assert.Equal(
            Said([SlipsDocument.Of(slips, Words.Vocabulary.English)]),
            Said(Lesson<ReportAnswer>($"slips {machine} --width {width}").Documents)
        );
        Assert.Equal(Told(slips), Told(new SlipsQuestion(Read(machine, width)).Ask(Means).Data!));

        var idle = Asking.Idle(Command($"idle {machine} --width {width}"))!.Ask(Means).Data!;
        Assert.Equal(
            Said([IdleDocument.Of(idle, Words.Vocabulary.English)]),
            Said(Lesson<ReportAnswer>($"idle {machine} --width {width}").Documents)
        );
        Assert.Equal(Told(idle), Told(new IdleQuestion(Read(machine, width)).Ask(Means).Data!));
    }

    private static string Said(IReadOnlyList<Tables.Document> documents) => DocumentText.Of(documents, 80);

    private static AskedMachine Read(string machine, int width) =>
        new(Binding.Machine.Read(MachineCatalogue.Find(machine)!, MachineCatalogue.Find)) { Widths = width };

    private static string[] Told(Slips.SlipStudy study) =>
        [
            .. study.Slips.Select(s =>
                $"{s.Slip.Name}: {s.Exposed} of {study.Cases}, {string.Join(' ', s.Smallest ?? [])}"
            ),
        ];

    private static string[] Told(IdleStudy study) =>
        [.. study.Rows.Select(r => $"{r.Cycle} {r.Cases}: {string.Join(' ', r.Bits.SelectMany(b => b))}")];

    [Theory]
    [InlineData("divide-still-divisor", 4, "remainder=0")]
    [InlineData("multiply-booth", 4, "product=6")]
    public void Chosen_operands_are_the_same(string machine, int width, string condition)
    {
        var line = $"operands {machine} --width {width} --best 6 --showing {condition}";
        var found = Asking.Chosen(Command(line))!.Ask(Means).Data!;
        var datapath = found.Candidates.Datapath;
        Assert.NotEmpty(found.Chosen);
        Assert.Equal(
            found.Chosen.Select(c => string.Join(' ', datapath.Operands.Zip(c.Operands, (o, bits) => o.Number(bits)))),
            Reckoner
                .Page.State.Chosen.Of(datapath, condition, Words.Vocabulary.English, Means)
                .Operands.Select(o => string.Join(' ', o.Operands))
        );
    }

    [Fact]
    public void A_figure_is_the_same()
    {
        const string Line = "draw divide-still-divisor weave 29 6 --width 5 --to 3";
        var drawn = Asking.Draw(Command(Line), HouseStyle.None, Words.Vocabulary.English)!.Ask(Means).Data!;
        var figure = Lesson<WalkFigure>(Line).Figure;
        Assert.Equal((0, 3, 3), (drawn.Figure!.From, drawn.Figure.To, drawn.Figure.Until));
        Assert.Equal((0, 3, 3), (figure.From, figure.To, figure.Until));
        Assert.Equal(Told(drawn.Figure.Walk), Told(figure.Walk));
        Assert.Equal(Written(drawn.Figure), Written(figure));

        string[] Written(Drawing.Figure f) =>
            [.. drawn.View.Draws(f).Select(s => Drawing.SvgWriter.Write(s, Drawing.Palette.Light))];
    }

    [Fact]
    public async Task Too_many_cases_are_refused_and_each_front_advises_what_it_has()
    {
        const string Line = "check divide-still-divisor --width 18";
        var command = Command(Line);
        var finding = Assert.Single((await Asking.Check(command)!.Ask(Watched())).Refusals);
        Assert.Equal(AskedPart.Widths, finding.Part);
        Assert.Contains(
            "Ways on: a smaller width; a sample of 100,000 operands; a proof, which may show it for every operand at every width; one of 4 parts after the other, added up.",
            Told(finding.Diagnostic)
        );
        Assert.Contains(
            "Ways on: a smaller --width; --sample 100000; reckoner prove divide-still-divisor, which may show it for every operand at every width; or --part 1/4 and so on, one after another or on several machines, added up with --add-up.",
            Told(Placing.Placed(finding, command))
        );
        var defaults = RequestDefaults.Of(new LessonHeader(null, null, null, null, null, [], null, null), ".");
        var source = new Source("t.md", Line);
        var lesson = Request.Read(
            source,
            new Span(0, Line.Length),
            HeaderReader.Words(new RequestWord(Line, new Span(0, Line.Length))),
            defaults
        );
        Assert.Contains(
            "Ways on: a smaller --width; --sample 100000; reckoner prove divide-still-divisor, which may show it for every operand at every width.",
            Told(Placing.Placed(finding, lesson))
        );
    }

    [Fact]
    public void What_each_front_has_a_name_for_is_named_by_it()
    {
        var outside = Command("walk divide-still-divisor 5 0 --width 4");
        var finding = Assert.Single(Asking.Walk(outside)!.Ask().Refusals);
        const string Shows = "shows what the hardware does with these.";
        Assert.Contains($"Choose other operands; a walk all the same {Shows}", Told(finding.Diagnostic));
        Assert.Contains($"Choose other operands; --anyway {Shows}", Told(Placing.Placed(finding, outside)));
        var turned = Command("draw divide-still-divisor weave 5 1 --width 4 --from 4 --to 3");
        finding = Assert.Single(Asking.Draw(turned, HouseStyle.None, Words.Vocabulary.English)!.Ask(Means).Refusals);
        Assert.Contains("The first stands behind from, the last behind to.", Told(finding.Diagnostic));
        Assert.Contains("The first stands behind --from, the last behind --to.", Told(Placing.Placed(finding, turned)));
    }

    [Fact]
    public void Hardware_and_states_are_those_that_a_program_gets()
    {
        var machine = Read("divide-early-out", 5);
        var asked = Command("states divide-early-out --width 5");
        Assert.Equal(
            Reporting.StatesJson.Of(Asking.States(asked)!.Ask().Data!),
            Reporting.StatesJson.Of(Reckon.States(machine).Data!)
        );
        var hardware = Asking.Hardware(Command("show divide-early-out --width 5 --hardware"))!.Ask().Data!;
        Assert.Equal($"{hardware.RegisterBits}", $"{Reckon.Hardware(machine).Data!.RegisterBits}");
        Assert.Equal(hardware.ChoiceBits, Reckon.Hardware(machine).Data!.ChoiceBits);
        var wide = new AskedMachine(
            Binding.Machine.Read(MachineCatalogue.Find("divide-early-out")!, MachineCatalogue.Find)
        )
        {
            Widths = 9999,
        };
        Assert.Equal("width-out-of-range", Assert.Single(Reckon.States(wide).Refusals).Diagnostic.Id.Name);
    }

    /// <summary>Time that goes on, for the estimate.</summary>
    private static Means Watched()
    {
        var clock = System.Diagnostics.Stopwatch.StartNew();
        return new Means(new InterpretedRunner(), () => clock.Elapsed);
    }

    [Fact]
    public async Task An_equals_sign_behind_a_range_names_no_width()
    {
        var answer = await Asking.Check(Command("check divide-still-divisor --width 3..5=7"))!.Ask(Means);
        Assert.Equal("unknown-width", Assert.Single(answer.Refusals).Diagnostic.Id.Name);
    }

    [Fact]
    public void A_question_put_by_a_program_is_checked()
    {
        var asked = new WalkQuestion(Read("divide-still-divisor", 8));
        Assert.Equal("operand-too-wide", Refused(asked with { Operands = [1000, 7] }));
        Assert.Equal("operand-count", Refused(asked with { Operands = [45] }));
        Assert.Equal("operand-count", Refused(asked with { Operands = [1, 2, 3] }));
        Assert.Equal("operands-outside-given", Refused(asked with { Operands = [45, 0] }));
        Assert.True((asked with { Operands = ["divisor=6", 45] }).Ask().IsGiven);
        var check = new CheckQuestion(Read("divide-still-divisor", 8));
        Assert.Throws<ArgumentOutOfRangeException>(() => check with { Part = new CheckPart(3, 2) });
        Assert.Throws<ArgumentOutOfRangeException>(() => check with { Sample = new DrawnSample(1, 0) });

        static string Refused(WalkQuestion question) => Assert.Single(question.Ask().Refusals).Diagnostic.Id.Name;
    }

    /// <summary>What is wrong is the same; what each advises is in its own words.</summary>
    [Theory]
    [InlineData("300 6", "5", "operand-too-wide")]
    [InlineData("-1 6", "5", "operand-negative")]
    [InlineData("three 6", "5", "operand-not-number")]
    [InlineData("29 6", "999999", "width-out-of-range")]
    public void A_refusal_is_the_same(string operands, string width, string id)
    {
        const string Machine = "divide-still-divisor";
        var asked = Asking.Walk(Command($"walk {Machine} {operands} --width {width}"))!.Ask();
        Assert.False(asked.IsGiven);
        var refusal = Assert.Single(asked.Refusals).Diagnostic;
        Assert.Equal(id, refusal.Id.Name);
        var field = Assert.Single(Page(Machine, width, operands).Fields).Diagnostic;
        Assert.Equal(refusal.Id, field.Id);
        Assert.Equal(Told(refusal), Told(field));
    }

    private static string[] Told(Diagnostics.Diagnostic diagnostic) =>
        [.. Reporting.DiagnosticText.Sentences(diagnostic, Words.Vocabulary.English)];
}
