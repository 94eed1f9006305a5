using System.Globalization;
using Reckoner.Checking;
using Reckoner.Diagnostics;
using Reckoner.Questions;

namespace Reckoner.Engines;

/// <summary>Runs checks on threads, in code made for the widest vectors that are here or that were asked for.</summary>
public sealed class ThreadedRunner(EngineChoice choice, int threads) : ICheckRunner
{
    public int Threads => threads;

    public Diagnostic? Refusal =>
        choice.Engine is not null
            ? null
            : new Diagnostic(
                Id.OptionValue,
                null,
                default,
                [
                    ("option", EngineChoice.Variable),
                    ("value", choice.Asked!),
                    (
                        "known",
                        EngineChoice
                            .Widths.Where(EngineChoice.IsHere)
                            .Select(w => w.ToString(CultureInfo.InvariantCulture))
                            .ToList()
                    ),
                ]
            );

    public IPlaneEngine Engine(PlaneProgram program, long steps) =>
        choice.For(program, steps) ?? throw new InvalidOperationException("there is no engine of the width asked for");

    public Task<CoveredSteps> Run(
        CheckProgram program,
        long from,
        long to,
        Action<long>? covered,
        CancellationToken stop
    )
    {
        var engine = Engine(program.Program, to - from);
        var (reached, counts) = ParallelChecker.Run(program, engine, from, to, threads, covered, stop);
        return Task.FromResult(new CoveredSteps(reached, counts, engine.Name));
    }
}
