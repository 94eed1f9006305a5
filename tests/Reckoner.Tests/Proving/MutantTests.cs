using Reckoner.Checking;
using Reckoner.Proving;
using Xunit;

namespace Reckoner.Tests.Proving;

/// <summary>Whatever is proved of a changed machine holds for all operands at every small width.</summary>
public class MutantTests
{
    /// <summary>So much work and no more; a mutant that needs more is not proved.</summary>
    private const int MostWork = 1500;

    /// <summary>So many bits of operands together are tried to the end.</summary>
    private const int MostBits = 18;

    /// <summary>Those of the long run begin with this number.</summary>
    private const int First = 0;

    private const int Stretch = 500;

    public static TheoryData<int> Stretches => [.. Enumerable.Range(0, 40)];

    /// <summary>Some of those of the long run, others each time.</summary>
    [Fact]
    public void Changed_machines_are_not_wrongly_proved()
    {
        const int few = 10;
        var seed = Seeds.Next();
        var last = Stretch * Stretches.Count - few;
        Seeds.Told(
            seed,
            "some mutants",
            () => Assert.True(Hold(First + Math.Abs(seed % (last + 1)), few) > 0, "none of them was proved")
        );
    }

    [Theory]
    [Trait("Length", "long")]
    [MemberData(nameof(Stretches))]
    public void Nor_are_twenty_thousand(int stretch)
    {
        Assert.True(Hold(First + Stretch * stretch, Stretch) > 10, "hardly any of them was proved");
    }

    private static int Hold(int first, int count)
    {
        var proved = 0;
        for (var seed = first; seed < first + count; seed++)
        {
            var (machine, text) = Mutants.Of(seed);
            var work = 0;
            // A proof of what is known to be wrong is tried of one in eight: it must fail for other reasons.
            var report = ProofReport.Of(
                machine,
                Machines.Bound(machine),
                () => ++work > MostWork,
                seed % 8 == 0 ? Screening.None : Screening.Runs
            );
            Assert.True(report.Refusal is null, $"mutant {seed}: {report.Refusal}");
            if (report.Sections.Any(s => s.Claims.Any(c => c.IsProved)))
            {
                proved++;
                Exhaust(text, report, seed);
            }
        }
        return proved;
    }

    /// <summary>The machine with no other claims than those that were proved, for all operands.</summary>
    private static void Exhaust(string text, ProofReport report, int seed)
    {
        var unproved = report
            .Sections.SelectMany(s => s.Claims)
            .Where(c => !c.IsProved)
            .OrderByDescending(c => c.Claim.Place.Start);
        foreach (var claim in unproved)
        {
            text = text.Remove(claim.Claim.Place.Start, claim.Claim.Place.End - claim.Claim.Place.Start);
        }
        var left = Machines.Of(text);
        foreach (var n in Machines.Widths(left, upTo: 9))
        {
            // A changed range may have widths at which there is no machine.
            if (left.At(n).Datapath is not { } datapath || datapath.Operands.Sum(o => o.Width) > MostBits)
            {
                continue;
            }
            var program = CheckProgram.Of(datapath, followed: null, OracleUse.Written);
            var run = new CheckRun(program, InterpretedEngine.Widest);
            Assert.Equal(program.Space.Steps, run.Run(0, program.Space.Steps));
            Assert.True(run.Counts.All(c => c.Failures.IsZero), $"mutant {seed} at {n}:\n{text}");
        }
    }
}
