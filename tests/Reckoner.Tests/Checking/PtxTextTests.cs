using System.Diagnostics;
using Reckoner.Checking;
using Xunit;

namespace Reckoner.Tests.Checking;

/// <summary>The text of kernels, as a graphics processor's driver is given it.</summary>
public sealed class PtxTextTests
{
    private static PtxKernel Kernel(string machine, int width, OracleUse use, int rowBits) =>
        PtxKernel.Of(CheckProgram.Of(Machines.Bound(Machines.Named(machine), ("n", width)), null, use), rowBits);

    /// <summary>Few enough lanes that some of a register are none.</summary>
    [Fact]
    public void A_kernel_of_one_step() =>
        Snapshot.Match(nameof(A_kernel_of_one_step), Kernel("divide-shared-register", 2, OracleUse.Written, 0).Text);

    /// <summary>With a state that is set at the beginning of a row and stepped along it.</summary>
    [Fact]
    public void A_kernel_of_rows() =>
        Snapshot.Match(nameof(A_kernel_of_rows), Kernel("multiply-booth", 7, OracleUse.Stepped, 1).Text);

    [Fact]
    public void Rows_are_as_long_as_leaves_every_thread_something_to_do()
    {
        int RowBits(int width, OracleUse use) =>
            PtxKernel
                .Of(CheckProgram.Of(Machines.Bound(Machines.Named("divide-shared-register"), ("n", width)), null, use))
                .RowBits;
        Assert.Equal(0, RowBits(8, OracleUse.Stepped));
        Assert.Equal(7, RowBits(16, OracleUse.Stepped));
        Assert.Equal(10, RowBits(20, OracleUse.Written));
    }

    /// <summary>Where an assembler for PTX is at hand, it takes one of rows with a state, for the first processor that it knows.</summary>
    [Fact]
    public void An_assembler_takes_it()
    {
        var text = Kernel("divide-shared-register", 16, OracleUse.Stepped, 7).Text;
        var file = Path.GetTempFileName();
        try
        {
            File.WriteAllText(file, text);
            // Each of them compiles a text for sm_50; what the oldest processor is depends on its age.
            var said = new[] { "sm_50", "sm_75", "sm_90" }.Select(target => Assembled(file, target)).ToList();
            Assert.SkipWhen(said.Contains(null), "not applicable: ptxas");
            Assert.True(said.Contains(""), string.Join("\n", said));
            File.WriteAllText(file, text.Replace("lop3.b32", "lop4.b32", StringComparison.Ordinal));
            Assert.NotEqual("", Assembled(file, "sm_90"));
        }
        finally
        {
            File.Delete(file);
        }
    }

    /// <summary>Nothing where it takes the text, else what it says; null where there is no assembler.</summary>
    private static string? Assembled(string file, string target)
    {
        try
        {
            using var assembler = Process.Start(
                new ProcessStartInfo("ptxas", [$"-arch={target}", file, "-o", "/dev/null"])
                {
                    RedirectStandardError = true,
                }
            )!;
            var said = assembler.StandardError.ReadToEnd();
            assembler.WaitForExit();
            return assembler.ExitCode == 0 ? "" : said;
        }
        catch (System.ComponentModel.Win32Exception)
        {
            return null;
        }
    }
}
