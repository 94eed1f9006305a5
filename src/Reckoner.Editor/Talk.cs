using System.Text.Json;
using System.Text.Json.Serialization;
using Microsoft.VisualStudio.Threading;
using Reckoner.Words;
using StreamJsonRpc;
using StreamJsonRpc.Protocol;

namespace Reckoner.Editor;

/// <summary>How a talk with an editor came to its end.</summary>
internal enum TalkEnd
{
    /// <summary>As the protocol has it: "shutdown", then "exit".</summary>
    Done,

    /// <summary>"exit" without "shutdown".</summary>
    Abrupt,

    /// <summary>The editor was gone, or what it sent was nothing that the protocol knows.</summary>
    Gone,
}

/// <summary>A talk with one editor over a pair of streams.</summary>
internal static class Talk
{
    /// <param name="version">Which reckoner this is, as "--version" says it.</param>
    public static async Task<TalkEnd> Run(Stream input, Stream output, Vocabulary words, string version)
    {
        using var server = new EditorServer(words, version);
        using var formatter = new SystemTextJsonFormatter
        {
            JsonSerializerOptions = new JsonSerializerOptions
            {
                PropertyNamingPolicy = JsonNamingPolicy.CamelCase,
                DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull,
                RespectNullableAnnotations = true,
                RespectRequiredConstructorParameters = true,
            },
        };
        using var handler = new HeaderDelimitedMessageHandler(output, input, formatter);
        var order = new NonConcurrentSynchronizationContext(sticky: false);
        using var talk = new QuietRpc(handler, words) { SynchronizationContext = order };
        talk.TraceSource.Listeners.Clear();
        talk.AddLocalRpcTarget(server, new JsonRpcTargetOptions { DisposeOnDisconnect = false });
        server.Client = talk;
        talk.StartListening();
        try
        {
            await Task.WhenAny(server.Ended, talk.Completion).ConfigureAwait(false);
            await Passed(order).ConfigureAwait(false);
            return !server.Ended.IsCompleted ? TalkEnd.Gone
                : server.IsShutDown ? TalkEnd.Done
                : TalkEnd.Abrupt;
        }
        finally
        {
            // Whatever ended it has been told by what is returned.
            _ = talk.Completion.ContinueWith(t => t.Exception, TaskScheduler.Default);
        }
    }

    /// <summary>When all has been done that was said before: the end of the line is seen before the last words are heard.</summary>
    private static Task Passed(NonConcurrentSynchronizationContext order)
    {
        var passed = new TaskCompletionSource(TaskCreationOptions.RunContinuationsAsynchronously);
        order.Post(_ => passed.SetResult(), null);
        return passed.Task;
    }

    /// <summary>What goes wrong is told in one sentence; where in the program it was is nothing for an editor.</summary>
    private sealed class QuietRpc(IJsonRpcMessageHandler handler, Vocabulary words) : JsonRpc(handler)
    {
        protected override JsonRpcError.ErrorDetail CreateErrorDetails(JsonRpcRequest request, Exception exception) =>
            exception switch
            {
                LocalRpcException told => new() { Code = (JsonRpcErrorCode)told.ErrorCode, Message = told.Message },
                JsonException or RpcArgumentDeserializationException => new()
                {
                    Code = JsonRpcErrorCode.InvalidParams,
                    Message = words.Say("editor.not-understood"),
                },
                OperationCanceledException => base.CreateErrorDetails(request, exception),
                _ => new() { Code = JsonRpcErrorCode.InternalError, Message = words.Say("editor.fault") },
            };
    }
}
