using Reckoner.Catalogue;
using Reckoner.Slips;
using Reckoner.Words;
using Xunit;

namespace Reckoner.Cli.Tests;

/// <summary>How words go on, asked as scripts of shells ask it.</summary>
public sealed class CompletionTests
{
    private static IReadOnlyList<string> After(string line) =>
        [.. Completing.Of(line, Vocabulary.English).Select(c => c.Text)];

    [Fact]
    public void Verbs_options_machines_and_slips_come_from_their_tables()
    {
        Assert.Equal(Verb.All.Select(v => v.Name), After("reckoner "));
        Assert.All(
            Verb.All,
            verb =>
                Assert.Equal(
                    verb.Options.Select(o => o.Name),
                    After($"reckoner {verb.Name} --")
                        .Concat(verb.Options.Where(o => o.Name == "-o").Select(o => o.Name))
                        .OrderBy(n => Place(verb, n))
                )
        );
        Assert.Equal(MachineCatalogue.Names.Order(), After("reckoner walk ").Order());
        var machine = Reckon.Machine("divide-still-divisor");
        var slips = After("reckoner check divide-still-divisor --slip ");
        Assert.Equal(Slip.Of(machine).Select(s => s.Name).Intersect(slips), slips);
        Assert.Contains("loop-longer-repeat", slips);

        static int Place(Verb verb, string name) => verb.Options.Select(o => o.Name).ToList().IndexOf(name);
    }

    [Theory]
    [InlineData("reckoner wal", "walk")]
    [InlineData("reckoner walk divide-still", "divide-still-divisor")]
    [InlineData("./reckoner walk divide-still-divisor divid", "dividend=")]
    [InlineData("reckoner walk divide-still-divisor dividend=29 di", "divisor=")]
    [InlineData("reckoner draw divide-still-divisor we", "weave")]
    [InlineData("reckoner walk divide-still-divisor --format=cs", "--format=csv")]
    [InlineData("reckoner walk divide-still-divisor --width 5 --wi", "")]
    [InlineData("reckoner draw --size 16:", "16:9")]
    [InlineData("reckoner hdl divide-still-divisor --leave-out c", "control")]
    [InlineData("reckoner cost divide-still-divisor divide-moving-divisor-", "divide-moving-divisor-in-steps")]
    [InlineData("reckoner walk divide-still-divisor --style n", "none")]
    [InlineData("reckoner mark --scheme per-ro", "per-row")]
    [InlineData("reckoner completions f", "fish")]
    [InlineData("reckoner --vers", "--version")]
    [InlineData("reckoner show 'divide-still", "divide-still-divisor")]
    // Files are the shell's own business, and so is what makes no sense.
    [InlineData("reckoner verify ", "")]
    [InlineData("reckoner walk ./mi", "")]
    [InlineData("reckoner wlak ", "")]
    [InlineData("reckoner", "")]
    [InlineData("", "")]
    public void A_word_goes_on(string line, string words) =>
        Assert.Equal(words.Length == 0 ? [] : words.Split(' '), After(line));

    /// <summary>Whatever is offered behind an option of a few words is taken.</summary>
    [Theory]
    [InlineData("cost divide-still-divisor --width 3 --adder")]
    [InlineData("walk divide-still-divisor --width 3 5 2 --reasons")]
    [InlineData("operands divide-still-divisor --width 4 --count 2 --allow")]
    [InlineData("check divide-still-divisor --width 2 --slip")]
    [InlineData("show divide-still-divisor --width 3 --dump")]
    public void What_is_offered_is_taken(string line)
    {
        var offered = After($"reckoner {line} ");
        Assert.NotEmpty(offered);
        Assert.All(offered, value => Assert.NotEqual(Exit.Wrong, Command.Line($"{line} {value}").Status));
    }

    /// <summary>Shells put what is offered into the line as it is: names of files, which may be commands, are theirs to offer.</summary>
    [Fact]
    public void What_a_file_is_called_never_comes_into_a_line()
    {
        WorkFolder.Enter();
        string[] files = ["$(touch broken).style", "my house.style", "`id`.style"];
        try
        {
            Array.ForEach(files, f => File.WriteAllText(f, ""));
            Assert.Equal(["none"], After("reckoner walk divide-still-divisor --style "));
            Assert.Equal(["--style=none"], After("reckoner walk divide-still-divisor --style="));
        }
        finally
        {
            Array.ForEach(files, File.Delete);
        }
    }

    /// <summary>A pipe has no end that a key may wait for.</summary>
    [Fact]
    public async Task Pipes_and_devices_are_not_read_for_a_word()
    {
        Assert.SkipWhen(OperatingSystem.IsWindows(), "not applicable: pipes with names of files");
        WorkFolder.Enter();
        Child.Run("mkfifo", "words.machine");
        try
        {
            // Where it waits for the pipe, this ends by a timeout.
            var stop = TestContext.Current.CancellationToken;
            await Task.Run(Ask, stop).WaitAsync(TimeSpan.FromMinutes(1), stop);
        }
        finally
        {
            File.Delete("words.machine");
        }

        static void Ask()
        {
            Assert.DoesNotContain(After("reckoner walk ./words.machine "), w => w.EndsWith('='));
            Assert.Empty(After("reckoner check ./words.machine --slip "));
            Assert.Empty(After("reckoner hdl ./words.machine --leave-out "));
        }
    }

    [Fact]
    public void A_script_is_no_page()
    {
        var (status, output, errors) = Command.Line("completions bash -o script-of-bash.html");
        Assert.Equal((Exit.Wrong, ""), (status, output));
        Assert.Contains(".txt", errors, StringComparison.Ordinal);
        Assert.False(File.Exists("script-of-bash.html"));
    }

    [Fact]
    public void A_shell_that_is_not_known_is_told()
    {
        var (status, output, errors) = Command.Line("completions bsh");
        Assert.Equal((2, ""), (status, output));
        Assert.Contains("Near: bash", errors, StringComparison.Ordinal);
    }

    /// <summary>Titles are those of the language that is asked for, and never end a line.</summary>
    [Fact]
    public void What_a_word_is_stands_behind_a_tab()
    {
        var lines = Command.Run("completions", "fish", "--line", "reckoner walk divide-", "--language", "de").Output;
        Assert.All(lines.TrimEnd('\n').Split('\n'), line => Assert.Equal(2, line.Split('\t').Length));
        Assert.Contains("divide-still-divisor\tDivision: der Rest", lines, StringComparison.Ordinal);
    }

    [Fact]
    public void The_version_is_that_of_the_one_place_and_of_the_change_log()
    {
        var props = File.ReadAllText(Path.Combine(WorkFolder.Repository, "Directory.Build.props"));
        var number = props.Split("<Version>")[1].Split('<')[0];
        Assert.Equal(number, ProductVersion.Number);
        Assert.Equal(
            new Command(0, $"reckoner {number}, for descriptions of edition 1\n", ""),
            Command.Run("--version")
        );
        var log = File.ReadLines(Path.Combine(WorkFolder.Repository, "CHANGELOG.md"));
        Assert.Equal($"## {number}", log.First(l => l.StartsWith("## ", StringComparison.Ordinal)));
    }
}
