using Reckoner.Questions;
using Reckoner.Words;
using StreamJsonRpc;

namespace Reckoner.Editor;

/// <summary>
/// What the protocol calls a server: it keeps the texts as they are told, in the order in which it is told, and answers from them on
/// other threads, so that nothing that is asked holds up what is typed.
/// </summary>
internal sealed class EditorServer(Vocabulary words, string version) : IDisposable
{
    private const int NotInitialized = -32002;
    private const int InvalidRequest = -32600;
    private const int RequestFailed = -32803;

    /// <summary>Whoever types is not told of every letter.</summary>
    private static readonly TimeSpan Pause = TimeSpan.FromMilliseconds(150);

    private readonly Desk desk = new() { Words = words };
    private readonly TaskCompletionSource ended = new();
    private CancellationTokenSource judging = new();
    private Task judged = Task.CompletedTask;
    private bool isBegun;

    public JsonRpc? Client { get; set; }

    /// <summary>When the editor has said "exit".</summary>
    public Task Ended => ended.Task;

    public bool IsShutDown { get; private set; }

    [JsonRpcMethod("initialize", UseSingleObjectParameterDeserialization = true)]
    public Initialized Initialize(Initialize? asked)
    {
        isBegun = true;
        desk.TakesVersions = asked?.Capabilities?.Workspace?.WorkspaceEdit?.DocumentChanges == true;
        if (asked?.InitializationOptions is { } options)
        {
            desk.Width = options.Width is { } width ? AskedWidths.Read(width) : AskedWidths.Usual;
            desk.Words = options.Language is { } language ? Vocabulary.Of(language) ?? desk.Words : desk.Words;
        }
        return new Initialized(new Capabilities(), new ServerInfo("reckoner", version));
    }

    [JsonRpcMethod("initialized")]
    public static void Begun() { }

    [JsonRpcMethod("shutdown")]
    public object? ShutDown()
    {
        Ready();
        IsShutDown = true;
        judging.Cancel();
        return null;
    }

    [JsonRpcMethod("exit")]
    public void Leave() => ended.TrySetResult();

    [JsonRpcMethod("textDocument/didOpen", UseSingleObjectParameterDeserialization = true)]
    public void Opened(DidOpen told) => Put(told.TextDocument.Uri, told.TextDocument.Version, told.TextDocument.Text);

    [JsonRpcMethod("textDocument/didChange", UseSingleObjectParameterDeserialization = true)]
    public void Changed(DidChange told)
    {
        if (desk.Find(told.TextDocument.Uri) is not { } document)
        {
            return;
        }
        var text = document.Source.Text;
        foreach (var change in told.ContentChanges)
        {
            text = Applied(text, change);
        }
        Put(document.Uri, told.TextDocument.Version ?? document.Version + 1, text);
    }

    private static string Applied(string text, TextChange change)
    {
        if (change.Range is not { } range)
        {
            return change.Text;
        }
        var source = new Source("", text);
        var (from, to) = (Places.At(source, range.Start), Places.At(source, range.End));
        return source.Text[..from] + change.Text + source.Text[Math.Max(from, to)..];
    }

    [JsonRpcMethod("textDocument/didClose", UseSingleObjectParameterDeserialization = true)]
    public void Closed(AboutDocument told)
    {
        desk.Remove(told.TextDocument.Uri);
        JudgeAnew();
        _ = Tell(new PublishDiagnostics(told.TextDocument.Uri, null, []));
    }

    private void Put(string uri, int version, string text)
    {
        if (!isBegun || IsShutDown)
        {
            return;
        }
        desk.Put(uri, version, text);
        JudgeAnew();
    }

    private void JudgeAnew()
    {
        judging.Cancel();
        judging.Dispose();
        judging = new CancellationTokenSource();
        judged = Judge(desk.Open, desk.Words, judged, judging.Token);
    }

    /// <summary>Says of every open text what is wrong with it, unless another letter is typed first.</summary>
    /// <param name="before">Who judged before ends first, so that no two read at a time and nothing old is told last.</param>
    private async Task Judge(IReadOnlyList<OpenDocument> open, Vocabulary said, Task before, CancellationToken stop)
    {
        try
        {
            await before.ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
            await Task.Delay(Pause, stop).ConfigureAwait(false);
            foreach (var document in open)
            {
                var notes = await Task.Run(() => Answers.Notes(document, said), stop).ConfigureAwait(false);
                stop.ThrowIfCancellationRequested();
                await Tell(new PublishDiagnostics(document.Uri, document.Version, notes)).ConfigureAwait(false);
            }
        }
        catch (OperationCanceledException)
        {
            // Another letter was typed.
        }
    }

    private async Task Tell(PublishDiagnostics told)
    {
        try
        {
            await Client!.NotifyWithParameterObjectAsync("textDocument/publishDiagnostics", told).ConfigureAwait(false);
        }
        catch (Exception e) when (e is ConnectionLostException or ObjectDisposedException or IOException)
        {
            // Nobody is there any more to be told.
        }
    }

