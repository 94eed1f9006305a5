using System.Diagnostics;
using System.Numerics;
using Reckoner.Binding;
using Reckoner.Catalogue;
using Reckoner.Explaining;
using Reckoner.Marking;
using Reckoner.Numbers;
using Reckoner.Questions;

namespace Reckoner.Bench;

/// <summary>A thousand tables, marked with their causes: right ones, with a slip throughout, with a bit miscopied, with two bits.</summary>
internal static class MarkTable
{
    private const int Tables = 1000;

    public static void Print()
    {
        Console.WriteLine(
            "\nMarks: seconds of processor time for a thousand tables of each kind on one thread, warm\n"
        );
        foreach (var name in new[] { "divide-still-divisor", "multiply-booth", "root-restoring" })
        {
            var before = Process.GetCurrentProcess().TotalProcessorTime;
            var datapath = Machine.Read(MachineCatalogue.Find(name)!, MachineCatalogue.Find).At(8).Datapath!;
            var ways = Ways.Of(datapath, WhyQuestion.Others(datapath))!;
            Console.WriteLine($"    {name}, {ways.Right.MostCycles} rows; all ways made in {Since(before):0.00}");
            foreach (var kind in new[] { "right", "slip", "one bit", "two bits" })
            {
                _ = Marked(ways, kind);
                var from = Process.GetCurrentProcess().TotalProcessorTime;
                var lost = Marked(ways, kind);
                Console.WriteLine($"        {kind, -9} {Since(from), 6:0.000}   {lost} rows lost");
            }
        }
    }

    private static double Since(TimeSpan before) =>
        (Process.GetCurrentProcess().TotalProcessorTime - before).TotalSeconds;

    private static int Marked(Ways ways, string kind)
    {
        var (random, lost) = (new Generator(7), 0);
        for (var i = 0; i < Tables; i++)
        {
            var operands = ways.Samples[random.Below(ways.Samples.Count)];
            var right = ways.Right.Table(operands);
            var rows = kind == "slip" ? ways.Slips[random.Below(ways.Slips.Count)].Way.Table(operands) : right;
            var seen = new Seen(
                [.. rows.Select(r => new SeenRow(r & ways.Layout.Mask, ways.Layout.Mask))],
                [.. ways.Datapath.Results.Select(_ => (BigInteger?)null)]
            );
            for (
                var bit =
                    kind == "one bit" ? 1
                    : kind == "two bits" ? 2
                    : 0;
                bit > 0;
                bit--
            )
            {
                var at = 1 + random.Below(seen.Rows.Count - 1);
                var flipped = seen.Rows[at].Bits ^ (UInt128.One << random.Below(ways.Layout.Bits));
                seen = seen with { Rows = [.. seen.Rows.Select((r, j) => j == at ? r with { Bits = flipped } : r)] };
            }
            var form = TableForm.Whole(ways.Datapath, right.Count - 1);
            lost += TableMark
                .Of(ways, operands, seen, form, MarkScheme.FollowThrough, WhyQuestion.MostCauses)
                .Credit.Lost;
        }
        return lost;
    }
}
