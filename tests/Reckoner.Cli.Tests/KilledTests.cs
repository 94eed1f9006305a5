using System.Diagnostics;
using System.Security.Cryptography;
using Reckoner.Reporting;
using Reckoner.Tests;
using Xunit;

namespace Reckoner.Cli.Tests;

/// <summary>
/// The real process, killed at random moments while it writes in the place of something: what is there is old or new, never
/// between, and the next run is not disturbed by what was left.
/// </summary>
[Trait("Length", "long")]
public sealed class KilledTests : IDisposable
{
    private const int Kills = 24;

    private readonly string folder = Directory.CreateTempSubdirectory("reckoner-killed-").FullName;

    public KilledTests() => WorkFolder.Enter();

    public void Dispose() => Directory.Delete(folder, recursive: true);

    private string At(string name) => Path.Combine(folder, name);

    [Fact]
    public void A_figure_in_the_place_of_another() =>
        OldOrNew("w.png", side => ["draw", "halve.machine", "weave", side, "3", "-o", At("w.png"), "--overwrite"]);

    /// <summary>So long that most of the time goes into writing it.</summary>
    [Fact]
    public void A_long_walk_in_the_place_of_another()
    {
        File.WriteAllText(
            At("long.machine"),
            "machine long\nwidth n = 8 in 2..16\noperand a : n\nregister A : n loads a\nrepeat 20000\n  A <- A + 1\nend\nresult b = A\n"
        );
        OldOrNew("w.html", side => ["walk", At("long.machine"), side, "-o", At("w.html"), "--overwrite"]);
    }

    [Fact]
    public void A_pack_in_the_place_of_another()
    {
        foreach (var operand in new[] { "5", "7" })
        {
            File.WriteAllText(
                At(operand + ".md"),
                $"```reckoner\nwalk divide-still-divisor --width 3 {operand} 2\n```\n"
            );
        }
        OldOrNew("pack", side => ["lesson", At(side + ".md"), "-o", At("pack"), "--overwrite"]);
    }

    [Fact]
    public void A_checkpoint_is_whole_whenever_its_check_was_killed()
    {
        string[] asked = ["check", "divide-shared-register", "--width", "13", "--format", "json"];
        string[] kept = [.. asked, "--resume", At("check.json")];
        var random = new Random(Seeds.Next());
        for (var i = 0; i < Kills; i++)
        {
            // In plain words it takes long enough.
            var start = Command.Process([.. kept, "--written"]);
            start.Environment["RECKONER_VECTORS"] = "64";
            using var check = Child.Start(start);
            check.WaitFor(() => File.Exists(At("check.json")));
            Thread.Sleep(random.Next(600));
            check.KillAtOnce();
            Assert.True(
                CheckpointJson.Read(File.ReadAllText(At("check.json"))).Checkpoint is not null,
                $"kill {i}: no whole checkpoint"
            );
        }
        Assert.Equal(Holds(Command.Run(asked).Output), Holds(Command.Run(kept).Output));
    }

    /// <summary>Cases and failures.</summary>
    private static string Holds(string json) =>
        string.Join(
            '\n',
            json.Split('\n')
                .Where(l =>
                    l.Contains("\"cases\"", StringComparison.Ordinal)
                    || l.Contains("\"failures\"", StringComparison.Ordinal)
                )
        );

    /// <param name="asked">The request that writes it, given what differs between the old and the new one: an operand.</param>
    private void OldOrNew(string name, Func<string, string[]> asked)
    {
        string Made(string operand)
        {
            var (status, _, errors) = Child.Run(Command.Process(asked(operand)));
            Assert.True(status == 0, errors);
            return Shown(At(name));
        }
        var clock = Stopwatch.StartNew();
        var (old, fresh) = (Made("5"), Made("7"));
        var each = clock.Elapsed / 2;
        Assert.NotEqual(old, fresh);
        Assert.Equal(old, Made("5"));
        var random = new Random(Seeds.Next());
        var unchanged = 0;
        for (var i = 0; i < Kills; i++)
        {
            var before = Entries();
            using var writer = Child.Start(Command.Process(asked("7")));
            if (i % 2 == 0)
            {
                Thread.Sleep(each * random.NextDouble());
            }
            else
            {
                // When something stands beside the place, which is when it is written.
                while (writer.Runs && Entries() == before)
                {
                    Thread.Yield();
                }
                Thread.SpinWait(random.Next(1 << random.Next(18)));
            }
            writer.KillAtOnce();
            var now = Shown(At(name));
            Assert.True(now == old || now == fresh, $"kill {i}: {now}");
            unchanged += now == old ? 1 : 0;
            if (now == fresh)
            {
                Assert.Equal(old, Made("5"));
            }
        }
        TestContext.Current.TestOutputHelper!.WriteLine(
            $"killed {Kills} times: {unchanged} old, {Entries()} entries left"
        );
        Assert.True(unchanged > 0, "never killed in time");
        Assert.Equal(fresh, Made("7"));
    }

    /// <summary>Files and folders there, which change when something is put beside a place.</summary>
    private int Entries() => Directory.EnumerateFileSystemEntries(folder).Count();

    private static string Shown(string place) =>
        Directory.Exists(place)
            ? string.Join(
                '\n',
                Directory
                    .EnumerateFiles(place, "*", SearchOption.AllDirectories)
                    .Order(StringComparer.Ordinal)
                    .Select(f => $"{Path.GetRelativePath(place, f)} {Hash(f)}")
            )
            : Hash(place);

    private static string Hash(string file) => Convert.ToHexString(SHA256.HashData(File.ReadAllBytes(file)));
}
