using Reckoner.Checking;
using Xunit;

namespace Reckoner.Engines.Tests;

/// <summary>
/// Checks as kernels for graphics processors. Their text is executed here, instruction by instruction, so that what is compared is
/// what such a processor is given.
/// </summary>
public sealed class GraphicsTests
{
    /// <summary>The first that leaves a machine a width.</summary>
    private static readonly int[] Bits = [8, 10];

    public static IEnumerable<TheoryDataRow<string>> Names => CatalogueTests.Names;

    public static TheoryData<string> Tried => EngineSelfTests.Tried;

    private static string Line(CheckProgram check, int rowBits, long from, long to, params PtxProcessor[] processors)
    {
        var kernel = PtxKernel.Of(check, rowBits);
        var made = processors.Select(p => p.Load(kernel)).ToList();
        var (reached, counts, trouble) = GraphicsCheck.Run(check, kernel, made, from, to, null, CancellationToken.None);
        Assert.Null(trouble);
        Assert.Equal(to, reached);
        return Machines.Line(counts);
    }

    [Theory]
    [MemberData(nameof(Names))]
    public void Kernels_count_what_walking_every_operand_counts(string name)
    {
        var datapath = Bits.Select(most => Machines.Within(name, most)).FirstOrDefault(d => d is not null);
        Assert.NotNull(datapath);
        var walked = Machines.Line(Machines.Walked(datapath));
        foreach (var use in Enum.GetValues<OracleUse>())
        {
            var check = CheckProgram.Of(datapath, null, use);
            Assert.Equal(walked, Line(check, 0, 0, check.Space.Steps, new PtxProcessor()));
        }
    }

    /// <summary>From anywhere to anywhere, in rows of any length: an expectation begins where a row or the stretch does.</summary>
    [Theory]
    [InlineData("divide-shared-register", 7)]
    [InlineData("multiply-booth", 7)]
    [InlineData("multiply-high-signed-unsigned", 7)]
    [InlineData("divide-double-length", 5)]
    public void Stretches_and_rows_of_any_length_count_the_same(string name, int width) => CountTheSame(name, width);

    [Theory]
    [Trait("Length", "long")]
    [InlineData("divide-srt-radix-4", 8)]
    public void So_they_do_where_digits_are_looked_up(string name, int width) => CountTheSame(name, width);

    private static void CountTheSame(string name, int width)
    {
        var datapath = Machines.At(name, width);
        var stepped = CheckProgram.Of(datapath, null, OracleUse.Stepped);
        var written = CheckProgram.Of(datapath, null, OracleUse.Written);
        var steps = stepped.Space.Steps;
        Assert.True(steps > 2);
        foreach (var (from, to) in new[] { (0L, steps), (1, steps - 1), (steps / 2, steps), (steps - 1, steps) })
        {
            var expected = Machines.Line(Runs.Counts(written, Runs.Engines[0], from, to));
            for (var rowBits = 0; 1L << rowBits <= Math.Min(8, stepped.Space.StepsInARow); rowBits++)
            {
                Assert.Equal(expected, Line(stepped, rowBits, from, to, new PtxProcessor()));
                Assert.Equal(expected, Line(written, rowBits, from, to, new PtxProcessor()));
            }
        }
    }

    [Theory]
    [MemberData(nameof(Tried))]
    public void Kernels_judge_faults_as_other_engines_do(string machine)
    {
        const int OneOf = 7;
        var check = CheckProgram.Of(Machines.At(machine, 4), null, OracleUse.Stepped);
        var faulty = Faults.Of(check).Where((_, i) => i % OneOf == 0).ToList();
        Assert.True(faulty.Count > 20);
        Assert.All(
            faulty,
            f => Assert.Equal(Runs.Line(f, Runs.Engines[0]), Line(f, 0, 0, f.Space.Steps, new PtxProcessor()))
        );
    }

    /// <summary>Nothing is written that was not executed here: with fewer lanes than a register has bits, with turned outputs, with rows.</summary>
    [Fact]
    public void Every_kind_of_instruction_has_been_executed()
    {
        var processor = new PtxProcessor();
        foreach (var (name, width) in new[] { ("divide-shared-register", 2), ("multiply-booth", 7) })
        {
            var check = CheckProgram.Of(Machines.At(name, width), null, OracleUse.Stepped);
            var failing = Faults.Of(check).First();
            Line(failing, check.Space.Steps > 1 ? 1 : 0, 0, check.Space.Steps, processor);
        }
        var known = new HashSet<string>(
            (
                "add.u32 add.u64 and.b32 bra cvt.u32.u64 cvt.u64.u32 ld.param.u64 lop3.b32 mad.lo.u32 max.u64 min.u64 "
                + "mov.b32 mov.u32 mul.wide.u32 not.b32 popc.b32 red.global.add.u64 ret setp.ge.u64 setp.ne.u32 "
                + "shl.b32 shl.b64 shr.s32 shr.u32 shr.u64 st.global.u8"
            ).Split(' ')
        );
        Assert.Equal(known.Order(), processor.Executed.Order());
    }

    [Fact]
    public void Every_lookup_is_tried_before_a_processor_is_believed()
    {
        var kernel = new PtxProcessor().Load(LookupTrial.Kernel);
        var (counts, marks) = kernel.Run(0, LookupTrial.Kernel.Space.Steps);
        Assert.True(LookupTrial.IsRight(counts, marks));
    }

    /// <summary>One lookup of the trial written with another function: every one of the 256, each row of each.</summary>
    [Fact]
    public void A_lookup_that_is_written_as_another_is_caught()
    {
        for (var function = 0; function < 256; function++)
        {
            var row = function % 8;
            var taken = function ^ (1 << row);
            var processor = new PtxProcessor
            {
                Changed = text =>
                {
                    var changed = text.Replace($", 0x{function:X2};", $", 0x{taken:X2};", StringComparison.Ordinal);
                    Assert.NotEqual(text, changed);
                    return changed;
                },
            };
            var (counts, marks) = processor.Load(LookupTrial.Kernel).Run(0, LookupTrial.Kernel.Space.Steps);
            Assert.False(LookupTrial.IsRight(counts, marks), $"{function:X2} written as {taken:X2}");
        }
    }
}
