using Reckoner.Tests;

namespace Reckoner.Cli.Tests;

/// <summary>One drawn machine asked in one way.</summary>
internal sealed class Trial(Combination asked, int seed)
{
    /// <summary>Whatever one request allocates on the way, however short it lives.</summary>
    private const long MostBytes = 1L << 33;

    /// <summary>The exit status of the last request.</summary>
    public int Status { get; private set; }

    /// <summary>What is wrong with what comes of it; null where nothing is.</summary>
    public string? Fault(RandomMachine drawn)
    {
        using var files = new DrawnFiles(drawn, seed);
        var (words, file) = AskedWords.Of(asked, files);
        var line = string.Join(' ', words.Select(w => w.Replace(files.Folder, ".", StringComparison.Ordinal)));
        var before = GC.GetAllocatedBytesForCurrentThread();
        var command = Command.Run(words);
        var allocated = GC.GetAllocatedBytesForCurrentThread() - before;
        Status = command.Status;
        return Wrong(command, file, allocated) is { } wrong ? $"{wrong}\nreckoner {line}" : null;
    }

    private string? Wrong(Command command, string? file, long allocated)
    {
        if (command.Status is not (Exit.Done or Exit.DoesNotHold or Exit.Wrong))
        {
            return $"exit status {command.Status}: {command.Errors.Trim().Split("\n\n")[^1]}";
        }
        if (allocated > MostBytes)
        {
            return $"{allocated >> 20} MB were allocated";
        }
        try
        {
            WellFormed.PlainText(command.Errors);
            return command.Status == Exit.Wrong ? Refused(command, file) : Read(command, file);
        }
#pragma warning disable CA1031 // Whatever a reader from outside throws is what is wrong.
        catch (Exception e)
#pragma warning restore CA1031
        {
            return $"{e.GetType().Name}: {e.Message}";
        }
    }

    private static string? Refused(Command command, string? file) =>
        command.Output.Length > 0 ? $"refused, and yet there is output: {command.Output}"
        : command.Errors.Length == 0 ? "refused without a word"
        : file is not null && File.Exists(file) && File.ReadAllText(file) != AskedWords.Before
            ? "refused, and yet there is a file"
        : null;

    private string? Read(Command command, string? file)
    {
        var files = file is null ? [] : Written(file);
        // A machine in which nothing is computed has no timeline to be seen.
        if (
            command.Output.Length == 0
            && files.Count == 0
            && asked.Option != Option.Refresh
            && asked.Option != Option.Dump
        )
        {
            return "done, and nothing came out";
        }
        foreach (var written in files)
        {
            var form = Path.GetExtension(written).TrimStart('.');
            WellFormed.Read(form, File.ReadAllBytes(written));
        }
        if (command.Output.Length > 0)
        {
            var form = asked.Option == Option.Help ? "text" : asked.Format ?? (asked.Verb.TakesView ? "svg" : "text");
            WellFormed.Read(form, System.Text.Encoding.UTF8.GetBytes(command.Output));
        }
        return null;
    }

    /// <summary>The file, those that were numbered in its place, or all in the folder.</summary>
    private static List<string> Written(string file) =>
        Directory.Exists(file) ? [.. Directory.EnumerateFiles(file, "*", SearchOption.AllDirectories)]
        : File.Exists(file) && File.ReadAllText(file) != AskedWords.Before ? [file]
        :
        [
            .. Directory.EnumerateFiles(
                Path.GetDirectoryName(file)!,
                $"{Path.GetFileNameWithoutExtension(file)}-*{Path.GetExtension(file)}"
            ),
        ];
}
