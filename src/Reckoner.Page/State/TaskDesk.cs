using System.Numerics;
using Reckoner.Classroom;
using Reckoner.Running;

namespace Reckoner.Page.State;

/// <summary>A task as a visitor works on it: their number, the sum that is on, the code in the end.</summary>
internal sealed class TaskDesk(AssignedSums task)
{
    private readonly List<SumDone> done = [];
    private IReadOnlyList<IReadOnlyList<BigInteger>> sums = [];

    public AssignedSums Task => task;

    /// <summary>As it counts; empty until one was typed that does.</summary>
    public string Number { get; private set; } = "";

    /// <summary>The sum that is on, from 1; 0 before the first.</summary>
    public int Sum => sums.Count == 0 ? 0 : Math.Min(done.Count + 1, sums.Count);

    /// <summary>Null until all sums are done.</summary>
    public string? Code => sums.Count > 0 && done.Count == sums.Count ? TaskCode.Of(task, Number, done) : null;

    /// <summary>What is wrong with a number that was typed; null where the first sum can begin.</summary>
    public string? Begin(string typed)
    {
        var number = AssignedSums.Plain(typed);
        if (number.Length == 0)
        {
            return "page.task-number-wrong";
        }
        if (task.For(number) is not { } found)
        {
            return "page.task-none";
        }
        (Number, sums) = (number, found);
        done.Clear();
        return null;
    }

    /// <summary>The sum that is on, to be worked out.</summary>
    public Practice Put() => new(Walk.Of(task.Datapath, sums[done.Count]), task.Assignment.Rules);

    /// <summary>Takes down how a sum went.</summary>
    public void Finish(SittingReport report, int cycles) => done.Add(SumDone.Of(report, cycles));
}
