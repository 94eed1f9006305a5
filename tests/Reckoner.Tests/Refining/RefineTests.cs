using System.Text.RegularExpressions;
using Reckoner.Binding;
using Reckoner.Notation;
using Reckoner.Questions;
using Reckoner.Refining;
using Reckoner.Words;
using Xunit;

namespace Reckoner.Tests.Refining;

/// <summary>What could be saved: the steps of the catalogue are found from the machines before them, and nothing unsound is.</summary>
public partial class RefineTests
{
    private static readonly Means Means = new(new InterpretedRunner(), () => TimeSpan.Zero);

    /// <summary>A machine that nobody planned for: invented names, and the last word of its width is odd.</summary>
    private const string Invented = """
        machine zwump
        title "Plib by flonk"

        width zz = 3 in 2..40
        constant k = 2 * zz + 1

        operand flonk : zz + 1
        operand plib : zz

        register U "the heap" : k loads 0
        register W "the flonk" : k loads extend(flonk)
        register V "the plib" : zz loads plib

        repeat zz
          if V[0]
            U <- U + W
          end
          W <- shl(W, 0)
          V <- shr(V, 0)
        end

        result heap = U

        law heap = flonk * plib
        """;

    private static Refined Refine(Machine machine, int steps = 1)
    {
        var answer = Reckon.Refine(new RefineQuestion(machine) { Steps = steps }, Means);
        Assert.True(answer.IsGiven, string.Join(' ', answer.Refusals.Select(r => r.Diagnostic.Id.Name)));
        return answer.Data;
    }

    /// <summary>The sentences of a description but for how it and its things are called, in any order.</summary>
    private static IReadOnlyList<string> Bare(Description description) =>
        [
            .. Quoted()
                .Replace(Printer.Text(description), "")
                .Split('\n')
                .Where(l => l.Length > 0 && !Head().IsMatch(l))
                .Order(StringComparer.Ordinal),
        ];

    [GeneratedRegex(" (?:says |else |[a-z]{2} )?\"[^\"]*\"| [a-z]{2} \"[^\"]*\"")]
    private static partial Regex Quoted();

    [GeneratedRegex(@"^(machine|title|follows|note)\b")]
    private static partial Regex Head();

    [Fact]
    public void Versions_2_and_3_of_the_divider_are_found_from_the_one_before_each()
    {
        var second = Found("divide-still-divisor", Reckon.Machine("divide-moving-divisor"));
        var third = Found("divide-shared-register", (Machine)second.Datapath.Machine);
        Assert.Equal([MoveKind.Reframe], second.Moves);
        Assert.Equal([MoveKind.Share], third.Moves);
    }

    /// <summary>The proposal that is a machine of the catalogue word for word; it is one of the first three.</summary>
    private static Proposal Found(string name, Machine from)
    {
        var wanted = Bare(Reckon.Machine(name).Description);
        var proposals = Refine(Alone(from)).Proposals;
        var found = proposals.FirstOrDefault(p => Bare(p.Datapath.Machine.Description).SequenceEqual(wanted));
        Assert.True(found is not null, $"{name} is not among:\n{string.Join("\n\n", proposals.Select(Text))}");
        Assert.InRange(found.Number, 1, 3);
        return found;
    }

    private static string Text(Proposal proposal) => Printer.Text(proposal.Datapath.Machine.Description);

    /// <summary>The machine read again from its text, so that nothing but the text is known of it.</summary>
    private static Machine Alone(Machine machine) =>
        Reckon.Read(
            Printer.Text(
                machine.Description with
                {
                    Declarations = [.. machine.Description.Declarations.Where(d => d is not FollowsLine)],
                }
            )
        );

    [Fact]
    public void Two_steps_from_the_multiplier_whose_multiplicand_moves_lie_one_adder_and_one_register_of_half_the_width()
    {
        var found = Refine(Reckon.Machine("multiply-moving-multiplicand"), steps: 2);
        var shared = Reckon.Hardware(Reckon.Machine("multiply-shared-register")).Data!;
        var best = found.Proposals[0];
        Assert.Equal(shared.RegisterBits.Count, best.Hardware.RegisterBits.Count);
        Assert.Equal(shared.AdderBits, best.Hardware.AdderBits);
        Assert.Equal(shared.Cycles, best.Hardware.Cycles);
        Assert.Equal([MoveKind.Reframe, MoveKind.Share], best.Moves);
    }

    [Theory]
    [InlineData("divide-shift-subtract-restore", 24, 8, 8)]
    [InlineData("multiply-in-steps", 24, 8, 8)]
    public void Steps_of_a_round_become_one_cycle_and_what_is_undone_is_not_done(
        string name,
        int registers,
        int adder,
        int cycles
    )
    {
        var best = Refine(Reckon.Machine(name), steps: 3).Proposals[0];
        Assert.Contains(MoveKind.Merge, best.Moves);
        Assert.Equal(
            (registers, adder, cycles),
            (best.Hardware.RegisterBits.Count, best.Hardware.AdderBits, best.Hardware.Cycles.Most)
        );
    }

    [Fact]
    public void Invented_words_and_an_odd_width_make_no_difference()
    {
        var found = Refine(Reckon.Read(Invented), steps: 2);
        var best = found.Proposals[0];
        Assert.True(best.Hardware.RegisterBits.Count < found.Hardware.RegisterBits.Count);
        Assert.True(best.Hardware.AdderBits < found.Hardware.AdderBits);
        Assert.All(found.Proposals, p => Assert.True(p.Widths.Count >= 5));
        foreach (var proposal in found.Proposals)
        {
            Assert.Empty(Refused(Text(proposal)));
        }
    }

