using Reckoner.Datapaths;
using Reckoner.Diagnostics;
using Reckoner.Running;

namespace Reckoner.Questions;

/// <summary>How do machines stand beside each other: what they are built of, and what happens to the same operands in each?</summary>
internal sealed record CompareQuestion(IReadOnlyList<AskedMachine> Machines)
{
    private const int Fewest = 2;
    private const int Most = 5;

    /// <summary>Operands for all of them; none where only the hardware is compared.</summary>
    public IReadOnlyList<AskedOperand> Operands { get; init; } = [];

    /// <summary>Whether operands are walked that a machine is not for; else they are refused.</summary>
    public bool Anyway { get; init; }

    public Answer<Compared> Ask()
    {
        var found = new Findings();
        if (Count(Machines.Count, "compare") is { } count)
        {
            found.AddRange([count]);
            return found.Refused<Compared>();
        }
        var datapaths = new List<Datapath>();
        foreach (var machine in Machines)
        {
            if (machine.Bound(datapaths.Count, found) is not { } datapath)
            {
                return found.Refused<Compared>();
            }
            datapaths.Add(datapath);
        }
        var walks = new List<Walk>();
        foreach (var datapath in Operands.Count > 0 ? datapaths : [])
        {
            var question = new WalkQuestion(datapath) { Operands = Operands, Anyway = Anyway };
            if (question.Walked(datapath, found) is not { } walk)
            {
                return found.Refused<Compared>();
            }
            walks.Add(walk);
        }
        return found.Given(new Compared(datapaths, walks));
    }

    /// <summary>What is wrong with so many machines; null where that many are compared.</summary>
    /// <param name="asked">The verb that was used, for the sentence.</param>
    public static Finding? Count(int machines, string asked, int fewest = Fewest) =>
        machines >= fewest && machines <= Most
            ? null
            : new Finding(
                new Diagnostic(
                    Id.MachineCount,
                    null,
                    default,
                    [("verb", asked), ("low", fewest), ("high", Most), ("found", machines)]
                ),
                machines > Most ? AskedPart.Machine : AskedPart.Whole,
                machines > Most ? Most : 0
            );
}

/// <summary>Machines side by side, in the order in which they were named.</summary>
/// <param name="Walks">One for each machine, or none where no operands were given.</param>
public sealed record Compared(IReadOnlyList<Datapath> Datapaths, IReadOnlyList<Walk> Walks)
{
    /// <summary>Whether every law holds in every walk.</summary>
    public bool Holds => Walks.All(w => w.Holds);
}
