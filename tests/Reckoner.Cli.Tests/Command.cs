using System.Diagnostics;
using System.Text.RegularExpressions;
using Reckoner.Questions;

namespace Reckoner.Cli.Tests;

/// <summary>One run of the command, in process.</summary>
internal sealed partial record Command(int Status, string Output, string Errors)
{
    public static Command Run(params IReadOnlyList<string> arguments) => Run(Disk.Real, arguments);

    /// <summary>On a disk of its own making.</summary>
    public static Command Run(Disk disk, IReadOnlyList<string> arguments) =>
        Run((output, errors) => new Session(output, errors) { Disk = disk, Input = () => Stream.Null }, arguments);

    /// <summary>With checks run by something else.</summary>
    public static Command Run(ICheckRunner runner, params IReadOnlyList<string> arguments) =>
        Run((output, errors) => new Session(output, errors) { Runner = runner }, arguments);

    private static Command Run(Func<TextWriter, TextWriter, Session> begin, IReadOnlyList<string> arguments)
    {
        WorkFolder.Enter();
        using var output = new StringWriter { NewLine = "\n" };
        using var errors = new StringWriter { NewLine = "\n" };
        using var session = begin(output, errors);
        return new Command(session.Run(arguments), output.ToString(), errors.ToString());
    }

    /// <summary>The program beside the tests, not the start script, which might begin to build.</summary>
    public static ProcessStartInfo Process(params IEnumerable<string> words) =>
        new("dotnet", words.Prepend(Path.Combine(AppContext.BaseDirectory, "reckoner.dll")));

    /// <summary>One run of the command in a process of its own.</summary>
    public static Command Of(Ended ended) => new(ended.Status, ended.Output, ended.Errors);

    /// <summary>The words of a line, cut at blanks; what stands in double quotes is one word.</summary>
    public static Command Line(string line) => Run([.. Word().Matches(line).Select(m => m.Value.Trim('"'))]);

    [GeneratedRegex(
        """
            "[^"]*"|\S+
            """
    )]
    private static partial Regex Word();
}
