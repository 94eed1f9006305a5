namespace Reckoner.Cli.Tests;

/// <summary>One run of the command, in process.</summary>
internal sealed record Command(int Status, string Output, string Errors)
{
    public static Command Run(params IReadOnlyList<string> arguments)
    {
        WorkFolder.Enter();
        using var output = new StringWriter { NewLine = "\n" };
        using var errors = new StringWriter { NewLine = "\n" };
        using var session = new Session(output, errors);
        return new Command(session.Run(arguments), output.ToString(), errors.ToString());
    }

    /// <summary>The words of a line, cut at blanks; "" is an empty word.</summary>
    public static Command Line(string line) =>
        Run([.. line.Split(' ', StringSplitOptions.RemoveEmptyEntries).Select(word => word == "\"\"" ? "" : word)]);
}
