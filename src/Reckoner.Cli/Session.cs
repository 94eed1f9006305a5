using System.Diagnostics;
using System.Text;
using Reckoner.Diagnostics;
using Reckoner.Engines;
using Reckoner.Questions;
using Reckoner.Reporting;
using Reckoner.Tables;
using Reckoner.Words;

namespace Reckoner.Cli;

/// <summary>Exit statuses, as the handbook states them.</summary>
internal static class Exit
{
    public const int Done = 0;
    public const int DoesNotHold = 1;
    public const int Wrong = 2;
    public const int OurFault = 70;
    public const int Interrupted = 130;
}

/// <summary>One run of the command: reads the request, runs the verb, writes results and diagnostics.</summary>
internal sealed class Session(TextWriter output, TextWriter errors) : IDisposable, IWatch
{
    private const int DefaultColumns = 80;

    public Vocabulary Words { get; set; } = Vocabulary.English;

    /// <summary>Where files are written.</summary>
    public Disk Disk { get; init; } = Disk.Real;

    /// <summary>What runs checks. Engines are looked for when something is first asked of them: help starts without.</summary>
    public ICheckRunner Runner
    {
        get => runner ??= new ThreadedRunner(EngineChoice.Widest, Environment.ProcessorCount);
        init => runner = value;
    }

    private ICheckRunner? runner;

    /// <summary>What comes in, for the verb that is talked to.</summary>
    public Func<Stream> Input { get; init; } = Console.OpenStandardInput;

    /// <summary>The page's width: the terminal's, or COLUMNS, or 80.</summary>
    public int Columns { get; } = PageWidth();

    public int Run(IReadOnlyList<string> arguments)
    {
        try
        {
            return Run(Request.Read(arguments));
        }
        catch (IOException e) when (IsClosedPipe(e))
        {
            // Whoever read us (head, a pager) has seen enough.
            return Exit.Done;
        }
        catch (OperationCanceledException) when (stop.IsCancellationRequested)
        {
            // What was asked has no answer for a part of the work.
            return Exit.Interrupted;
        }
        catch (OutputException e)
        {
            Complain(Words.Say("output-unwritable", ("reason", e.Message.TrimEnd('.'))) + "\n");
            return Exit.Wrong;
        }
#pragma warning disable CA1031 // Whatever went wrong is our fault, and no user reads stack traces.
        catch (Exception e)
#pragma warning restore CA1031
        {
            Complain(Words.Say("fault", ("reason", $"{e.GetType().Name}: {e.Message}")) + "\n");
            if (Environment.GetEnvironmentVariable("RECKONER_TRACE") is { Length: > 0 })
            {
                Complain(e + "\n");
            }
            return Exit.OurFault;
        }
    }

    /// <summary>The output took no more: a full disk, say. Not to be taken for a slip of ours.</summary>
    private sealed class OutputException(string reason, Exception inner) : Exception(reason, inner);

    /// <summary>Where even the error stream takes nothing, the exit status is all that can be said.</summary>
    public void Complain(string text)
    {
        try
        {
            errors.Write(text);
            errors.Flush();
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException) { }
    }

    private void Print(string text) => Print(output => output.Write(text));

    private void Print(Action<TextWriter> write)
    {
        try
        {
            write(output);
            output.Flush();
        }
        catch (IOException e) when (!IsClosedPipe(e))
        {
            throw new OutputException(e.Message, e);
        }
        catch (UnauthorizedAccessException e)
        {
            // Written to what was closed before the start.
            throw new OutputException(Words.Say("is-closed"), e);
        }
    }

    private static bool IsClosedPipe(IOException e) =>
        e.HResult is 32 or unchecked((int)0x8007006D) or unchecked((int)0x800700E8);

    private readonly CancellationTokenSource stop = new();

    /// <summary>Whether Ctrl-C was pressed while it lets a run end cleanly: what was found then is not all that was asked.</summary>
    public bool IsStopped => stop.IsCancellationRequested;
    private bool stopsCleanly;
    private bool isListening;

    /// <summary>The first Ctrl-C lets a long run say what it covered; a second, or one outside such a run, ends at once.</summary>
    private void Interrupted(object? sender, ConsoleCancelEventArgs e)
    {
        if (stopsCleanly && !stop.IsCancellationRequested)
        {
            e.Cancel = true;
            stop.Cancel();
        }
        else
        {
            Environment.Exit(Exit.Interrupted);
        }
    }

    /// <summary>
    /// What questions are answered with here: all processors, and while a check runs progress on a terminal and a Ctrl-C that
    /// lets it end cleanly.
    /// </summary>
    public Means Means => new(Runner, () => clock.Elapsed) { Watch = this, Stop = stop.Token };

    private readonly Stopwatch clock = Stopwatch.StartNew();
    private Progress? progress;

    Action<long> IWatch.Begin(long casesEach, long from, long to)
    {
        stopsCleanly = true;
        var shown = new Progress(casesEach, Console.IsErrorRedirected ? null : errors, Words, from, to);
        progress = shown;
        return done => shown.Tell(from + done);
    }

    void IWatch.End()
    {
        progress?.Clear();
        stopsCleanly = false;
    }

    /// <summary>The data of an answer; null when the question was refused or could not be built, which has been said.</summary>
    /// <param name="answer">Null where the request's report says why there is no question.</param>
    /// <param name="remarks">Whether what is remarked about machines of files is said too.</param>
    public T? Asked<T>(Request request, Answer<T>? answer, bool remarks = true)
        where T : class
    {
        if (answer is null)
        {
            Refuse(request);
            return null;
        }
        if (remarks)
        {
            Remark(answer.Found, request);
        }
        if (answer.Data is { } data)
        {
            return data;
        }
        var refusals = answer.Refusals.ToList();
        if (refusals.Exists(f => Placing.HasText(f) || f.Part == AskedPart.Widths))
        {
            Refuse([.. refusals.Select(f => Placing.Placed(f, request))]);
        }
        else
        {
            Placing.Report(refusals, request);
            Refuse(request);
        }
        return null;
    }

