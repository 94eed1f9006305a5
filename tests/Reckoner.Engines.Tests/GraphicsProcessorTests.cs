using Reckoner.Binding;
using Reckoner.Catalogue;
using Reckoner.Checking;
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
        Machines.Line(ParallelChecker.Run(check, InterpretedEngine.Widest, 0, check.Space.Steps, 1).Counts);

    /// <summary>Of each the gates are made, the kernel compiled and all operands tried twice, on as many cores as there are.</summary>
    private static void Same(IReadOnlyList<(string Name, Func<CheckProgram> Make)> asked)
    {
        One();
        // A processor is asked by one thread at a time: each has it as one of its own.
        Parallel.ForEach(
            asked,
            () => GraphicsProcessor.All()[0],
            (one, _, processor) =>
            {
                var check = one.Make();
                Assert.Equal((one.Name, Expected(check)), (one.Name, Line(check, processor)));
                return processor;
            },
            _ => { }
        );
    }

    [Fact]
    public void It_counts_for_every_machine_at_every_narrow_width_what_other_engines_count()
    {
        One();
        List<(string, Func<CheckProgram>)> asked = [];
        foreach (var name in MachineCatalogue.Names)
        {
            var machine = Machine.Read(MachineCatalogue.Find(name)!, MachineCatalogue.Find);
            for (var width = 1; width <= Widest; width++)
            {
                if (machine.At(width).Datapath is { } datapath && datapath.Operands.Sum(o => o.Width) <= MostBits)
                {
                    asked.Add(
                        (
                            $"{name} {width}",
                            () => CheckProgram.Of(datapath, CheckProgram.Followed(datapath), OracleUse.Stepped)
                        )
                    );
                }
            }
        }
        Assert.True(asked.Count > MachineCatalogue.Names.Count());
        Same(asked);
    }

    [Fact]
    public void It_counts_so_for_every_slip_of_three_machines()
    {
        One();
        List<(string, Func<CheckProgram>)> asked =
        [
            .. from machine in EngineSelfTests.Tried
            from slip in Slip.Of(Machines.At(machine.Data, Widest).Machine)
            let datapath = slip.Machine.At(Widest).Datapath
            where datapath is not null
            select (
                $"{machine.Data} {slip.Name}",
                (Func<CheckProgram>)(() => CheckProgram.Of(datapath, null, OracleUse.Stepped))
            ),
        ];
        Assert.True(asked.Count > 30);
        Same(asked);
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
