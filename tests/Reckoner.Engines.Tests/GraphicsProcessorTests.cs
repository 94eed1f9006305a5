using Reckoner.Catalogue;
using Reckoner.Checking;
using Reckoner.Datapaths;
using Reckoner.Slips;
using Xunit;

namespace Reckoner.Engines.Tests;

/// <summary>The same kernels on a real graphics processor, where there is one.</summary>
public sealed class GraphicsProcessorTests
{
    private const int Widest = 8;

    /// <summary>More operands than that are left to the command.</summary>
    private const int MostBits = 24;

    private static readonly Lazy<IReadOnlyList<GraphicsProcessor>> Here = new(GraphicsProcessor.All);

    private static GraphicsProcessor One()
    {
        Assert.SkipWhen(Here.Value.Count == 0, "not applicable: a graphics processor");
        return Here.Value[0];
    }

    private static string Line(CheckProgram check, GraphicsProcessor processor)
    {
        var kernel = PtxKernel.Of(check);
        using var made = processor.Load(kernel);
        var (to, counts, trouble) = GraphicsCheck.Run(
            check,
            kernel,
            [made],
            0,
            check.Space.Steps,
            null,
            TestContext.Current.CancellationToken
        );
        Assert.Null(trouble);
        Assert.Equal(check.Space.Steps, to);
        return Machines.Line(counts);
    }

    private static string Expected(CheckProgram check) =>
        Machines.Line(
            ParallelChecker
                .Run(check, InterpretedEngine.Widest, 0, check.Space.Steps, Environment.ProcessorCount)
                .Counts
        );

    [Fact]
    public void It_counts_for_every_machine_what_other_engines_count()
    {
        var processor = One();
        foreach (var name in MachineCatalogue.Names)
        {
            Datapath?[] widths = [.. new[] { 10, 16, MostBits }.Select(bits => Machines.Within(name, bits))];
            foreach (var datapath in widths.OfType<Datapath>().DistinctBy(d => string.Join(',', d.Widths)))
            {
                var check = CheckProgram.Of(datapath, CheckProgram.Followed(datapath), OracleUse.Stepped);
                Assert.Equal((name, Expected(check)), (name, Line(check, processor)));
            }
        }
    }

    [Fact]
    public void It_counts_so_for_every_slip_of_three_machines()
    {
        var processor = One();
        foreach (var datapath in EngineSelfTests.Tried.Select(t => Machines.At(t.Data, Widest)))
        {
            var slipped = Slip.Of(datapath.Machine)
                .Select(s => s.Machine.At(Widest).Datapath)
                .OfType<Datapath>()
                .ToList();
            Assert.True(slipped.Count > 10);
            foreach (var machine in slipped)
            {
                var check = CheckProgram.Of(machine, null, OracleUse.Stepped);
                Assert.Equal((machine.Machine.Slip, Expected(check)), (machine.Machine.Slip, Line(check, processor)));
            }
        }
    }

    [Fact]
    public void It_gets_every_lookup_right()
    {
        using var kernel = One().Load(LookupTrial.Kernel);
        var (counts, marks) = kernel.Run(0, LookupTrial.Kernel.Space.Steps);
        Assert.True(LookupTrial.IsRight(counts, marks));
    }

    [Fact]
    public void A_text_that_it_cannot_compile_is_told()
    {
        var name = One().Name;
        var driver = GraphicsDriver.Find()!;
        driver.Enter(name, driver.Context(name, driver.Device(0)));
        Assert.Throws<GraphicsException>(() => driver.Module(name, "nonsense"));
    }
}