    /// <summary>Of a machine that does not hold together only that is said, and those of the catalogue have no remarks.</summary>
    private void Remark(IReadOnlyList<Finding> found, Request request)
    {
        var without = found.Where(f => f is { Part: AskedPart.Invariant, Diagnostic.Severity: Severity.Remark });
        foreach (var remark in without)
        {
            Remark([Placing.Placed(remark, request)]);
        }
        var machines = found
            .Where(f => f.Part is AskedPart.Description or AskedPart.Widths or AskedPart.Slip)
            .GroupBy(f => f.Index);
        foreach (var machine in machines.Where(m => m.All(f => f.Diagnostic.Severity != Severity.Error)))
        {
            if (Placing.Machine(machine.Key, request) is { } word && MachineFiles.IsFile(word.Text))
            {
                Remark([.. machine.Select(f => f.Diagnostic).Where(d => d.Severity == Severity.Remark)]);
            }
        }
    }

    /// <summary>Runs something that goes on until Ctrl-C, which then is its normal end.</summary>
    public void UntilStopped(Func<CancellationToken, Task> run)
    {
        stopsCleanly = true;
        run(stop.Token).GetAwaiter().GetResult();
        stopsCleanly = false;
    }

    /// <summary>A line of the result, at once.</summary>
    public void Tell(string line) => Print(line + "\n");

    private int Run(Request request)
    {
        ChooseLanguage(request);
        if (request.Report.Count == 0 && request.Has(Option.Version))
        {
            return Write(request, ProductVersion.Text(Words));
        }
        if (request.Report.Count == 0 || (request.Has(Option.Help) && request.Verb is not null))
        {
            if (request.Verb is null || request.Has(Option.Help))
            {
                Print(
                    request.Verb is null ? HelpText.General(Words, Columns) : HelpText.Of(request.Verb, Words, Columns)
                );
                return Exit.Done;
            }
            AskedForm.Check(request);
        }
        if (request.Report.HasErrors)
        {
            return Refuse(request);
        }
        // To listen for keys takes as long as all that was done until here.
        Console.CancelKeyPress += Interrupted;
        isListening = true;
        return request.Verb!.Run(this, request);
    }

    private void ChooseLanguage(Request request)
    {
        if (request[Option.Language] is { } language)
        {
            if (Vocabulary.Of(language.Text) is { } words)
            {
                Words = words;
            }
            else
            {
                request.Report.Add(
                    Id.OptionValue,
                    language.Span,
                    ("option", "--language"),
                    ("value", language.Text),
                    ("known", Vocabulary.Languages),
                    ("near", NearNames.Of(language.Text, Vocabulary.Languages))
                );
            }
        }
    }

    /// <summary>Says that a stop came before there was anything to write.</summary>
    public int Stopped()
    {
        Complain(Words.Say("stopped") + "\n");
        return Exit.Interrupted;
    }

    /// <summary>Says on the error stream what is wrong with a description; nothing else is written.</summary>
    public int Refuse(IReadOnlyList<Diagnostic> diagnostics)
    {
        Remark(diagnostics);
        return Exit.Wrong;
    }

    /// <summary>Of a request only the first that is wrong: it is typed again anyway, and the rest may follow from that.</summary>
    public int Refuse(Request request) => Refuse([.. request.Report.InOrder().Take(1)]);

    public void Remark(IReadOnlyList<Diagnostic> diagnostics) =>
        Complain(DiagnosticText.Of(diagnostics, Words, Columns));

    /// <summary>Writes a result to the output or, whole or not at all, to the file that -o names.</summary>
    public int Write(Request request, string text, int status = Exit.Done) =>
        Write(request, stream => stream.Write(Encoding.UTF8.GetBytes(text)), status);

    /// <summary>The same for one that may be so long that it is written as it is made.</summary>
    /// <param name="write">Writes it as UTF-8.</param>
    public int Write(Request request, Action<Stream> write, int status = Exit.Done)
    {
        if (request[Option.Output] is { } file)
        {
            return OutputFile.Write(this, request, file, write) ? status : Refuse(request);
        }
        Print(text =>
        {
            using var stream = new TextStream(text);
            write(stream);
        });
        return status;
    }

    /// <summary>Writes a document of tables in the form that is asked for.</summary>
    public int Write(Request request, Document document, int status)
    {
        var format = TableFormat.Of(request);
        if (format.IsText || request.Has(Option.Output))
        {
            return Write(request, stream => format.Write(stream, document, Words, Columns), status);
        }
        request.Report.Add(Id.FileNeeded, request[Option.Format]!.Span, ("format", format.Name));
        return Refuse(request);
    }

    private static int PageWidth()
    {
        if (int.TryParse(Environment.GetEnvironmentVariable("COLUMNS"), out var columns) && columns >= 40)
        {
            return Math.Min(columns, 400);
        }
        if (Console.IsOutputRedirected)
        {
            return DefaultColumns;
        }
        try
        {
            return Console.WindowWidth >= 40 ? Console.WindowWidth : DefaultColumns;
        }
        catch (IOException)
        {
            return DefaultColumns;
        }
    }

    public void Dispose()
    {
        if (isListening)
        {
            Console.CancelKeyPress -= Interrupted;
        }
        stop.Dispose();
    }
}
