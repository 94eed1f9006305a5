using System.Diagnostics;
using System.Runtime.Versioning;
using Reckoner.Engines;
using Reckoner.Tests;
using Xunit;

namespace Reckoner.Cli.Tests;

/// <summary>
/// The handbook's array job under a real batch scheduler, which is set up for the test on this machine alone: one of its tasks is
/// taken away in the middle and run again, and the parts add up.
/// </summary>
[Trait("Length", "long")]
[UnsupportedOSPlatform("windows")]
public sealed class SlurmTests : IDisposable
{
    private static readonly TimeSpan Patience = TimeSpan.FromMinutes(8);

    private readonly string folder = Directory.CreateTempSubdirectory("reckoner-slurm-").FullName;
    private readonly List<Child> daemons = [];

    private string At(string file) => Path.Combine(folder, file);

    public void Dispose()
    {
        daemons.Reverse();
        daemons.ForEach(d => d.Dispose());
        Directory.Delete(folder, recursive: true);
    }

    [Fact]
    public void The_array_job_of_the_handbook_runs_under_a_scheduler()
    {
        string[] needed = ["/usr/sbin/munged", "/usr/sbin/slurmctld", "/usr/sbin/slurmd", "/usr/bin/sbatch"];
        Assert.SkipUnless(Array.TrueForAll(needed, File.Exists), "not applicable: a batch scheduler");
        Assert.SkipUnless(Environment.IsPrivilegedProcess, "not applicable: root, as which a scheduler runs");
        Begin();

        var repository = WorkFolder.Repository;
        // Plain words, so that a task takes some seconds.
        var command = $"#!/bin/sh\nexport RECKONER_VECTORS=64\nexec '{repository}/reckoner' \"$@\"\n";
        File.WriteAllText(At("reckoner"), command);
        Make(At("reckoner"));
        Assert.Equal(0, Asked("./reckoner", "list").Status);
        OnProcessors();
        OnGraphicsProcessors();
    }

    private void OnProcessors()
    {
        const int Tasks = 4;
        var going = Narrowed(Script("--resume"), ("--width 20", "--width 14 --written"), ("/64", $"/{Tasks}"));
        var script = Narrowed(Script("--width 20", "SLURM"), ("1-64", $"1-{Tasks}"), ("/64", $"/{Tasks}"));
        var check = script.Split('\n').Single(line => line.StartsWith("./reckoner", StringComparison.Ordinal));
        File.WriteAllText(At("job.sh"), script.Replace(check, going));

        var job = Said("sbatch", "--parsable", "job.sh").Trim();
        Until(() => File.Exists(At("check-1.json")) && !File.ReadAllText(At("check-1.json")).Contains("\"to\": \"0\""));
        Assert.False(File.Exists(At("part-1.json")), "the task was done before it could be taken away");
        Said("scontrol", "requeue", $"{job}_1");
        Until(() => Said("squeue", "-h").Trim().Length == 0);
        Assert.Contains("Restarts=1", Task(job, 1));
        Assert.All(Enumerable.Range(1, Tasks), k => Assert.Contains("JobState=COMPLETED", Task(job, k)));

        var sum = Command.Run(["check", "--add-up", .. Enumerable.Range(1, Tasks).Select(k => At($"part-{k}.json"))]);
        var whole = Command.Run("check", "divide-shared-register", "--width", "14");
        Assert.Equal((0, ""), (sum.Status, sum.Errors));
        Assert.Equal(
            whole.Output.Split('\n')[2..7],
            sum.Output.Split('\n')[1..6].Select(l => l.Replace("the machine it follows", "divide-still-divisor"))
        );
    }

    /// <summary>
    /// The scheduler believes that there is one. Where there is none, each task fails, says why and leaves nothing to add up.
    /// </summary>
    private void OnGraphicsProcessors()
    {
        const int Tasks = 2;
        var isHere = GraphicsProcessor.All().Count > 0;
        var script = Narrowed(
            Script("--on gpu"),
            ("--width 23", "--width 12"),
            ("1-8", $"1-{Tasks}"),
            ("/8\"", $"/{Tasks}\""),
            ("part-", "graphics-")
        );
        File.WriteAllText(At("graphics.sh"), script);
        var job = Said("sbatch", "--parsable", "--output=told-%a.txt", "graphics.sh").Trim();
        Until(() => Said("squeue", "-h").Trim().Length == 0);
        for (var task = 1; task <= Tasks; task++)
        {
            var told = Task(job, task);
            Assert.Contains(isHere ? "JobState=COMPLETED" : "JobState=FAILED", told);
            Assert.Contains(told, word => word.Contains("gpu:1", StringComparison.Ordinal));
            Assert.Equal(isHere, File.Exists(At($"graphics-{task}.json")));
            Assert.Equal(!isHere, File.ReadAllText(At($"told-{task}.txt")).Contains("no-graphics-processor"));
        }
        if (isHere)
        {
            var sum = Command.Run([
                "check",
                "--add-up",
                .. Enumerable.Range(1, Tasks).Select(k => At($"graphics-{k}.json")),
            ]);
            Assert.Equal((0, ""), (sum.Status, sum.Errors));
        }
    }

