using Reckoner.Catalogue;
using Reckoner.Notation;
using Reckoner.Proving;
using Reckoner.Questions;
using Reckoner.Slips;
using Xunit;

namespace Reckoner.Tests.Refining;

/// <summary>
/// Every proposal for every machine of the catalogue, and for slips that happen to do no harm, put to the check as a stranger would:
/// from its text alone, with every operand. Those who proposed it are not asked.
/// </summary>
[Trait("Length", "long")]
public class RefineLongTests(ITestOutputHelper output)
{
    private static readonly Means Means = new(new InterpretedRunner(), () => TimeSpan.Zero);

    public static TheoryData<string> Machines => [.. MachineCatalogue.Names];

    [Theory]
    [MemberData(nameof(Machines))]
    public async Task Every_proposal_is_right_for_every_operand(string name)
    {
        var machine = Reckon.Machine(name);
        var answer = Reckon.Refine(new RefineQuestion(machine) { Steps = 2 }, Means);
        if (!answer.IsGiven)
        {
            Assert.Contains(
                Assert.Single(answer.Refusals).Diagnostic.Id.Name,
                new[] { "refine-core", "refine-broken", "refine-too-wide" }
            );
            return;
        }
        output.WriteLine($"{name}: {answer.Data.Proposals.Count} proposals");
        foreach (var proposal in answer.Data.Proposals)
        {
            await Check(Printer.Text(proposal.Datapath.Machine.Description), Printer.Text(machine.Description), name);
        }
    }

    /// <summary>Laws, outside and equal results, on both sides of a power of two.</summary>
    private static async Task Check(string text, string first, string name)
    {
        var machine = Reckon.Read(
            text,
            "proposal",
            n => n == name ? new Texts.Source(n, first) : MachineCatalogue.Find(n)
        );
        var main = machine.Widths.FirstOrDefault()?.Name.Text;
        var ran = 0;
        foreach (var width in new[] { 2, 3, 4, 5, 7, 8, 9 })
        {
            var asked = new AskedMachine(machine) { Widths = width };
            if (main is null || !asked.Bind().IsGiven || asked.Bind().Data!.Operands.Sum(o => o.Width) > 18)
            {
                continue;
            }
            var check = await Reckon.Check(CheckQuestion.OfCounts(asked), Means);
            Assert.True(check.Data!.Checks[0].Result.NothingFailed, $"at {width}:\n{text}");
            ran++;
        }
        Assert.True(main is null || ran > 0, $"nowhere run:\n{text}");
        foreach (var width in new[] { 11, 15, 16, 17, 24, 31, 32, 33 })
        {
            var asked = new AskedMachine(machine) { Widths = width };
            if (
                asked.Bind() is { IsGiven: true, Data: { } there }
                && machine.Followed?.At(width).Datapath is { } before
            )
            {
                var operands = Trials.Some(there, 40).Where(o => there.Outside.Count > 0 || there.IsGiven(o));
                Assert.All(operands, o => Assert.Equal(Trials.Results(before, o), Trials.Results(there, o)));
            }
        }
    }

    [Theory]
    [InlineData("divide-moving-divisor")]
    [InlineData("divide-shift-subtract-restore")]
    [InlineData("multiply-moving-multiplicand")]
    [InlineData("multiply-in-steps")]
    public async Task A_slip_is_refused_or_every_proposal_is_right(string name)
    {
        var (refused, given) = (0, 0);
        foreach (var slip in Slip.Of(Reckon.Machine(name)))
        {
            var asked = new AskedMachine(Reckon.Machine(name)) { Slip = slip.Name };
            var answer = Reckon.Refine(new RefineQuestion(asked), Means);
            if (!answer.IsGiven)
            {
                refused++;
                continue;
            }
            given++;
            foreach (var proposal in answer.Data.Proposals)
            {
                var first = slip.Machine.Description;
                await Check(Printer.Text(proposal.Datapath.Machine.Description), Printer.Text(first), name);
            }
        }
        output.WriteLine($"{name}: {refused} slips refused, {given} not");
        Assert.True(refused > given);
    }
}
