using System.Numerics;
using Reckoner.Explaining;
using Reckoner.Questions;
using Reckoner.Reporting;
using Reckoner.Words;
using Xunit;

namespace Reckoner.Tests.Explaining;

public class ExplainerTests(ITestOutputHelper output)
{
    /// <summary>
    /// Wrong results that were published, by shared collections of learners' questions: each is explained as there. Several numbers
    /// are those of the results in their order.
    /// </summary>
    [Theory]
    // A divisor that was left in the low half: experts-exchange.com, question 24374255, at 4 bits.
    [InlineData("divide-moving-divisor", 4, "11 3", "quotient=15 remainder=7", "halves-exchanged-D")]
    // The rules of several textbooks for signed restoring division: go4expert.com, t9187.
    [InlineData("divide-signed-restoring", 4, "-5 1", "quotient=-4 remainder=-1", "divide-signed-rule-sign")]
    [InlineData("divide-signed-restoring", 4, "-5 1", "quotient=5 remainder=0", "divide-signed-rule-zero")]
    // -8 * -8 in four bits: cs.stackexchange.com, question 135309.
    [InlineData("multiply-booth", 4, "-8 -8", "product=-64", "register-narrow-A")]
    // The leaving bit shifted in again: edaboard.com, thread 273841.
    [InlineData("multiply-booth", 5, "-10 -5", "product=914", "multiply-booth-rotate")]
    // The unshifted slice: Stack Overflow, question 1367758.
    [InlineData("multiply-shared-register", 4, "5 12", "product=84", "multiply-unshifted-slice")]
    // The carry of the addition dropped, and kept: coderoad.ru, question 41002038.
    [InlineData("multiply-still-multiplicand", 4, "13 11", "product=111", "register-narrow-C")]
    [InlineData("multiply-still-multiplicand", 4, "15 15", "product=1", "register-narrow-C")]
    [InlineData("multiply-still-multiplicand", 4, "13 11", "product=207", "sign-enters-C-P")]
    public void Published_results_are_explained(string machine, int width, string operands, string got, string cause)
    {
        var verdict = Asked(machine, width, operands, got);
        var named = verdict.Explanations.Where(e => e.Causes == 1).Select(e => Named(e.Mishaps[0])).ToList();
        Assert.True(named.Contains(cause), $"{verdict.Kind}: {string.Join(", ", named)}");
    }

    private static Verdict Asked(string machine, int width, string operands, string got)
    {
        var answer = new WhyQuestion(new AskedMachine(Machines.Named(machine)) { Widths = width })
        {
            Operands = [.. operands.Split(' ').Select(AskedOperand.Read)],
            Got = got,
        }.Ask();
        Assert.True(answer.IsGiven, string.Join("; ", answer.Found.Select(f => f.Diagnostic)));
        return answer.Data;
    }

    private static string Named(Mishap mishap) =>
        mishap switch
        {
            Slipped slipped => slipped.Slip.Name,
            WorkedOtherwise other => other.As.Machine.Name,
            _ => $"{mishap}",
        };

    [Fact]
    public void Minus_16_for_minus_4_times_3_has_its_causes_and_operands_that_tell_them_apart()
    {
        var verdict = Asked("multiply-booth", 4, "-4 3", "product=-16");
        Assert.Equal(VerdictKind.Perhaps, verdict.Kind);
        Assert.Equal(
            ["register-narrow-Q", "starts-otherwise-before", "arm-emptied-Q-0-before-2", "moments-exchanged-then"],
            verdict.Explanations.Where(e => e.IsThroughout).Select(e => Named(e.Mishaps[0]))
        );
        var operands = verdict.TellingApart!;
        Assert.NotEqual(
            verdict.Explanations[0].Final(verdict.Ways, operands)!,
            verdict.Explanations[1].Final(verdict.Ways, operands)!
        );
    }