    [JsonRpcMethod("textDocument/hover", UseSingleObjectParameterDeserialization = true)]
    public Task<Hover?> Hover(AboutPlace asked, CancellationToken stop) =>
        About(asked.TextDocument, (d, now) => Answers.Hover(d, asked.Position, now.Words, stop), stop);

    [JsonRpcMethod("textDocument/definition", UseSingleObjectParameterDeserialization = true)]
    public Task<Location?> Definition(AboutPlace asked, CancellationToken stop) =>
        About(
            asked.TextDocument,
            (d, now) => Task.FromResult(new Naming(now, d, stop).Definition(asked.Position)),
            stop
        );

    [JsonRpcMethod("textDocument/references", UseSingleObjectParameterDeserialization = true)]
    public Task<IReadOnlyList<Location>?> References(References asked, CancellationToken stop) =>
        About(
            asked.TextDocument,
            (d, now) =>
                Task.FromResult<IReadOnlyList<Location>?>(
                    new Naming(now, d, stop).References(asked.Position, asked.Context?.IncludeDeclaration != false)
                ),
            stop
        );

    [JsonRpcMethod("textDocument/completion", UseSingleObjectParameterDeserialization = true)]
    public Task<IReadOnlyList<CompletionItem>?> Completion(AboutPlace asked, CancellationToken stop) =>
        About(
            asked.TextDocument,
            (d, now) =>
                Task.FromResult<IReadOnlyList<CompletionItem>?>(
                    Answers.Completions(d, asked.Position, now.NamesBeside(d), now.Words)
                ),
            stop
        );

    [JsonRpcMethod("textDocument/prepareRename", UseSingleObjectParameterDeserialization = true)]
    public Task<TextRange?> PrepareRename(AboutPlace asked, CancellationToken stop) =>
        About(
            asked.TextDocument,
            (d, now) => Task.FromResult(new Naming(now, d, stop).Changeable(asked.Position)),
            stop
        );

    [JsonRpcMethod("textDocument/rename", UseSingleObjectParameterDeserialization = true)]
    public Task<WorkspaceEdit?> Rename(Rename asked, CancellationToken stop) =>
        About(
            asked.TextDocument,
            (d, now) =>
            {
                var (edit, refusal) = new Naming(now, d, stop).Rename(asked.Position, asked.NewName, now.Words);
                return refusal is null ? Task.FromResult(edit) : throw Refused(RequestFailed, refusal);
            },
            stop
        );

    [JsonRpcMethod("textDocument/formatting", UseSingleObjectParameterDeserialization = true)]
    public Task<IReadOnlyList<TextEdit>?> Format(AboutDocument asked, CancellationToken stop) =>
        About(asked.TextDocument, (d, _) => Task.FromResult<IReadOnlyList<TextEdit>?>(Answers.Formatted(d)), stop);

    [JsonRpcMethod("textDocument/documentSymbol", UseSingleObjectParameterDeserialization = true)]
    public Task<IReadOnlyList<DocumentSymbol>?> Symbols(AboutDocument asked, CancellationToken stop) =>
        About(
            asked.TextDocument,
            (d, now) => Task.FromResult<IReadOnlyList<DocumentSymbol>?>(Answers.Symbols(d, now.Words)),
            stop
        );

    [JsonRpcMethod("textDocument/foldingRange", UseSingleObjectParameterDeserialization = true)]
    public Task<IReadOnlyList<FoldingRange>?> Folding(AboutDocument asked, CancellationToken stop) =>
        About(asked.TextDocument, (d, _) => Task.FromResult<IReadOnlyList<FoldingRange>?>(Answers.Folding(d)), stop);

    [JsonRpcMethod("textDocument/codeAction", UseSingleObjectParameterDeserialization = true)]
    public Task<IReadOnlyList<CodeAction>?> Cures(AboutRange asked, CancellationToken stop) =>
        About(
            asked.TextDocument,
            (d, now) => Task.FromResult<IReadOnlyList<CodeAction>?>(Answers.Cures(d, asked.Range, now)),
            stop
        );

    /// <summary>An answer about a text and the others as they are now, looked for on another thread; null where it is not open.</summary>
    private Task<T?> About<T>(DocumentId asked, Func<OpenDocument, Desk, Task<T?>> answer, CancellationToken stop)
        where T : class
    {
        Ready();
        var now = desk.AsNow();
        return now.Find(asked.Uri) is { } document
            ? Task.Run(() => answer(document, now), stop)
            : Task.FromResult<T?>(null);
    }

    private void Ready()
    {
        if (!isBegun)
        {
            throw Refused(NotInitialized, desk.Words.Say("editor.not-begun"));
        }
        if (IsShutDown)
        {
            throw Refused(InvalidRequest, desk.Words.Say("editor.ended"));
        }
    }

    private static LocalRpcException Refused(int code, string said) => new(said) { ErrorCode = code };

    public void Dispose()
    {
        judging.Cancel();
        judging.Dispose();
    }
}
