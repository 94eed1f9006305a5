using System.Text;
using System.Text.RegularExpressions;
using Reckoner.Tests;
using Xunit;

namespace Reckoner.Cli.Tests;

/// <summary>
/// A block of the kind "console": lines "$ COMMAND" with what the command prints on a page of 80 columns. Commands are
/// ./reckoner, which runs in this process, and "echo $?". Machines, styles and tables of the page are files: ./NAME.machine, ./NAME.style, ./NAME.csv. Behind
/// the fence may stand: console FILE is MACHINE with "OLD" as "NEW", for a machine of the page with a slip.
/// </summary>
internal sealed partial class ConsoleBlock(CodeBlock block) : IDisposable
{
    private readonly string folder = Directory.CreateTempSubdirectory("reckoner-handbook-").FullName;

    public static IEnumerable<CodeBlock> All =>
        MarkdownPage.Read.SelectMany(p => p.Blocks).Where(b => b.Kind == "console");

    /// <summary>The block with what its commands print now.</summary>
    public string Printed()
    {
        WriteFiles();
        var text = new StringBuilder();
        var status = 0;
        foreach (var line in block.Text.Split('\n').Where(line => line.StartsWith("$ ", StringComparison.Ordinal)))
        {
            text.Append(line).Append('\n');
            if (line == "$ echo $?")
            {
                text.Append(status).Append('\n');
                continue;
            }
            string[] words = [.. Word().Matches(line[2..]).Select(m => m.Value.Trim('"', '\''))];
            Assert.True(words[0] == "./reckoner", $"{block}: only ./reckoner and echo $? are run, not {words[0]}");
            status = Run(words[1..], text);
        }
        return text.ToString();
    }

    private int Run(string[] arguments, StringBuilder text)
    {
        // The page is as wide as COLUMNS says, wherever the tests run.
        Environment.SetEnvironmentVariable("COLUMNS", "80");
        using var writer = new StringWriter(text);
        using var session = new Session(writer, writer);
        return session.Run([
            .. arguments.Select(a => a.StartsWith("./", StringComparison.Ordinal) ? Path.Combine(folder, a[2..]) : a),
        ]);
    }

    private void WriteFiles()
    {
        var machines = block.Page.Blocks.Where(b => b.Kind == "machine").ToDictionary(b => NameOf(b.Text), b => b.Text);
        if (Slip().Match(block.Info) is { Success: true } slip)
        {
            var old = Regex.Unescape(slip.Groups["old"].Value);
            var right = machines[slip.Groups["machine"].Value];
            Assert.Contains(old, right);
            File.WriteAllText(
                Path.Combine(folder, slip.Groups["file"].Value),
                right.Replace(old, Regex.Unescape(slip.Groups["new"].Value), StringComparison.Ordinal)
            );
        }
        else
        {
            Assert.Equal("console", block.Info);
        }
        // What a block names is a file of its kind.
        foreach (
            var file in block.Page.Blocks.Where(b => b.Kind is "style" or "model" or "csv" && b.Info.Contains(' '))
        )
        {
            File.WriteAllText(Path.Combine(folder, $"{file.Info.Split(' ')[1]}.{file.Kind}"), file.Text);
        }
        foreach (var (name, text) in machines)
        {
            File.WriteAllText(Path.Combine(folder, name + ".machine"), text);
        }
    }

    private static string NameOf(string machine) => machine.Split('\n')[0]["machine ".Length..];

    public void Dispose() => Directory.Delete(folder, recursive: true);

    [GeneratedRegex(
        """
            "[^"]*"|'[^']*'|\S+
            """
    )]
    private static partial Regex Word();

    [GeneratedRegex("""^console (?<file>\S+) is (?<machine>\S+) with "(?<old>[^"]*)" as "(?<new>[^"]*)"$""")]
    private static partial Regex Slip();
}