    [Fact]
    public void A_slip_and_a_misread_operand_are_two_causes_where_one_does_not_do()
    {
        var ways = Kits.At("multiply-booth");
        var operands = Kits.Operands(ways, -4, 3);
        var together = 0;
        foreach (var slip in ways.Slips.Where(s => !s.IsHarmless))
        {
            foreach (var reading in ways.Readings)
            {
                if (reading.Of(ways.Datapath, operands) is not { } read)
                {
                    continue;
                }
                var seen = new Seen([], [.. slip.Way.Final(read).Select(r => (BigInteger?)r)]);
                var verdict = Explainer.Of(ways, operands, seen, 2);
                Assert.NotEmpty(verdict.Explanations);
                if (verdict.Causes == 2)
                {
                    // A result read off wrongly, with one other cause, is asked for before.
                    var isOff = verdict.Explanations.Any(e => e.Mishaps.Any(m => m is ResultOff));
                    var isFound = verdict.Explanations.Any(e =>
                        e.Mishaps is [Misread misread, Slipped { Extent: SlipExtent.Throughout } slipped]
                        && misread.Reading == reading
                        && Merging.IsSame(ways, slipped, new Slipped(slip.Slip, SlipExtent.Throughout, []))
                    );
                    together += isFound ? 1 : 0;
                    Assert.True(isFound || isOff, $"{slip.Slip.Name}, {reading}");
                    Assert.All(verdict.Explanations, e => Assert.Equal(2, e.Mishaps.Count));
                }
            }
        }
        output.WriteLine($"{together}");
        Assert.True(together > 0);
    }

    /// <summary>Two bits of two rows that were miscopied, and the second was worked on with: two causes that are named as two.</summary>
    [Fact]
    public void Two_rows_miscopied_are_two_causes()
    {
        var ways = Kits.At("divide-still-divisor");
        var operands = Kits.Operands(ways, 13, 3);
        var rows = ways.Right.Table(operands);
        List<Miscopied> planted = [];
        foreach (var (row, name) in ((int, string)[])[(1, "D"), (3, "R")])
        {
            var register = ways.Datapath.Registers.First(r => r.Name == name);
            rows[row] = ways.Layout.With(rows[row], register.Index, ways.Layout.Field(rows[row], register.Index) ^ 1);
            planted.Add(new Miscopied(CopyingKind.OneBit, register, null, 0, row, IsCarriedOn: false));
        }
        var verdict = Explainer.Of(ways, operands, Kits.Table(ways, rows), 2);
        Assert.Equal(2, verdict.Causes);
        Assert.Contains(verdict.Explanations, e => e.Mishaps.SequenceEqual(planted));
        Assert.True(verdict.Kind is VerdictKind.Surely or VerdictKind.Probably, $"{verdict.Kind}");
        var text = DocumentText.Of(WhyDocument.Of(verdict, Vocabulary.English), 200);
        Assert.Contains(", 2 causes together,", text);
    }

    /// <summary>Where another way that is right too was stopped early, it is told which one: its cycles are not those of the machine.</summary>
    [Fact]
    public void A_way_that_is_right_too_is_told_beside_what_went_wrong_on_it()
    {
        var told = 0;
        foreach (var name in Kits.Names)
        {
            if (Kits.Find(name) is not { } ways)
            {
                continue;
            }
            foreach (var other in ways.Others.Where(o => o.IsHarmless && o.Way.HasAllRegisters))
            {
                var operands = ways.Samples[ways.Samples.Count / 2];
                var rows = other.Way.Table(operands);
                var seen = Kits.Table(ways, rows[..^1]);
                var found = Explainer.Of(ways, operands, seen, 1);
                foreach (var explanation in found.Explanations.Take(6).Where(e => e.IsAnotherWay(ways) && e.Causes > 0))
                {
                    told++;
                    var verdict = found with { Kind = VerdictKind.Perhaps };
                    var by = $"Worked as by {WhyDocument.Way(explanation)}, which is right too.";
                    Assert.Contains(by, DocumentText.Of(WhyDocument.Of(verdict, Vocabulary.English), 1000));
                    Assert.Contains(
                        $"\"machine\": \"{WhyDocument.Way(explanation)}\"",
                        WhyJson.Of(verdict, Vocabulary.English)
                    );
                }
            }
        }
        output.WriteLine($"{told}");
        Assert.True(told > 0);
    }

    /// <summary>Of a machine that lacks a register nothing is said of when it is first seen: it has nothing to be seen in.</summary>
    [Fact]
    public void What_lacks_a_register_is_seen_nowhere()
    {
        var lacking = 0;
        foreach (var name in Kits.Names)
        {
            if (Kits.Find(name) is not { } ways)
            {
                continue;
            }
            var right = ways.Right.Table(ways.Samples[0]);
            foreach (var other in ways.Others.Where(o => o.Way.LacksRegister))
            {
                lacking++;
                var mishap = new WorkedOtherwise(other.Way.Datapath);
                Assert.Null(new Explanation(other.Way, ways.Samples[0], [mishap], 0).Placed(ways, right).FirstSeen);
            }
        }
        Assert.True(lacking > 0);
    }

