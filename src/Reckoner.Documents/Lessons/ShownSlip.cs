using Reckoner.Questions;
using Reckoner.Running;
using Reckoner.Slips;

namespace Reckoner.Documents.Lessons;

/// <summary>A slip that shows itself on the very operands of a walk.</summary>
/// <param name="Cycle">The first in which registers differ; as late as with any of those tried, since that is seen least.</param>
internal sealed record ShownSlip(string Name, int Cycle, Walk Walk)
{
    /// <summary>So many are tried: a machine of large tables has thousands, and those of its cells stand last.</summary>
    private const int Most = 60;

    /// <summary>Null where the walk is wrong itself, and where none changes the results.</summary>
    public static ShownSlip? Of(Walk walk) =>
        !walk.Holds
            ? null
            : Slip.Of(walk.Datapath.Machine)
                .Take(Most)
                .Select(slip => Shown(slip, walk))
                .OfType<ShownSlip>()
                .MaxBy(shown => shown.Cycle);

    private static ShownSlip? Shown(Slip slip, Walk right)
    {
        var widths = right.Datapath.Widths.ToDictionary(w => w.Name, w => w.Value);
        var machine = new AskedMachine(slip.Machine) { Widths = AskedWidths.Named(widths) };
        var operands = right.Datapath.Operands.Select(o => new AskedOperand(
            o.Name,
            $"{o.Number(right.Operands[o.Index])}"
        ));
        var wrong = new WalkQuestion(machine) { Operands = [.. operands], Anyway = true }
            .Ask()
            .Data;
        if (
            wrong is null
            || wrong.Results.SequenceEqual(right.Results)
            || wrong.Cycles != right.Cycles
            || wrong.Datapath.Registers.Count != right.Datapath.Registers.Count
        )
        {
            return null;
        }
        var parted = right
            .Rows.Zip(wrong.Rows)
            .FirstOrDefault(r => !r.First.Registers.SequenceEqual(r.Second.Registers));
        return new ShownSlip(slip.Name, parted.First?.Cycle ?? right.Cycles, wrong);
    }
}