    /// <summary>What is wrong with a text, and remarks on it.</summary>
    private static IReadOnlyList<string> Refused(string text)
    {
        var read = Machine.Read(
            new Texts.Source("taken", text),
            name => name == "zwump" ? new Texts.Source(name, Invented) : null
        );
        return
        [
            .. read.At((int?)null)
                .Diagnostics.Where(d => d.Severity != Diagnostics.Severity.Hint)
                .Select(d => d.Id.Name),
        ];
    }

    [Fact]
    public void A_machine_that_breaks_its_laws_is_refused_with_the_smallest_operands()
    {
        var answer = Reckon.Refine(new RefineQuestion(Reckon.Machine("multiply-carry-dropped")), Means);
        Assert.Equal(
            "multiply-carry-dropped does not keep its laws: at n = 2 it fails for multiplicand = 3, multiplier = 3.",
            Reckon
                .Say(answer.Found, columns: 200)
                .Split('\n')
                .Select(l => l.Trim())
                .First(l => l.Contains("keep", StringComparison.Ordinal))
        );
    }

    [Fact]
    public void What_gives_another_result_for_one_operand_is_no_version()
    {
        // The twin of the trial: laws at the smallest width alone would let this pass.
        var right = Reckon.Machine("multiply-shared-register");
        var cases = CaseSet.Of(right);
        var wrong = Reckon.Read(
            Printer
                .Text(right.Description)
                .Replace("P <- shr(P, carry)", "P <- shr(P, carry and not P[n])", StringComparison.Ordinal)
        );
        Assert.All(cases, c => Assert.True(c.IsSame(right)));
        Assert.Contains(cases, c => !c.IsSame(wrong));
    }

    [Fact]
    public void Notes_and_titles_stand_in_the_languages_that_the_first_version_speaks()
    {
        var machine = Reckon.Machine("divide-moving-divisor");
        var answer = Reckon.Refine(new RefineQuestion(machine) { Words = Vocabulary.Of("de")! }, Means);
        var title = answer.Data!.Proposals[0].Datapath.Machine.Title!;
        Assert.Equal("Division: the others move", title.Text);
        Assert.Equal("Division: das Übrige wandert", title.In("de"));
        var carry = Reckon.Refine(new RefineQuestion(Reckon.Machine("multiply-moving-multiplicand")), Means).Data!;
        Assert.Contains(
            "let sum de \"Summe\", carry de \"Übertrag\" = left + row",
            Text(carry.Proposals[0]),
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void Steps_lead_from_one_machine_to_another_and_say_which_registers_are_which()
    {
        var led = Lead("divide-moving-divisor", "divide-shared-register");
        Assert.Equal([MoveKind.Reframe, MoveKind.Share], led.Steps.Select(s => s.Moves[^1]));
        Assert.Equal([("R", "R"), ("D", "D")], led.Registers);
        Assert.All(led.Steps, s => Assert.Equal(8, s.Widths.Count));
        Assert.Null(led.Parts);
    }

    [Fact]
    public void Machines_that_part_are_told_apart_by_the_smallest_operands()
    {
        var parts = Lead("multiply-moving-multiplicand", "multiply-carry-dropped").Parts!;
        Assert.Equal([3, 3], parts.Operands.Select(o => (int)o));
        Assert.Equal((9, 1), ((int)parts.Given[0], (int)parts.GivenThere[0]));
    }

    [Fact]
    public void Where_no_steps_are_found_nothing_is_claimed()
    {
        var led = Lead("divide-shared-register", "divide-moving-divisor");
        Assert.False(led.IsFound);
        Assert.Empty(led.Steps);
        Assert.Null(led.Parts);
    }

    private static Led Lead(string from, string to) =>
        new LeadQuestion(Reckon.Machine(from), Reckon.Machine(to)).Ask(Means).Data!;

    [Fact]
    public void What_is_stopped_says_that_it_is_not_all()
    {
        var stopped = Means with { Stop = new CancellationToken(canceled: true) };
        var answer = Reckon.Refine(new RefineQuestion(Reckon.Machine("divide-moving-divisor")), stopped);
        Assert.False(answer.Data!.IsComplete);
    }

    [Fact]
    public void What_is_proved_is_marked_and_what_is_not_was_still_run()
    {
        var machine = Reckon.Machine("multiply-in-steps");
        var proved = Reckon.Refine(new RefineQuestion(machine) { Proves = true }, Means).Data!.Proposals;
        Assert.Contains(proved, p => p.IsProved == true);
        const string Open = "That is no proof for every width.";
        Assert.All(
            proved,
            p =>
            {
                var text = Printer.Text(p.Datapath.Machine.Description);
                Assert.Equal(
                    p.IsProved == true,
                    text.Contains("Its laws are proved for every operand at every width.")
                );
                Assert.Equal(p.IsProved != true, text.Contains(Open));
            }
        );
        Assert.All(Refine(machine).Proposals, p => Assert.Contains(Open, Printer.Text(p.Datapath.Machine.Description)));
        Assert.All(Refine(machine).Proposals, p => Assert.Null(p.IsProved));
    }
}
