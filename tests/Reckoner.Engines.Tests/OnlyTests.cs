using System.Numerics;
using Reckoner.Checking;
using Reckoner.Claims;
using Reckoner.Conditions;
using Reckoner.Datapaths;
using Reckoner.Diagnostics;
using Reckoner.Running;
using Xunit;

namespace Reckoner.Engines.Tests;

/// <summary>Checks of some operands alone, beside walks of just these.</summary>
public sealed class OnlyTests
{
    private static Truth Formula(Datapath datapath, string text)
    {
        var report = new Report(new Texts.Source("", text));
        var formula = new ConditionFormulas(datapath, text, report).Truth(new Texts.Span(0, text.Length));
        Assert.True(formula is not null, string.Join("\n", report.InOrder()));
        return formula;
    }

    private static string Walked(Datapath datapath, Truth only)
    {
        var all = new CaseSpace(datapath.Operands);
        var counts = new Dictionary<bool, SectionCount>
        {
            [true] = new(CheckSection.Laws, 0, 0, null),
            [false] = new(CheckSection.Outside, 0, 0, null),
        };
        for (var step = 0L; step < all.Steps; step++)
        {
            for (var lane = 0; lane < all.Lanes; lane++)
            {
                var operands = all.At(step, lane);
                if (!ClaimJudge.IsSo(only, operands))
                {
                    continue;
                }
                var walk = Walk.Of(datapath, operands);
                var section = counts[walk.IsGiven];
                var failing = walk.Holds ? null : new FailingCase(operands, Rank.Of(datapath.Operands, operands));
                counts[walk.IsGiven] += new SectionCount(section.Section, 1, walk.Holds ? 0 : 1, failing);
            }
        }
        return Machines.Line(datapath.Outside.Count > 0 ? counts.Values : [counts[true]]);
    }

    /// <summary>Formulas that fix bits above, below, of both operands, of signed ones, all of them, or none; and one that nothing satisfies.</summary>
    [Theory]
    [InlineData("divide-shared-register", "divisor = 5", 5)]
    [InlineData("divide-shared-register", "divisor = 0", 5)]
    [InlineData("divide-shared-register", "divisor = 5 or divisor = 7", 4)]
    [InlineData("divide-shared-register", "divisor >= 16 and dividend < 8", 3)]
    [InlineData("divide-shared-register", "dividend = 21 and divisor = 3", 10)]
    [InlineData("divide-shared-register", "dividend < divisor", 0)]
    [InlineData("divide-shared-register", "20 <= divisor < 24 or divisor = 27", 1)]
    [InlineData("divide-shared-register", "2 * floor(dividend / 2) <> dividend", 1)]
    [InlineData("divide-shared-register", "dividend > 40", 10)]
    [InlineData("multiply-booth", "multiplicand < 0", 1)]
    [InlineData("multiply-booth-narrow", "multiplicand = -16", 5)]
    [InlineData("divide-signed-truncating", "divisor = -1 or dividend = -16", 0)]
    public void Are_those_that_the_formula_names(string machine, string text, int fixedBits)
    {
        var datapath = Machines.At(machine, 5);
        var only = Formula(datapath, text);
        var walked = Walked(datapath, only);
        var asked = AskedCases.Of(datapath, only);
        var stop = TestContext.Current.CancellationToken;
        foreach (var use in Enum.GetValues<OracleUse>())
        {
            var check = CheckProgram.Of(datapath, null, use, null, asked);
            Assert.Equal(fixedBits, check.Space.Bits - check.Space.FreeBits);
            Assert.All(Runs.Engines, engine => Assert.Equal(walked, Runs.Line(check, engine)));
            var kernel = PtxKernel.Of(check, 0);
            var made = new PtxProcessor().Load(kernel);
            var (_, counts, _) = GraphicsCheck.Run(check, kernel, [made], 0, check.Space.Steps, null, stop);
            Assert.Equal(walked, Machines.Line(counts));
        }
        var words = new WordCheck(datapath, null, asked);
        Assert.Equal(walked, Machines.Line(words.Run(0, words.Space.Steps, null, stop).Counts));
    }

    /// <summary>Over several steps, with the first operand's low bits free or fixed, so that it counts up by one or not at all.</summary>
    [Theory]
    [InlineData("divisor >= 128 and dividend >= 128")]
    [InlineData("dividend >= 192")]
    [InlineData("4 * floor(dividend / 4) = dividend")]
    [InlineData("divisor < 64 and dividend < 250")]
    public void Are_stepped_along_as_they_are_written_out(string text)
    {
        var datapath = Machines.At("divide-shared-register", 8);
        var only = Formula(datapath, text);
        var stepped = CheckProgram.Of(datapath, null, OracleUse.Stepped, null, AskedCases.Of(datapath, only));
        var written = CheckProgram.Of(datapath, null, OracleUse.Written, null, AskedCases.Of(datapath, only));
        var all = new CaseSpace(datapath.Operands);
        var expected = new BigInteger[] { 0 };
        for (var step = 0L; step < all.Steps; step++)
        {
            expected[0] += Enumerable
                .Range(0, all.Lanes)
                .Select(lane => all.At(step, lane))
                .Count(o => !o[1].IsZero && ClaimJudge.IsSo(only, o));
        }
        Assert.Equal($"laws {expected[0]} cases, 0 failures", Runs.Line(stepped, Runs.Engines[0]).Split(';')[0]);
        Assert.All(
            Runs.Engines,
            engine => Assert.Equal(Runs.Line(written, Runs.Engines[0]), Runs.Line(stepped, engine))
        );
    }
}