    [Fact]
    public void The_topmost_of_64_bits_is_one_bit()
    {
        var datapath = Machines.Bound(
            Machines.Of(
                "machine wide\nwidth n = 64 in 2..64\noperand x : n\nregister X : n loads x\nstep on\n  X <- shl(X, 0)\nresult y = X\n"
            )
        );
        var layout = RowLayout.Of(datapath)!;
        Assert.DoesNotContain(
            Miscopying.Of(layout, UInt128.Zero, UInt128.One << 63, null),
            c => c.How == CopyingKind.Exchanged
        );
        Assert.Contains(Miscopying.Of(layout, 1, 2, null), c => c.How == CopyingKind.Exchanged);
    }

    /// <summary>Tests that ask every machine pass over those that are too wide for a table: they are few.</summary>
    [Fact]
    [Trait("Length", "long")]
    public void Nearly_all_machines_are_searched()
    {
        var passed = Machines.Catalogue.Where(name => Kits.Find(name) is null).ToList();
        output.WriteLine(string.Join(", ", passed));
        Assert.True(passed.Count * 10 <= Machines.Catalogue.Count, string.Join(", ", passed));
        Assert.All(
            Machines.Catalogue.Select(name => Kits.Find(name)).OfType<Ways>(),
            ways => Assert.True(ways.Slips.Count > 0 && ways.Samples.Count > 0, ways.Datapath.Machine.Name)
        );
    }

    [Theory]
    [Trait("Length", "long")]
    [MemberData(nameof(Kits.Others), MemberType = typeof(Kits))]
    public void Nor_is_one_of_the_other_machines(string name) => No_right_table_is_accused(name);

    /// <summary>Nobody is blamed for a table that is right, nor for one that is right in another machine of the same registers.</summary>
    [Theory]
    [MemberData(nameof(Kits.Few), MemberType = typeof(Kits))]
    public void No_right_table_is_accused(string name)
    {
        if (Kits.Find(name) is not { } ways)
        {
            return;
        }
        foreach (var operands in ways.Samples.Where((_, i) => i % 16 == 0))
        {
            var right = Explainer.Of(ways, operands, Kits.Table(ways, ways.Right.Table(operands)), 1);
            Assert.Equal((VerdictKind.Right, 0), (right.Kind, right.Causes));
            foreach (var other in ways.Others.Where(o => o.IsHarmless && o.Way.HasAllRegisters))
            {
                var verdict = Explainer.Of(ways, operands, Kits.Table(ways, other.Way.Table(operands)), 1);
                Assert.Equal(0, verdict.Explanations[0].Causes);
                Assert.True(verdict.Kind is VerdictKind.Right or VerdictKind.OtherWay);
            }
        }
    }

    /// <summary>One register of one row filled at random, and rightly worked on: at most one in fifty is given a cause.</summary>
    [Fact]
    public void Random_registers_of_four_bits_are_hardly_ever_given_a_cause()
    {
        var seed = Seeds.Next();
        var random = new Random(seed);
        var (named, all) = (0, 0);
        foreach (
            var name in (string[])
                ["divide-still-divisor", "divide-adding-back", "multiply-booth", "multiply-shared-register"]
        )
        {
            var ways = Kits.At(name);
            for (var i = 0; i < 500; i++)
            {
                var operands = ways.Samples[random.Next(ways.Samples.Count)];
                if (Randomly(ways, operands, random) is not { } rows)
                {
                    continue;
                }
                all++;
                var verdict = Explainer.Of(ways, operands, Kits.Table(ways, rows), 1);
                named += verdict.Kind is VerdictKind.Surely or VerdictKind.Probably ? 1 : 0;
            }
        }
        output.WriteLine($"{named} of {all}");
        Assert.True(named * 50 <= all, $"RECKONER_SEED={seed}: {named} of {all}");
    }

    private static List<UInt128>? Randomly(Ways ways, ulong[] operands, Random random)
    {
        var right = ways.Right.Table(operands);
        var i = random.Next(1, right.Count);
        var registers = ways.Datapath.Registers.Where(r => r.Width == 4).ToList();
        if (registers.Count == 0)
        {
            return null;
        }
        var row = ways.Layout.With(right[i], registers[random.Next(registers.Count)].Index, (ulong)random.Next(16));
        if (row == right[i])
        {
            return null;
        }
        List<UInt128> rows = [.. right[..i], row];
        for (var at = ways.Right.Next(i, row); at < ways.Right.MostCycles; at = ways.Right.Next(at, row))
        {
            rows.Add(row = ways.Right.After(at++, row));
        }
        return rows;
    }
}
