using System.Collections.Concurrent;
using System.Diagnostics;
using Xunit;

namespace Reckoner.Testing;

/// <summary>What a program left when it had ended.</summary>
internal sealed record Ended(int Status, string Output, string Errors);

/// <summary>
/// A program that a test starts. It has so much time for whatever it is asked; if that is not enough, it is killed with all that
/// it started, and the test fails and names it. What a test leaves running ends with the test.
/// </summary>
internal sealed class Child : IDisposable
{
    /// <summary>Much more than any of them needs on a machine that does much else at a time.</summary>
    private static readonly TimeSpan Usual = TimeSpan.FromMinutes(5);

    private static readonly ConcurrentDictionary<Child, bool> Running = new();

    private readonly Process process;
    private readonly string line;
    private readonly TimeSpan patience;
    private readonly Task<string> errors;
    private Task<string>? output;

    private Child(ProcessStartInfo start, TimeSpan patience)
    {
        this.patience = patience;
        line = string.Join(' ', start.ArgumentList.Prepend(start.FileName));
        start.RedirectStandardInput = true;
        start.RedirectStandardOutput = true;
        start.RedirectStandardError = true;
        process = Process.Start(start)!;
        errors = process.StandardError.ReadToEndAsync();
        Running[this] = true;
    }

    public static Child Start(ProcessStartInfo start, TimeSpan? patience = null) => new(start, patience ?? Usual);

    /// <summary>
    /// One that hears Ctrl-C even where the tests themselves were started with interrupts ignored, as a script does in the
    /// background: that is handed on to every program started.
    /// </summary>
    public static Child Interruptible(ProcessStartInfo start)
    {
        Assert.SkipUnless(OperatingSystem.IsLinux(), "not applicable: env --default-signal");
        string[] words = ["--default-signal=INT", start.FileName, .. start.ArgumentList];
        start.FileName = "env";
        start.ArgumentList.Clear();
        foreach (var word in words)
        {
            start.ArgumentList.Add(word);
        }
        return Start(start);
    }

    /// <summary>Runs a program to its end. Its input is what is given, and nothing more.</summary>
    public static Ended Run(ProcessStartInfo start, params IReadOnlyList<string> input)
    {
        using var child = Start(start);
        foreach (var text in input)
        {
            child.process.StandardInput.Write(text);
        }
        return child.End();
    }

    public static Ended Run(string program, params IReadOnlyList<string> arguments) =>
        Run(new ProcessStartInfo(program, arguments));

    /// <summary>Something for it to read; more may follow.</summary>
    public void Write(string text)
    {
        process.StandardInput.Write(text);
        process.StandardInput.Flush();
    }

    /// <summary>The next line of its output; to be asked before its end.</summary>
    public string? Line()
    {
        var read = process.StandardOutput.ReadLineAsync();
        return read.Wait(patience) ? read.Result : throw Hangs();
    }

    /// <summary>Whether it has not ended yet.</summary>
    public bool Runs => !process.HasExited;

    /// <summary>Waits until it has worked for so long, or has ended.</summary>
    public void Works(TimeSpan processorTime) => WaitFor(() => process.TotalProcessorTime >= processorTime);

    /// <summary>Waits until something is so, or it has ended.</summary>
    public void WaitFor(Func<bool> isSo)
    {
        var clock = Stopwatch.StartNew();
        while (!process.HasExited && !isSo())
        {
            Thread.Sleep(20);
            process.Refresh();
            if (clock.Elapsed > patience)
            {
                throw Hangs();
            }
        }
    }

    /// <summary>Ctrl-C.</summary>
    public void Interrupt() => Run("kill", "-INT", $"{process.Id}");

    /// <summary>Waits for its end, and for that of whatever still writes into its output.</summary>
    public Ended End()
    {
        process.StandardInput.Close();
        output ??= process.StandardOutput.ReadToEndAsync();
        return process.WaitForExit(patience) && Task.WaitAll([output, errors], patience)
            ? new Ended(process.ExitCode, output.Result, errors.Result)
            : throw Hangs();
    }

    private Xunit.Sdk.XunitException Hangs()
    {
        Kill();
        var said = errors.Wait(TimeSpan.FromSeconds(5)) ? errors.Result : "";
        return new Xunit.Sdk.XunitException($"no end after {patience.TotalSeconds:0} s: {line}\n{said}");
    }

    /// <summary>SIGKILL, without looking for what it started first.</summary>
    public void KillAtOnce()
    {
        process.Kill();
        process.WaitForExit(patience);
    }

    private void Kill()
    {
        try
        {
            process.Kill(entireProcessTree: true);
            process.WaitForExit(TimeSpan.FromSeconds(5));
        }
        catch (InvalidOperationException)
        {
            // It has ended by itself.
        }
    }

    /// <summary>Ends all that run, where the tests themselves have to be given up.</summary>
    public static void KillAll()
    {
        foreach (var child in Running.Keys)
        {
            child.Kill();
        }
    }

    public void Dispose()
    {
        Running.TryRemove(this, out _);
        Kill();
        process.Dispose();
    }
}
