using Reckoner.Checking;
using Reckoner.Timelines;

namespace Reckoner.Choosing;

/// <summary>
/// The carries and borrows of every case: what runs from one place of a sum or difference to the next in the adders' work that a
/// walk tells. A sum whose lowest two places both carry has a run of two.
/// </summary>
internal sealed class CarryTables
{
    private CarryTables(int cases)
    {
        Longest = new int[cases];
        Sum = new int[cases];
    }

    /// <summary>The longest run of a case, in places.</summary>
    public int[] Longest { get; }

    /// <summary>All places that give a carry or borrow, over all cycles.</summary>
    public int[] Sum { get; }

    public static CarryTables Of(Candidates candidates)
    {
        var found = new CarryTables(candidates.Table.Size);
        var gates = candidates.Gates;
        var adders = gates
            .Timeline.Edges.SelectMany((e, i) => e.Sums.Select(s => Carries(gates, gates.Active[i], s)))
            .Concat(gates.Timeline.LoadSums.Select(s => Carries(gates, GateGraph.One, s)))
            .ToList();
        if (adders.Count == 0)
        {
            return found;
        }
        var tables = candidates.Ask([.. adders.SelectMany(a => a)]);
        var runs = new int[candidates.Table.Size];
        var at = 0;
        foreach (var adder in adders)
        {
            Array.Clear(runs);
            for (var place = 0; place < adder.Length; place++)
            {
                found.Count(tables[at++], runs);
            }
        }
        return found;
    }

    /// <summary>The widest adder's width; 0 where there is none.</summary>
    public static int Widest(Candidates candidates)
    {
        var timeline = candidates.Gates.Timeline;
        var sums = timeline.Edges.SelectMany(e => e.Sums).Concat(timeline.LoadSums);
        return sums.Select(s => timeline.Graph.Width(s.Right)).DefaultIfEmpty().Max();
    }

    private void Count(ulong[] carries, int[] runs)
    {
        for (var i = 0; i < runs.Length; i++)
        {
            if (((carries[i >> 6] >> (i & 63)) & 1) == 0)
            {
                runs[i] = 0;
                continue;
            }
            Sum[i]++;
            Longest[i] = Math.Max(Longest[i], ++runs[i]);
        }
    }

    /// <summary>A literal for every place, the lowest first: whether it gives a carry, and the work is done.</summary>
    private static int[] Carries(MachineGates gates, int active, SummedWord sum)
    {
        var graph = gates.Graph;
        var right = gates.Planes[sum.Right];
        var left = sum.Left is { } word ? gates.Planes[word] : Planes.Constant(0, right.Length);
        var result = gates.Planes[sum.Word];
        var isDone = graph.And(active, gates.Planes[sum.Path][0]);
        return
        [
            .. right.Select(
                (b, i) =>
                {
                    // What came in is what makes the place's result differ from its own two bits.
                    var came = graph.Xor(result[i], graph.Xor(left[i], b));
                    var a = sum.Subtracts ? GateGraph.Not(left[i]) : left[i];
                    return graph.And(isDone, graph.Majority(a, b, came));
                }
            ),
        ];
    }
}
