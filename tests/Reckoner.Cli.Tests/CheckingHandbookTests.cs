using System.Diagnostics;
using System.Numerics;
using System.Runtime.Versioning;
using Reckoner.Binding;
using Reckoner.Catalogue;
using Reckoner.Checking;
using Reckoner.Tests;
using Xunit;

namespace Reckoner.Cli.Tests;

/// <summary>What the handbook's page about checking shows beside console blocks.</summary>
public sealed class CheckingHandbookTests
{
    private static readonly MarkdownPage Page = MarkdownPage.Of("docs/handbook/checking.md");

    [Fact]
    public void The_gates_in_the_table_are_those_of_the_checks()
    {
        var shown = Page.Table("Laws whose expectation is stepped along", 1)
            .Select(row => string.Join(' ', row))
            .ToList();
        var counted = Page.Table("Laws whose expectation is stepped along", 1)
            .Select(row =>
                $"{row[0]} {row[1]} {Gates(row[0], row[1], OracleUse.Stepped)} {Gates(row[0], row[1], OracleUse.Written)}"
            );
        Assert.Equal(counted, shown);
    }

    [Fact]
    public void So_many_pairs_are_visited_where_a_formula_fixes_bits()
    {
        string[] asked = ["check", "divide-shared-register", "--width", "12", "--most-parts"];
        int Bits(params string[] more) =>
            BitOperations.Log2(PlaneMemory.Lanes * uint.Parse(Command.Run([.. asked, .. more]).Output));
        var visited = Bits("--only", "divisor = 5 or divisor = 7");
        Assert.Contains($"so that 2^{visited} pairs are visited instead of 2^{Bits()}.", Page.Text);
    }

    private static int Gates(string machine, string width, OracleUse use)
    {
        var datapath = Machine
            .Read(MachineCatalogue.Find(machine)!, MachineCatalogue.Find)
            .At(int.Parse(width))
            .Datapath;
        return CheckProgram.Of(datapath!, null, use).Program.Instructions.Count;
    }

    /// <summary>
    /// The scripts, at a width at which they take no time: the array job for every part, the same again with a checkpoint, then the
    /// sum. In the command's place stands one that notes what it was asked, which is then done in process.
    /// </summary>
    [Theory]
    [InlineData("SLURM_ARRAY_TASK_ID")]
    [InlineData("PBS_ARRAY_INDEX")]
    [InlineData("SGE_TASK_ID")]
    [UnsupportedOSPlatform("windows")]
    public void The_array_job_covers_every_operand(string variable)
    {
        Assert.SkipWhen(OperatingSystem.IsWindows(), "not applicable: sh");
        var folder = Directory.CreateTempSubdirectory("reckoner-array-").FullName;
        try
        {
            Noting(folder);
            for (var task = 1; task <= 4; task++)
            {
                // Status 1 is a result, and no failure of the job.
                Assert.Equal(0, Shell(folder, Narrowed(Script("SLURM", "--width 20")), (variable, $"{task}")));
                Assert.Equal(new Command(0, "", ""), Asked(folder));
                foreach (var _ in new[] { "begun", "gone on with" })
                {
                    File.Delete(Path.Combine(folder, $"part-{task}.json"));
                    Assert.Equal(1, Shell(folder, Narrowed(Script("--resume")), ("task", $"{task}")));
                    Assert.Equal(new Command(0, "", ""), Asked(folder));
                    Assert.True(File.Exists(Path.Combine(folder, $"check-{task}.json")));
                }
            }
            Assert.Equal(1, Shell(folder, Script("--add-up"), (variable, "")));
            var added = Asked(folder);
            var whole = Command.Run("check", "divide-shared-register", "--width", "8");
            Assert.Equal(0, added.Status);
            var sum = added
                .Output.Split('\n')[1..6]
                .Select(line => line.Replace("the machine it follows", "divide-still-divisor"));
            Assert.Equal(whole.Output.Split('\n')[2..7], sum);
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    /// <summary>The one for graphics processors asks the same, and for one of these. Here it is done without.</summary>
    [Fact]
    [UnsupportedOSPlatform("windows")]
    public void The_array_job_for_graphics_processors_covers_every_operand()
    {
        Assert.SkipWhen(OperatingSystem.IsWindows(), "not applicable: sh");
        var folder = Directory.CreateTempSubdirectory("reckoner-array-").FullName;
        try
        {
            Noting(folder);
            var script = Narrowed(Script("--on gpu"));
            for (var task = 1; task <= 4; task++)
            {
                Assert.Equal(0, Shell(folder, script, ("SLURM_ARRAY_TASK_ID", $"{task}")));
                var asked = File.ReadAllText(Path.Combine(folder, "asked"));
                Assert.Contains("\n--on\ngpu\n", asked);
                File.WriteAllText(Path.Combine(folder, "asked"), asked.Replace("\ngpu\n", "\ncpu\n"));
                Assert.Equal(new Command(0, "", ""), Asked(folder));
            }
            Assert.Equal(1, Shell(folder, Script("--add-up"), ("task", "")));
            Assert.Equal(0, Asked(folder).Status);
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    private static string Script(params string[] words) =>
        Page.Blocks.Single(b => b.Kind == "script" && words.All(b.Text.Contains)).Text;

    /// <summary>A command that notes what it was asked, and says that something does not hold.</summary>
    [UnsupportedOSPlatform("windows")]
    private static void Noting(string folder)
    {
        var command = Path.Combine(folder, "reckoner");
        File.WriteAllText(command, "#!/bin/sh\nprintf '%s\\n' \"$@\" >asked\nexit 1\n");
        File.SetUnixFileMode(command, UnixFileMode.UserRead | UnixFileMode.UserExecute);
    }

    private static string Narrowed(string script)
    {
        var narrow = script
            .Replace("--width 20", "--width 8")
            .Replace("--width 23", "--width 8")
            .Replace("/64", "/4")
            .Replace("/8\"", "/4\"");
        Assert.NotEqual(script, narrow);
        return narrow;
    }

    private static int Shell(string folder, string script, (string Name, string Value) variable) =>
        Child
            .Run(
                new ProcessStartInfo("sh", ["-c", script])
                {
                    WorkingDirectory = folder,
                    Environment = { [variable.Name] = variable.Value },
                }
            )
            .Status;

    /// <summary>Does what the script asked of the command; its files are those of the folder.</summary>
    private static Command Asked(string folder) =>
        Command.Run([
            .. File.ReadLines(Path.Combine(folder, "asked"))
                .Select(word => word.EndsWith(".json", StringComparison.Ordinal) ? Path.Combine(folder, word) : word),
        ]);
}
