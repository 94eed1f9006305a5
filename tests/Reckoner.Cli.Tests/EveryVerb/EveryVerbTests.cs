using System.Collections.Concurrent;
using System.Diagnostics;
using System.Globalization;
using Reckoner.Tests;
using Xunit;

namespace Reckoner.Cli.Tests;

/// <summary>
/// Every verb in every form, with every option and view, over machines drawn by lot: none ends but as the handbook says, and what
/// it writes can be read by others.
/// </summary>
public class EveryVerbTests
{
    /// <summary>In the quick run every combination is asked so often, each time of another machine.</summary>
    internal const int Each = 5;

    /// <summary>One that was refused every time is asked so often more, until it is not.</summary>
    private const int More = 40;

    /// <summary>
    /// The long run ends with the last machine, or after so many hours: on two busy cores 120 machines took 82 minutes with 181 combinations
    /// each, so in proportion these take some five hours with the combinations of today.
    /// </summary>
    internal const int Machines = 320;
    internal const double Hours = 5;

    /// <summary>Seconds are usual; what has not ended by then hangs, also on a machine that does much else at a time.</summary>
    internal static readonly TimeSpan Bound = TimeSpan.FromMinutes(5);

    private readonly ConcurrentDictionary<(Combination Asked, int Status), int> ended = new();

    public EveryVerbTests() => WorkFolder.Enter();

    /// <summary>A verb, form, option or view that is added to its table is among the combinations; what it needs must be said.</summary>
    [Fact]
    public void Every_verb_form_option_and_view_takes_part()
    {
        Assert.Equal(Verb.All, Combination.All.Select(c => c.Verb).Distinct());
        Assert.Equal(
            Verb.All.SelectMany(v => v.Formats.Select(f => (v, f))),
            Combination.All.Where(c => c.Format is not null).Select(c => (c.Verb, c.Format!))
        );
        Assert.Equal(
            Verb.All.SelectMany(v => v.Options).Where(o => o != Option.Format).ToHashSet(),
            Combination.All.Select(c => c.Option).OfType<Option>().ToHashSet()
        );
        Assert.Equal(Drawing.View.All, Combination.All.Select(c => c.View).OfType<Drawing.View>().Distinct());
        Assert.Equal(
            FigureForm.All.Select(f => f.Ending),
            Combination.All.Select(c => c.Ending).OfType<string>().Distinct()
        );
    }

    [Fact]
    public void Every_combination_ends_as_it_should_for_machines_drawn_by_lot()
    {
        var seed = Seeds.Next();
        using var told = new Told(() => Tell(seed));
        new Watch(
            one => $"{CombinationOf(one)}\n{RandomMachine.SmallOf(one).Whole}",
            (one, _) => Try(CombinationOf(one), one, RandomMachine.SmallOf(one))
        )
        {
            Forever = Bound,
        }.Run(seed, Each * Combination.All.Count);
        Assert.All(Combination.All, c => Assert.Equal(Each, Times(c)));
        // Refusals alone would say little; only the page may be missing where it was not built.
        Assert.All(
            Combination.All.Where(c => IsAboutMachines(c) && !Listens(c)),
            c => Assert.True(IsAnswered(c, seed), $"{c} is always refused")
        );
    }

    private bool IsAnswered(Combination asked, int seed)
    {
        for (var more = 0; more < More && Times(asked, Exit.Done, Exit.DoesNotHold) == 0; more++)
        {
            Try(asked, seed - 1 - more, RandomMachine.SmallOf(seed - 1 - more));
        }
        return Times(asked, Exit.Done, Exit.DoesNotHold) > 0;
    }

    [Fact]
    [Trait("Length", "long")]
    public void Every_machine_goes_through_all_combinations()
    {
        var seed = Seeds.Next();
        var clock = Stopwatch.StartNew();
        var machines = 0;
        new Watch(
            one => RandomMachine.Of(one).Whole,
            (one, _) =>
            {
                if (clock.Elapsed.TotalHours < Chosen("RECKONER_HOURS", Hours))
                {
                    Interlocked.Increment(ref machines);
                    foreach (var combination in Combination.All)
                    {
                        Try(combination, one, RandomMachine.Of(one));
                    }
                }
            }
        )
        {
            Forever = Bound * Combination.All.Count,
        }.Run(seed, (int)Chosen("RECKONER_MACHINES", Machines));
        TestContext.Current.TestOutputHelper!.WriteLine(
            $"{machines} machines in {clock.Elapsed.TotalMinutes:0} minutes"
        );
        Tell(seed);
    }

    /// <summary>Says what was done also where something is wrong.</summary>
    private sealed class Told(Action say) : IDisposable
    {
        public void Dispose() => say();
    }

    private static double Chosen(string variable, double usual) =>
        Environment.GetEnvironmentVariable(variable) is { Length: > 0 } text
            ? double.Parse(text, CultureInfo.InvariantCulture)
            : usual;

    private static Combination CombinationOf(int seed) =>
        Combination.All[(int)((uint)seed % (uint)Combination.All.Count)];

    private static bool IsAboutMachines(Combination asked) => asked.Verb.TakesMachine || asked.Verb.TakesFile;

    /// <summary>What listens would go on for ever, so it is asked with a port that is refused.</summary>
    private static bool Listens(Combination asked) =>
        asked.Verb.TakesFile && (asked.Option == Option.Watch || asked.Option == Option.NoBrowser);

    private void Try(Combination asked, int seed, RandomMachine drawn)
    {
        var trial = new Trial(asked, seed);
        if (trial.Fault(drawn) is { } fault)
        {
            var smaller = Reduction.Of(drawn, trial.Fault);
            var beside = string.Concat(smaller.Beside.Select(b => $"\n-- {b.Name}.machine\n{b.Text}"));
            Assert.Fail($"{asked}: {fault}\n\n{smaller.Text}\n{beside}");
        }
        ended.AddOrUpdate((asked, trial.Status), 1, (_, before) => before + 1);
    }

    private int Times(Combination asked, params int[] statuses) =>
        ended
            .Where(e => e.Key.Asked == asked && (statuses.Length == 0 || statuses.Contains(e.Key.Status)))
            .Sum(e => e.Value);

    private void Tell(int seed)
    {
        var output = TestContext.Current.TestOutputHelper!;
        output.WriteLine($"RECKONER_SEED={seed}: {ended.Values.Sum()} requests, {Combination.All.Count} combinations");
        output.WriteLine(
            string.Join(
                ", ",
                ended
                    .GroupBy(e => e.Key.Status)
                    .OrderBy(g => g.Key)
                    .Select(g => $"status {g.Key}: {g.Sum(e => e.Value)}")
            )
        );
    }
}
