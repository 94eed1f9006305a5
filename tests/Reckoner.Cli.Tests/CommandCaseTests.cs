using System.Text;
using Xunit;

namespace Reckoner.Cli.Tests;

/// <summary>
/// The texts of tests/cases/command: a line "$ reckoner ..." is run, and below it stand what it writes to the output (|), to the
/// error stream (!) and its exit status (=). Lines with # are for readers.
/// </summary>
public class CommandCaseTests
{
    public static TheoryData<string> Cases =>
        [
            .. Directory
                .EnumerateFiles(WorkFolder.Cases, "*.txt")
                .Select(f => Path.GetFileName(f)[..^".txt".Length])
                .Where(name => !name.EndsWith(".received", StringComparison.Ordinal))
                .Order(StringComparer.Ordinal),
        ];

    [Theory]
    [MemberData(nameof(Cases))]
    public void A_line_writes_what_stands_below_it(string name)
    {
        var path = Path.Combine(WorkFolder.Cases, name + ".txt");
        var received = Path.Combine(WorkFolder.Cases, name + ".received.txt");
        var (text, now) = (File.ReadAllText(path), Rerun(File.ReadLines(path)));
        if (text == now)
        {
            File.Delete(received);
            return;
        }
        File.WriteAllText(received, now);
        var line = text.Split('\n').Zip(now.Split('\n')).TakeWhile(l => l.First == l.Second).Count();
        Assert.Fail(
            $"Line {line + 1} of {name}.txt differs.\npinned: {text.Split('\n')[line]}\nnow:    {now.Split('\n')[line]}\n"
                + $"If it is right now, {name}.received.txt takes its place."
        );
    }

    [Fact]
    public void A_line_that_writes_something_else_is_seen() =>
        Assert.Equal(
            "# a reader's line\n\n$ reckoner wlak\n! "
                + "the command line                                                    unknown-verb\n!       reckoner ‹wlak›\n"
                + "!    wlak is nothing that reckoner does.\n!    Near: walk.\n!\n= 2\n",
            Rerun(["# a reader's line", "", "$ reckoner wlak", "| something", "= 0"])
        );

    private static string Rerun(IEnumerable<string> lines)
    {
        const string Prompt = "$ reckoner";
        var text = new StringBuilder();
        foreach (var line in lines.Where(l => l.Length == 0 || !"|!=".Contains(l[0])))
        {
            text.Append(line).Append('\n');
            if (line.StartsWith(Prompt, StringComparison.Ordinal))
            {
                var run = Command.Line(line[Prompt.Length..]);
                Append(text, '|', run.Output);
                Append(text, '!', run.Errors);
                text.Append($"= {run.Status}\n");
            }
        }
        return text.ToString();
    }

    private static void Append(StringBuilder text, char mark, string written)
    {
        foreach (var line in written.Split('\n')[..^1])
        {
            text.Append($"{mark} {line}".TrimEnd()).Append('\n');
        }
    }
}
