using System.Collections.Concurrent;
using Reckoner.Checking;
using Reckoner.Diagnostics;
using Reckoner.Questions;

namespace Reckoner.Engines;

/// <summary>Runs checks on the graphics processors of this machine, and what they are not for on others.</summary>
public sealed class GraphicsRunner : ICheckRunner
{
    /// <summary>Steps times gates below which other processors are done in about the time that it takes to begin, each.</summary>
    private const long WorthBeginning = 1 << 29;

    /// <summary>How much more is tried at once than on other processors, as a power of two: some minutes too
    /// on a large one, the only kind that was measured (bench/README.md); longer on others.</summary>
    private const int MoreBits = 9;

    private readonly ICheckRunner others;
    private readonly bool isAsked;
    private readonly Lazy<Task<Found>> search;
    private (CheckProgram Check, Task<Made> Making)? ready;

    /// <summary>Why they are not asked any more, unless nothing else may be.</summary>
    private Diagnostic? failure;

    /// <summary>How many steps of a check others did in their place since.</summary>
    private (CheckProgram? Check, long Steps) handedOver;

    /// <summary>Those that get every lookup right; the trouble with the first that does not.</summary>
    private sealed record Found(IReadOnlyList<IGraphicsProcessor> All, Diagnostic? Trouble);

    /// <summary>The gates of a check made ready for each processor.</summary>
    private sealed record Made(PtxKernel Kernel, IReadOnlyList<IGraphicsKernel> Kernels);

    /// <param name="others">Runs what is too short, or where no graphics processor is of use.</param>
    /// <param name="isAsked">Whether graphics processors were asked for, so that nothing else may be taken instead.</param>
    public GraphicsRunner(ICheckRunner others, bool isAsked)
        : this(others, isAsked, GraphicsProcessor.All) { }

    internal GraphicsRunner(ICheckRunner others, bool isAsked, Func<IReadOnlyList<IGraphicsProcessor>> find)
    {
        this.others = others;
        this.isAsked = isAsked;
        search = new(() => DriverWork.Begin(() => Tried(find())));
        if (isAsked)
        {
            Prepare();
        }
    }

    /// <summary>To find a driver and try its processors takes longer than to make the gates of most checks.</summary>
    public void Prepare() => _ = search.Value;

    private Found Processors => search.Value.GetAwaiter().GetResult();

    private static Found Tried(IReadOnlyList<IGraphicsProcessor> found)
    {
        var troubles = Each(found, Trial);
        return new(
            [.. found.Zip(troubles).Where(tried => tried.Second is null).Select(tried => tried.First)],
            troubles.OfType<Diagnostic>().FirstOrDefault()
        );
    }

    /// <summary>Null where it gets every lookup right.</summary>
    private static Diagnostic? Trial(IGraphicsProcessor processor)
    {
        try
        {
            using var kernel = processor.Load(LookupTrial.Kernel);
            var (counts, marks) = kernel.Run(0, LookupTrial.Kernel.Space.Steps);
            return LookupTrial.IsRight(counts, marks)
                ? null
                : throw new GraphicsException(processor.Name, new Term("graphics.wrong"));
        }
        catch (GraphicsException e)
        {
            return e.Diagnostic;
        }
    }

    /// <summary>The same with each of several processors, all at the same time: compiling for them is work for the cores.</summary>
    private static T[] Each<T>(IReadOnlyList<IGraphicsProcessor> all, Func<IGraphicsProcessor, T> done) =>
        all is [var alone]
            ? [done(alone)]
            : Task.WhenAll(all.Select(p => Task.Run(() => done(p)))).GetAwaiter().GetResult();

    public int Threads => others.Threads;

    public Diagnostic? Refusal =>
        others.Refusal
        ?? (
            !isAsked || Processors.All.Count > 0
                ? null
                : Processors.Trouble ?? new Diagnostic(Id.NoGraphicsProcessor, null, default, [])
        );

    public Diagnostic? RefusalOfWords => isAsked ? new Diagnostic(Id.GraphicsNeedsGates, null, default, []) : null;

    public IPlaneEngine Engine(PlaneProgram program, long steps) => others.Engine(program, steps);

    public int ReachBits => IsOfUse ? MoreBits : 0;

    public int GraphicsProcessors => IsOfUse ? Processors.All.Count : 0;

    private bool IsOfUse => failure is null && Processors.All.Count > 0;

    /// <summary>Of what runs it; without a name where it was stopped before any was known.</summary>
    private string Name =>
        !search.Value.IsCompletedSuccessfully ? "graphics processor"
        : Processors.All is [var alone] ? $"graphics processor, {alone.Name}"
        : $"{Processors.All.Count} graphics processors, {Processors.All[0].Name}";