    private static string Script(params string[] words) =>
        MarkdownPage
            .Of("docs/handbook/checking.md")
            .Blocks.Single(b => b.Kind == "script" && words.All(b.Text.Contains))
            .Text;

    private static string Narrowed(string script, params (string Wide, string Narrow)[] changes)
    {
        foreach (var (wide, narrow) in changes)
        {
            Assert.Contains(wide, script);
            script = script.Replace(wide, narrow);
        }
        return script;
    }

    private string[] Task(string job, int task) => Said("scontrol", "show", "job", $"{job}_{task}").Split();

    /// <summary>A key, a controller and the one machine, each in the foreground, so that they end with the test.</summary>
    private void Begin()
    {
        var host = Environment.MachineName.Split('.')[0];
        File.WriteAllBytes(At("munge.key"), System.Security.Cryptography.RandomNumberGenerator.GetBytes(128));
        File.SetUnixFileMode(At("munge.key"), UnixFileMode.UserRead);
        File.SetUnixFileMode(
            folder,
            UnixFileMode.UserRead
                | UnixFileMode.UserWrite
                | UnixFileMode.UserExecute
                | UnixFileMode.OtherRead
                | UnixFileMode.OtherExecute
        );
        Directory.CreateDirectory(At("state"));
        Directory.CreateDirectory(At("spool"));
        File.WriteAllText(
            At("slurm.conf"),
            $"""
            ClusterName=own
            SlurmctldHost={host}(127.0.0.1)
            SlurmUser=root
            SlurmdUser=root
            AuthType=auth/munge
            AuthInfo=socket={At("munge.socket")}
            StateSaveLocation={At("state")}
            SlurmdSpoolDir={At("spool")}
            SlurmctldPidFile={At("slurmctld.pid")}
            SlurmdPidFile={At("slurmd.pid")}
            SlurmctldPort=26817
            SlurmdPort=26818
            ProctrackType=proctrack/linuxproc
            TaskPlugin=task/none
            SelectType=select/cons_tres
            SelectTypeParameters=CR_CPU
            MpiDefault=none
            ReturnToService=2
            GresTypes=gpu
            NodeName={host} NodeAddr=127.0.0.1 CPUs=2 Gres=gpu:1 State=UNKNOWN
            PartitionName=all Nodes={host} Default=YES MaxTime=INFINITE State=UP

            """
        );
        // Any device does: the scheduler only counts them.
        File.WriteAllText(At("gres.conf"), "Name=gpu File=/dev/null\n");
        Daemon(
            "/usr/sbin/munged",
            "--foreground",
            "--force",
            $"--socket={At("munge.socket")}",
            $"--key-file={At("munge.key")}",
            $"--log-file={At("munge.log")}",
            $"--pid-file={At("munge.pid")}",
            $"--seed-file={At("munge.seed")}"
        );
        Until(() => File.Exists(At("munge.socket")));
        Daemon("/usr/sbin/slurmctld", "-D", "-f", At("slurm.conf"));
        Daemon("/usr/sbin/slurmd", "-D", "-f", At("slurm.conf"));
        Until(() => Asked("sinfo", "-h", "-o", "%T").Output.Trim() == "idle");
    }

    private static void Make(string command) =>
        File.SetUnixFileMode(command, UnixFileMode.UserRead | UnixFileMode.UserExecute);

    private ProcessStartInfo Start(string program, string[] words) =>
        new(program, words) { WorkingDirectory = folder, Environment = { ["SLURM_CONF"] = At("slurm.conf") } };

    private void Daemon(string program, params string[] words) =>
        daemons.Add(Child.Start(Start(program, words), Patience));

    private Ended Asked(string program, params string[] words) => Child.Run(Start(program, words));

    private string Said(string program, params string[] words)
    {
        var (status, output, errors) = Asked(program, words);
        Assert.True(status == 0, $"{program}: {errors}");
        return output;
    }

    private static void Until(Func<bool> isSo)
    {
        var clock = Stopwatch.StartNew();
        while (!isSo())
        {
            Assert.True(clock.Elapsed < Patience, "the scheduler does not come so far");
            Thread.Sleep(500);
        }
    }
}
