using System.Diagnostics;
using System.Numerics;
using System.Text;
using Reckoner.Binding;
using Reckoner.Catalogue;
using Reckoner.Documents;
using Reckoner.Drawing;
using Reckoner.Running;
using Reckoner.Words;

namespace Reckoner.Bench;

/// <summary>Figures in this process, from a walk to the file's content: milliseconds of processor time and size.</summary>
internal static class FigureTable
{
    private const int Rounds = 20;

    public static void Print()
    {
        Console.WriteLine($"\nFigures in process, n = 32: the least and the median of {Rounds}, after warming up\n");
        var machine = Machine.Read(MachineCatalogue.Find("divide-still-divisor")!, MachineCatalogue.Find);
        var datapath = machine.At(32).Datapath!;
        IReadOnlyList<BigInteger> operands = [new BigInteger(3_000_000_000), new BigInteger(7)];
        var figure = Figure.Of(Walk.Traced(datapath, operands), Vocabulary.English);
        Line(
            "walk and weave, SVG",
            () => Svg(Weave.Of(Figure.Of(Walk.Traced(datapath, operands), Vocabulary.English)))
        );
        Line("weave, 33 cycles, SVG", () => Svg(Weave.Of(figure)));
        Line("weave, 33 cycles, PNG", () => PngWriter.Write(Weave.Of(figure), Palette.Light));
        Line("weave, 33 cycles, PDF", () => PdfWriter.Write([Weave.Of(figure)], Palette.Light));
        Line("datapath, cycle 16, SVG", () => Svg(DatapathView.Of(figure with { From = 16, To = 16, Until = 16 })[0]));
        Line("paper, SVG", () => Svg(PaperView.Of(figure)));
        Outside(Svg(Weave.Of(figure)));
    }

    /// <summary>The same weave from its SVG to a PNG of as many pixels by librsvg's program, start and all, on the clock.</summary>
    private static void Outside(byte[] svg)
    {
        var place = Directory.CreateTempSubdirectory("reckoner-bench").FullName;
        var (from, to) = (Path.Combine(place, "weave.svg"), Path.Combine(place, "weave.png"));
        File.WriteAllBytes(from, svg);
        var times = new List<double>();
        for (var i = 0; i < Rounds; i++)
        {
            var watch = Stopwatch.StartNew();
            using var process = Process.Start("rsvg-convert", ["-z", $"{PngWriter.Fine:0}", "-o", to, from]);
            process.WaitForExit();
            times.Add(watch.Elapsed.TotalMilliseconds);
        }
        times.Sort();
        var size = new FileInfo(to).Length;
        Directory.Delete(place, recursive: true);
        Console.WriteLine(
            $"    {"rsvg-convert, the weave", -28} {times[0], 7:0.0} ms {times[Rounds / 2], 7:0.0} ms {size / 1000, 5} KB"
        );
    }

    private static byte[] Svg(Scene scene) => Encoding.UTF8.GetBytes(SvgWriter.Write(scene, Palette.Light));

    private static void Line(string what, Func<byte[]> draw)
    {
        var size = 0;
        for (var i = 0; i < Rounds; i++)
        {
            size = draw().Length;
        }
        var times = Enumerable.Range(0, Rounds).Select(_ => Milliseconds(draw)).Order().ToList();
        Console.WriteLine($"    {what, -28} {times[0], 7:0.0} ms {times[Rounds / 2], 7:0.0} ms {size / 1000, 5} KB");
    }

    private static double Milliseconds(Func<byte[]> draw)
    {
        using var process = Process.GetCurrentProcess();
        var before = process.TotalProcessorTime;
        draw();
        process.Refresh();
        return (process.TotalProcessorTime - before).TotalMilliseconds;
    }
}
