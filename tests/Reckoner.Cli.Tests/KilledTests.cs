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
    private const int Kills = 40;

    private readonly string folder = Directory.CreateTempSubdirectory("reckoner-killed-").FullName;

    public KilledTests() => WorkFolder.Enter();

    public void Dispose() => Directory.Delete(folder, recursive: true);

    private string At(string name) => Path.Combine(folder, name);

    [Fact]
    public void A_figure_in_the_place_of_another() =>
        OldOrNew("w.png", side => ["draw", "halve.machine", "weave", side, "3", "-o", At("w.png"), "--overwrite"]);

    [Fact]
    public void A_pack_in_the_place_of_another()
    {
        foreach (var operand in new[] { "5", "7" })
        {
            File.WriteAllText(
                At(operand + ".md"),
                $"---\nmachine: divide-still-divisor\nwidth: 3\noperands: {operand} 2\n---\n\nIt is [0](quotient).\n\n```reckoner\nwalk\n```\n"
            );
        }
        OldOrNew("pack", side => ["lesson", At(side + ".md"), "-o", At("pack"), "--overwrite"]);
    }

    [Fact]
    public void A_checkpoint_is_whole_whenever_its_check_was_killed()
    {
        string[] asked = ["check", "divide-shared-register", "--width", "11..12", "--format", "json"];
        var expected = Holds(Command.Run(asked).Output);
        var random = new Random(Seeds.Next());
        var seen = 0;
        for (var i = 0; i < Kills; i++)
        {
            // Word by word and on narrow planes it takes some seconds, and is begun anew when it was done.
            using (var check = Started([.. asked, "--written", "--resume", At("check.json")], narrow: true))
            {
                check.WaitFor(() => File.Exists(At("check.json")));
                Thread.Sleep(random.Next(400));
            }
            var whole = CheckpointJson.Read(File.ReadAllText(At("check.json"))).Checkpoint;
            Assert.True(whole is not null, "no whole checkpoint");
            seen += whole.Covered.Count > 0 ? 1 : 0;
        }
        Assert.True(seen > 0, "nothing was ever covered");
        Assert.Equal(expected, Holds(Command.Run([.. asked, "--written", "--resume", At("check.json")]).Output));
    }

    /// <summary>Cases and failures of every width.</summary>
    private static string Holds(string json) =>
        string.Join('\n', json.Split('\n').Where(l => l.Contains("\"cases\"") || l.Contains("\"failures\"")));

    private static Child Started(IReadOnlyList<string> words, bool narrow = false)
    {
        var start = Command.Process(words);
        if (narrow)
        {
            start.Environment["RECKONER_VECTORS"] = "64";
        }
        return Child.Start(start);
    }

    /// <param name="asked">The request that writes it, given what differs between the old and the new one: an operand.</param>
    private void OldOrNew(string name, Func<string, string[]> asked)
    {
        string Made(string operand)
        {
            Assert.Equal(0, Child.Run(Command.Process(asked(operand))).Status);
            return Shown(At(name));
        }
        var (old, fresh) = (Made("5"), Made("7"));
        Assert.NotEqual(old, fresh);
        Assert.Equal(old, Made("5"));
        var random = new Random(Seeds.Next());
        var (unchanged, changed) = (0, 0);
        for (var i = 0; i < Kills; i++)
        {
            var before = Entries();
            using (var writer = Started(asked("7")))
            {
                // From the moment on at which something stands beside the place, which is when it is written.
                while (writer.Runs && Entries() == before)
                {
                    Thread.Yield();
                }
                Thread.SpinWait(random.Next(1 << random.Next(21)));
            }
            var now = Shown(At(name));
            Assert.True(now == old || now == fresh, $"kill {i}: {now}");
            (unchanged, changed) = now == old ? (unchanged + 1, changed) : (unchanged, changed + 1);
            Assert.Equal(old, Made("5"));
        }
        TestContext.Current.TestOutputHelper!.WriteLine($"killed {Kills} times: {unchanged} old, {changed} new");
        Assert.True(unchanged > 0, "never killed in time");
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
