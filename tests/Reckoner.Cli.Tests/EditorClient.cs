using System.IO.Pipelines;
using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;
using Reckoner.Editor;
using Reckoner.Words;

namespace Reckoner.Cli.Tests;

/// <summary>
/// An editor that knows nothing of the server's own types: it writes and reads the messages of the protocol byte by byte, a head of
/// lines and a body of JSON.
/// </summary>
internal sealed class EditorClient : IDisposable
{
    private static readonly TimeSpan Patience = TimeSpan.FromMinutes(1);

    private readonly Pipe toServer = new();
    private readonly Pipe fromServer = new();
    private readonly Stream input;
    private readonly Stream output;
    private int lastId;

    public EditorClient()
    {
        input = fromServer.Reader.AsStream();
        output = toServer.Writer.AsStream();
        Talk = Task.Run(() =>
            Editor.Talk.Run(toServer.Reader.AsStream(), fromServer.Writer.AsStream(), Vocabulary.English, "1.2.3")
        );
    }

    /// <summary>The server's side; ends when the talk has.</summary>
    public Task<TalkEnd> Talk { get; }

    /// <summary>How the talk ends; it does soon.</summary>
    public TalkEnd End() => Talk.Wait(Patience) ? Talk.Result : throw new TimeoutException("The talk does not end.");

    /// <summary>What was told without being asked.</summary>
    public List<JsonNode> Told { get; } = [];

    public static EditorClient Begun(object? options = null)
    {
        var client = new EditorClient();
        client.Ask("initialize", new { capabilities = new { }, initializationOptions = options });
        client.Tell("initialized", new { });
        return client;
    }

    public void Open(string uri, string text, int version = 1) =>
        Tell(
            "textDocument/didOpen",
            new
            {
                textDocument = new
                {
                    uri,
                    languageId = "machine",
                    version,
                    text,
                },
            }
        );

    public void Tell(string method, object about) =>
        Send(
            new
            {
                jsonrpc = "2.0",
                method,
                @params = about,
            }
        );

    /// <summary>The whole answer: with "result" or with "error".</summary>
    public JsonNode Ask(string method, object? about)
    {
        var id = Begin(method, about);
        return Answer(id);
    }

    public int Begin(string method, object? about)
    {
        Send(
            new
            {
                jsonrpc = "2.0",
                id = ++lastId,
                method,
                @params = about,
            }
        );
        return lastId;
    }

    public JsonNode Answer(int id)
    {
        while (true)
        {
            var message = Read();
            if (message["id"] is { } answered && answered.GetValue<int>() == id)
            {
                return message;
            }
            Told.Add(message);
        }
    }

    /// <summary>What is wrong with a text, as soon as it is told of so new a version.</summary>
    public IReadOnlyList<JsonNode> Notes(string uri, int version)
    {
        while (true)
        {
            var told = Told.LastOrDefault(t =>
                t["params"]!["uri"]!.GetValue<string>() == uri && t["params"]!["version"]?.GetValue<int>() == version
            );
            if (told is not null)
            {
                return [.. told["params"]!["diagnostics"]!.AsArray().Select(d => d!)];
            }
            Told.Add(Read());
        }
    }

    public static object Place(string uri, int line, int character) =>
        new { textDocument = new { uri }, position = new { line, character } };

    private void Send(object message)
    {
        var body = JsonSerializer.SerializeToUtf8Bytes(message);
        Raw(Encoding.ASCII.GetBytes($"Content-Length: {body.Length}\r\n\r\n"));
        Raw(body);
    }

    /// <summary>Bytes that may be no message.</summary>
    public void Raw(ReadOnlySpan<byte> bytes)
    {
        output.Write(bytes);
        output.Flush();
    }

    /// <summary>The line goes dead.</summary>
    public void HangUp() => output.Dispose();

    private JsonNode Read()
    {
        var head = new StringBuilder();
        while (!head.ToString().EndsWith("\r\n\r\n", StringComparison.Ordinal))
        {
            head.Append((char)Bytes(1)[0]);
        }
        var length = head.ToString()
            .Split("\r\n")
            .First(l => l.StartsWith("Content-Length: ", StringComparison.Ordinal));
        return JsonNode.Parse(Bytes(int.Parse(length["Content-Length: ".Length..])))!;
    }

    private byte[] Bytes(int count)
    {
        var bytes = new byte[count];
        var read = input.ReadExactlyAsync(bytes).AsTask();
        return read.Wait(Patience) ? bytes : throw new TimeoutException("The server says nothing.");
    }

    public void Dispose()
    {
        output.Dispose();
        input.Dispose();
    }
}
