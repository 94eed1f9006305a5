using Reckoner.Costing;
using Reckoner.Structure;
using Reckoner.Words;

namespace Reckoner.Drawing;

/// <summary>
/// Marks in a still datapath what the longest path of each step leads through, with the time behind each block. A path goes from what
/// it has reached to something that takes just that; a choice before a register or unit, which a datapath shows as a bar or not at
/// all, is passed over.
/// </summary>
internal sealed class LongestPaths
{
    private readonly IReadOnlyList<Level> rows;

    /// <summary>The word that the path has reached.</summary>
    private Lane? now;

    private LongestPaths(IReadOnlyList<Level> rows) => this.rows = rows;

    /// <summary>The same rows, each step's last with how long it takes.</summary>
    public static IReadOnlyList<Level> Marked(IReadOnlyList<Level> levels, MachineCost cost, Vocabulary words)
    {
        var marked = levels.ToList();
        foreach (var path in cost.Paths)
        {
            if (path.Step is not { } step || levels.All(l => l.Step != step.Number))
            {
                continue;
            }
            new LongestPaths([.. levels.Where(l => l.Step == step.Number)]).Follow(path);
            var last = marked.FindLastIndex(l => l.Step == step.Number);
            string[] told = [.. marked[last].Notes, words.Say("figure.timing-step", ("delay", path.Delay))];
            marked[last] = marked[last] with { Notes = told };
        }
        return marked;
    }

    private void Follow(StepPath path)
    {
        foreach (var hop in path.Hops)
        {
            switch (hop.Kind)
            {
                case PathKind.Register:
                    Reach(rows[0].Before.FirstOrDefault(l => l.Register == hop.Register));
                    break;
                case PathKind.Last:
                    Reach(Taken.Select(t => t.Lane).FirstOrDefault(l => l.IsControl));
                    break;
                case PathKind.Unit:
                    Pass(hop, Blocks.Where(b => b.Unit is { } unit && unit == hop.Unit));
                    break;
                case PathKind.Lookup:
                    Pass(hop, Blocks.Where(b => b.Table is { } table && table == hop.Table));
                    break;
                case PathKind.And or PathKind.Or or PathKind.Xor or PathKind.Not or PathKind.Equal when hop.Delay > 0:
                    Pass(hop, Blocks.Where(b => b.Unit is null && b.Table is null && !b.Chooses));
                    break;
                case PathKind.Choice when hop.Delay > 0:
                    Pass(hop, Blocks.Where(b => b.Chooses));
                    break;
                case PathKind.RegisterInput:
                    Arrive(Arrivals.Where(a => a.Of.Register == hop.Register));
                    break;
            }
        }
    }

    private IEnumerable<Block> Blocks => rows.SelectMany(l => l.Blocks);

    private IEnumerable<(Arrival Of, Level Level)> Arrivals => rows.SelectMany(l => l.Arrivals.Select(a => (a, l)));

    private IEnumerable<Tap> Taken => Blocks.SelectMany(b => b.Taps).Concat(Arrivals.SelectMany(a => a.Of.Taps));

    private void Reach(Lane? lane)
    {
        now = lane;
        if (lane is not null)
        {
            lane.IsLate = true;
        }
    }

    private bool Takes(IEnumerable<Tap> taps) => taps.Any(t => t.Lane == now);

    private bool Takes(Arrival arrival) =>
        Takes(arrival.Taps) || arrival.Moves.Any(m => m.Lane is not null && m.Lane == now);

    /// <summary>Through the block that takes what was reached; gates on gates are one block, in which a path may stay.</summary>
    private void Pass(PathHop hop, IEnumerable<Block> blocks)
    {
        var all = blocks.ToList();
        var taking = all.Where(b => Takes(b.Taps)).ToList();
        var through =
            taking.Find(b => b.Line == hop.Line)
            ?? taking.FirstOrDefault()
            ?? (hop.Unit is null && hop.Table is null ? all.Find(b => now?.Maker == b) : all.FirstOrDefault());
        if (through is null)
        {
            // A choice that stands above the store, in a branch, is a bar; a gate that nothing shows is passed over.
            if (hop.Kind == PathKind.Choice)
            {
                Arrive(Arrivals.OrderBy(a => a.Of.Line != hop.Line));
            }

            return;
        }
        through.At = hop.At;
        var isSecond =
            hop is { Kind: PathKind.Unit, Output: UnitOutput.Carry or UnitOutput.Borrow or UnitOutput.CarryWord };
        Reach(isSecond ? through.Gives[0] : through.Gives[^1]);
    }

    /// <summary>Into what takes the word that was reached and stores it; a later moment takes it from there.</summary>
    private void Arrive(IEnumerable<(Arrival Of, Level Level)> arrivals)
    {
        if (arrivals.FirstOrDefault(a => !a.Of.IsLate && a.Of.HasBar && Takes(a.Of)) is { Of: { } arrival } found)
        {
            arrival.IsLate = true;
            Reach(found.Level.After.First(l => l.Register == arrival.Register));
        }
    }
}
