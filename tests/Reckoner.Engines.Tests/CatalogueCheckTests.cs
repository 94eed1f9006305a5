using Reckoner.Binding;
using Reckoner.Catalogue;
using Reckoner.Checking;
using Reckoner.Datapaths;
using Xunit;

namespace Reckoner.Engines.Tests;

/// <summary>
/// Every machine of the catalogue that is not wrong on purpose, by the checker itself: laws, what is stated outside, and the
/// results of the machine it follows.
/// </summary>
public class CatalogueCheckTests
{
    private const int WidestOfAll = 8;

    /// <summary>So many bits of operands are tried whole in the quick run.</summary>
    private const int QuickBits = 16;

    private static readonly int[] FarWidths = [9, 12, 15, 16, 23, 24, 31, 32, 33, 48, 53, 63, 64];

    public static TheoryData<string> Right =>
        [.. MachineCatalogue.Entries.Where(e => e.Family != "wrong-on-purpose").Select(e => e.Name)];

    [Theory]
    [MemberData(nameof(Right))]
    public void Every_operand_of_every_width_to_eight_keeps_every_claim(string machine) =>
        Exhaust(machine, bits => bits <= QuickBits);

    /// <summary>The rest: dividends of 2n bits at 6, 7 and 8 bits, up to 2^24 pairs.</summary>
    [Theory]
    [Trait("Length", "long")]
    [MemberData(nameof(Right))]
    public void Every_operand_of_every_width_to_eight_keeps_every_claim_where_that_takes_longer(string machine) =>
        Exhaust(machine, bits => bits > QuickBits);

    private static void Exhaust(string name, Predicate<int> isDone)
    {
        foreach (var datapath in AtWidths(name, Enumerable.Range(1, WidestOfAll)))
        {
            if (isDone(datapath.Operands.Sum(o => o.Width)))
            {
                var program = CheckProgram.Of(datapath, Followed(datapath), OracleUse.Stepped);
                var engine = EngineChoice.Widest.For(program.Program, program.Space.Steps)!;
                var (to, counts) = ParallelChecker.Run(program, engine, 0, program.Space.Steps, 2);
                Assert.Equal(program.Space.Steps, to);
                Holds(datapath, counts);
            }
        }
    }

    [Theory]
    [MemberData(nameof(Right))]
    public void Corners_and_random_operands_at_far_widths_keep_every_claim(string machine) =>
        Sample(machine, FarWidths.Where((_, i) => i % 6 == 0), 300);

    [Theory]
    [Trait("Length", "long")]
    [MemberData(nameof(Right))]
    public void Many_random_operands_at_far_widths_keep_every_claim(string machine) =>
        Sample(machine, FarWidths, 20_000);

    private static void Sample(string name, IEnumerable<int> widths, int count)
    {
        const int Seed = 1;
        foreach (var datapath in AtWidths(name, widths))
        {
            var program = CheckProgram.Of(datapath, Followed(datapath), OracleUse.Written);
            var sample = new OperandSample(datapath, count, Seed);
            var result = Checker.Sample(program, InterpretedEngine.Widest, sample.Operands());
            Assert.Equal(sample.Size, result.Tried);
            Holds(datapath, [.. result.Sections.Select(s => s.Count)]);
        }
    }

    private static void Holds(Datapath datapath, IReadOnlyList<SectionCount> counts)
    {
        var place = $"{datapath.Machine.Name} at {string.Join(", ", datapath.Widths)}";
        Assert.True(counts[0].Cases > 0, $"{place}: nothing was tried");
        Assert.True(counts.All(c => c.Failures.IsZero), $"{place}: {Machines.Line(counts)}");
    }

    private static IEnumerable<Datapath> AtWidths(string name, IEnumerable<int> widths)
    {
        var machine = Machine.Read(MachineCatalogue.Find(name)!, MachineCatalogue.Find);
        return widths.Select(w => machine.At(w).Datapath).OfType<Datapath>();
    }

    private static Datapath? Followed(Datapath datapath)
    {
        if (datapath.Machine.Followed is not { } followed)
        {
            return null;
        }
        var shared = followed
            .Widths.Select(w => w.Name.Text)
            .Where(datapath.Numbers.ContainsKey)
            .ToDictionary(n => n, n => datapath.Numbers[n].Numerator);
        return followed.At(shared).Datapath;
    }
}