    public async Task<CoveredSteps> Run(
        CheckProgram program,
        long from,
        long to,
        Action<long>? covered,
        CancellationToken stop
    )
    {
        if (!isAsked && (failure is not null || !IsWorthBeginning(program, to - from)))
        {
            return await Elsewhere(program, from, to, covered, stop);
        }
        try
        {
            if ((await search.Value.WaitAsync(stop)).All.Count == 0)
            {
                return await Elsewhere(program, from, to, covered, stop);
            }
            var (kernel, made) = await Ready(program, from, to, stop);
            var (reached, counts, trouble) = GraphicsCheck.Run(program, kernel, made, from, to, covered, stop);
            return new CoveredSteps(reached, counts, Name) { Trouble = trouble };
        }
        catch (OperationCanceledException) when (stop.IsCancellationRequested)
        {
            return new CoveredSteps(from, CheckRun.Nothing(program), Name);
        }
        catch (GraphicsException e)
        {
            failure = e.Diagnostic;
            return isAsked ? Failed(program, from, failure) : await Elsewhere(program, from, to, covered, stop);
        }
    }

    /// <summary>More was let through for graphics processors alone: of that others do no more than they are asked for themselves.</summary>
    private async Task<CoveredSteps> Elsewhere(
        CheckProgram program,
        long from,
        long to,
        Action<long>? covered,
        CancellationToken stop
    )
    {
        if (failure is null)
        {
            return await others.Run(program, from, to, covered, stop);
        }
        handedOver = (program, (handedOver.Check == program ? handedOver.Steps : 0) + to - from);
        return IsWithinReach(program, handedOver.Steps)
            ? await others.Run(program, from, to, covered, stop)
            : Failed(program, from, failure);
    }

    private CoveredSteps Failed(CheckProgram program, long from, Diagnostic reason) =>
        new(from, CheckRun.Nothing(program), Name) { Trouble = reason };

    /// <summary>Whether other processors would be asked for so much too: more was let through for these alone.</summary>
    private static bool IsWithinReach(CheckProgram program, long steps) =>
        Budget.Usual.Has(steps, program.Space.Lanes, program.Program.Instructions.Count);

    private bool IsWorthBeginning(CheckProgram program, long steps) =>
        (Int128)steps * program.Program.Instructions.Count >= (Int128)WorthBeginning * Threads;

    /// <summary>
    /// Compiled once for a program, and compared with what is counted here. To compile may take a second and more: whoever is told
    /// to stop does not wait for it.
    /// </summary>
    private async Task<Made> Ready(CheckProgram program, long from, long to, CancellationToken stop)
    {
        if (ready is { } known && known.Check != program)
        {
            // A processor is asked by one thread at a time.
            await Task.WhenAny(known.Making).WaitAsync(stop);
            GiveBack(known.Making);
            ready = null;
        }
        ready ??= (program, DriverWork.Begin(() => Make(program, from, to)));
        return await ready.Value.Making.WaitAsync(stop);
    }

    private static void GiveBack(Task<Made> making)
    {
        if (!making.IsCompletedSuccessfully)
        {
            return;
        }
        foreach (var kernel in making.Result.Kernels)
        {
            kernel.Dispose();
        }
    }

    private Made Make(CheckProgram program, long from, long to)
    {
        var kernel = PtxKernel.Of(program);
        var made = new ConcurrentBag<IGraphicsKernel>();
        try
        {
            return new(kernel, Each(Processors.All, Compared));
        }
        catch
        {
            foreach (var kernelOfOne in made)
            {
                kernelOfOne.Dispose();
            }
            throw;
        }

        IGraphicsKernel Compared(IGraphicsProcessor processor)
        {
            var kernelOfOne = processor.Load(kernel);
            made.Add(kernelOfOne);
            return GraphicsCheck.Agrees(program, kernelOfOne, from, to)
                ? kernelOfOne
                : throw new GraphicsException(processor.Name, new Term("graphics.wrong"));
        }
    }

    public double? StepsASecond(CheckProgram program, Func<TimeSpan> clock, CancellationToken stop)
    {
        if (!IsOfUse)
        {
            return null;
        }
        try
        {
            var most = program.Space.Steps;
            var (kernel, made) = Ready(program, 0, most, stop).GetAwaiter().GetResult();
            for (var steps = Math.Min(most, 1L << kernel.RowBits); ; steps = Math.Min(most, 2 * steps))
            {
                var began = clock();
                var (done, _, _) = GraphicsCheck.Run(program, kernel, made, 0, steps, null, stop);
                var seconds = (clock() - began).TotalSeconds;
                if (seconds > 0.2 || steps == most || done < steps || steps > 1L << 50)
                {
                    return done / Math.Max(seconds, 1e-9);
                }
            }
        }
        catch (OperationCanceledException) when (stop.IsCancellationRequested)
        {
            return null;
        }
        catch (GraphicsException e)
        {
            // Then nothing is in its reach, and no estimate says that it is one on it.
            failure = e.Diagnostic;
            return null;
        }
    }
}
