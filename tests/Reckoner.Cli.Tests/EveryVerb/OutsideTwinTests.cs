using System.Diagnostics;
using System.Globalization;
using System.Text.Json.Nodes;
using Reckoner.Tests;
using Xunit;

namespace Reckoner.Cli.Tests;

/// <summary>
/// What Reckoner says of machines drawn by lot, held against another reader of the notation in another language, written from the
/// handbook alone: tests/twin.
/// </summary>
public sealed class OutsideTwinTests : IDisposable
{
    /// <summary>So many take some three seconds without their slips, and belong to the quick run.</summary>
    internal const int Few = 10;

    /// <summary>So many machines take half a minute, with so many slips of each.</summary>
    internal const int Quick = 40;
    internal const int QuickSlips = 6;

    internal const int Lengthy = 3_000;

    /// <summary>Walks worked out by hand or recorded before, at most some forty of each machine.</summary>
    internal const int Recorded = 3036;

    private const int LengthySlips = 40;

    /// <summary>Machines that one process of the twin reads.</summary>
    private const int Batch = 20;

    /// <summary>For a batch with many slips, also on a machine that does much else at a time.</summary>
    private static readonly TimeSpan Patience = TimeSpan.FromMinutes(30);

    private readonly string folder = Directory.CreateTempSubdirectory("reckoner-twin-").FullName;

    public OutsideTwinTests() => WorkFolder.Enter();

    public void Dispose() => Directory.Delete(folder, recursive: true);

    [Fact]
    [Trait("Length", "long")]
    public void The_twin_gives_what_was_worked_out_by_hand_and_recorded_before()
    {
        var lines = Python("recorded.py").Split('\n', StringSplitOptions.RemoveEmptyEntries);
        Assert.Equal($"{Recorded} of {Recorded} walks compared", Assert.Single(lines));
    }

    /// <summary>Another tenth of each machine's walks each day.</summary>
    [Fact]
    public void It_gives_a_tenth_of_them()
    {
        var tenth = (DateTime.UtcNow.DayOfYear % 10) + 1;
        var lines = Python("recorded.py", $"{tenth}", "10").Split('\n', StringSplitOptions.RemoveEmptyEntries);
        var said = Assert.Single(lines).Split(" of ");
        Assert.Equal($"{Recorded} walks compared", said[1]);
        Assert.InRange(int.Parse(said[0], CultureInfo.InvariantCulture), Recorded / 20, Recorded / 5);
    }

    [Fact]
    public void Reckoner_and_the_twin_say_the_same_of_a_few_machines() => Run(Few, slips: 0);

    [Fact]
    [Trait("Length", "long")]
    public void Reckoner_and_the_twin_say_the_same_of_machines_drawn_by_lot() => Run(Quick, QuickSlips);

    [Fact]
    [Trait("Length", "long")]
    public void Reckoner_and_the_twin_say_the_same_of_many_machines() =>
        Run(
            int.Parse(
                Environment.GetEnvironmentVariable("RECKONER_TWIN_MACHINES") ?? $"{Lengthy}",
                CultureInfo.InvariantCulture
            ),
            LengthySlips
        );

    /// <summary>The check itself: whatever Reckoner might say wrongly is found.</summary>
    [Fact]
    [Trait("Length", "long")]
    public void Every_kind_of_thing_that_is_said_wrongly_is_found()
    {
        var task = Enumerable.Range(1, 400).Select(seed => TwinTask.Of(seed, QuickSlips)).First(IsRich)!;
        var spoilt = TwinTask.Spoilt(task).ToList();
        Assert.NotEmpty(spoilt);
        var answers = Judged(spoilt.Select(s => s.Task).Prepend(task));
        Assert.Empty(answers[0].Wrong);
        Assert.All(
            spoilt.Zip(answers.Skip(1)),
            pair => Assert.True(pair.Second.Wrong.Count > 0, $"{pair.First.What} was not found")
        );
    }

    private static bool IsRich(JsonObject? task) =>
        task is not null && TwinTask.Spoilt(task).Select(s => s.What).Distinct().Count() == TwinTask.Kinds;

    private void Run(int machines, int slips)
    {
        var seed = Seeds.Next();
        var compared = new SortedDictionary<string, int>(StringComparer.Ordinal);
        var wrong = new List<string>();
        var judged = 0;
        foreach (var seeds in Enumerable.Range(0, int.MaxValue).Select(i => unchecked(seed + i)).Chunk(Batch))
        {
            var tasks = seeds.Select(s => TwinTask.Of(s, slips)).OfType<JsonObject>().Take(machines - judged).ToList();
            judged += tasks.Count;
            foreach (var (of, counts, said) in Judged(tasks))
            {
                wrong.AddRange(said.Select(s => $"RECKONER_SEED={of}: {s}\n{RandomMachine.Of(of).Whole}"));
                foreach (var (what, count) in counts)
                {
                    compared[what] = compared.GetValueOrDefault(what) + count;
                }
            }
            // Said each time, so that a run that is ended has said how far it came.
            TestContext.Current.TestOutputHelper!.WriteLine(
                $"RECKONER_SEED={seed}: {judged} machines; {string.Join(", ", compared.Select(c => $"{c.Key} {c.Value}"))}"
            );
            if (judged >= machines || wrong.Count > 0)
            {
                break;
            }
        }
        Assert.True(wrong.Count == 0, string.Join("\n\n", wrong.Take(3)));
    }

    private List<(int Seed, IReadOnlyDictionary<string, int> Compared, IReadOnlyList<string> Wrong)> Judged(
        IEnumerable<JsonObject> tasks
    )
    {
        var file = Path.Combine(folder, "tasks.json");
        File.WriteAllLines(file, tasks.Select(t => t.ToJsonString()));
        return
        [
            .. Python("judge.py", file)
                .Split('\n', StringSplitOptions.RemoveEmptyEntries)
                .Select(line => JsonNode.Parse(line)!)
                .Select(answer =>
                    (
                        (int)answer["seed"]!,
                        (IReadOnlyDictionary<string, int>)
                            answer["compared"]!.AsObject().ToDictionary(c => c.Key, c => (int)c.Value!),
                        (IReadOnlyList<string>)[.. answer["wrong"]!.AsArray().Select(w => (string)w!)]
                    )
                ),
        ];
    }

    internal static string Python(string program, params string[] arguments)
    {
        Assert.SkipUnless(
            (Environment.GetEnvironmentVariable("PATH") ?? "")
                .Split(Path.PathSeparator, StringSplitOptions.RemoveEmptyEntries)
                .Any(f => File.Exists(Path.Combine(f, "python3"))),
            "python3 is missing"
        );
        var path = Path.Combine(WorkFolder.Repository, "tests", "twin", program);
        var start = new ProcessStartInfo("python3", ["-B", path, .. arguments]);
        using var child = Child.Start(start, Patience);
        var (status, output, errors) = child.End();
        Assert.True(status == 0, errors);
        return output;
    }
}
