using Reckoner.Catalogue;
using Reckoner.Checking;
using Reckoner.Cli;
using Reckoner.Documents.Lessons;
using Reckoner.Notation;
using Reckoner.Page.State;
using Reckoner.Questions;
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
        where TAnswer : Answer
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
        var numbers = asked.Data.Datapath.Operands.Zip(asked.Data.Operands, Datapaths.Evaluator.Number);
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
        Assert.Equal(Counts(report), Counts(Assert.Single(Lesson<CheckAnswer>(line).Reports)));

        var reading = Page(machine, width, "");
        reading = made is null ? reading : Reading.Of(reading.Sheet, made.Machine);
        var judgement = new Judgement(new InterpretedRunner(), () => TimeSpan.Zero);
        await judgement.RunAll(reading.Datapath!, null, () => { }, CancellationToken.None);
        Assert.Equal(Counts(report), Counts(judgement.Verdict!.Sections));
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
