using Reckoner.Binding;
using Reckoner.Datapaths;
using Reckoner.Diagnostics;
using Reckoner.Notation;
using Reckoner.Reporting;
using Reckoner.Running;
using Reckoner.Structure;
using Reckoner.Timelines;
using Reckoner.Words;
using Xunit;

namespace Reckoner.Tests;

/// <summary>What must be true of every text, whatever it says.</summary>
internal sealed class FuzzCheck
{
    private const int DiagnosticsRead = 10;
    private const int LongestWalk = 200;
    private const int MostRegisterBits = 4096;

    private int accepted;
    private int walked;

    /// <summary>Texts that were accepted at one width or more, and those of them that were walked.</summary>
    public (int Accepted, int Walked) Counts => (accepted, walked);

    /// <summary>What is wrong with it at its own widths; nothing when it is accepted at some.</summary>
    public IReadOnlyList<string> Check(int seed, string text)
    {
        var random = new Random(seed);
        var machine = Machines.Of(text);
        var printed = Printer.Text(machine.Description);
        Datapath? taken = null;
        IReadOnlyList<string> errors = [];
        foreach (var width in new int?[] { null, 3, 6 })
        {
            var (datapath, found) = machine.At(width);
            Assert.True(datapath is not null || found.Any(d => d.Severity == Severity.Error), "refused without a word");
            taken = datapath ?? taken;
            if (width is null)
            {
                Read(found);
                errors = [.. Found.Errors(found)];
            }
        }
        if (taken is null)
        {
            return errors;
        }
        Interlocked.Increment(ref accepted);
        PrintsBack(machine, printed);
        Walks(taken, random);
        return [];
    }

    private static void Read(IReadOnlyList<Diagnostic> found)
    {
        foreach (var diagnostic in found)
        {
            var length = diagnostic.Source!.Text.Length;
            Assert.InRange(diagnostic.Span.Start, 0, length);
            Assert.InRange(diagnostic.Span.End, diagnostic.Span.Start, length);
        }
        Assert.NotNull(DiagnosticText.Of([.. found.Take(DiagnosticsRead)], Vocabulary.English, 80));
    }

    private static void PrintsBack(Machine machine, string printed)
    {
        var again = Parser.Read(new Source("again", printed)).Description;
        Assert.Equal(printed, Printer.Text(again));
        Assert.Equal(TreeText.Of(machine.Description), TreeText.Of(again));
        Assert.StartsWith("sha256:", machine.Hash);
    }

    private void Walks(Datapath datapath, Random random)
    {
        if (datapath.MostCycles > LongestWalk || datapath.Registers.Sum(r => r.Width) > MostRegisterBits)
        {
            return;
        }
        Interlocked.Increment(ref walked);
        var timeline = Timeline.Of(datapath);
        var structure = MachineStructure.Of(datapath);
        foreach (var operands in SampleOperands.Of(datapath, random).Take(3))
        {
            var walk = Walk.Of(datapath, operands);
            Agreement.Check(timeline, walk);
            Assert.True(
                StructureRun.IsTrue(structure, walk),
                $"{string.Join(' ', operands)}: run from its structure alone it does otherwise"
            );
        }
    }
}
