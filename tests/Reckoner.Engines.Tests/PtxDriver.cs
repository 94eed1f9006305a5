using System.Runtime.InteropServices;
using System.Text;
using static Reckoner.Engines.GraphicsCalls;

namespace Reckoner.Engines.Tests;

/// <summary>
/// A driver's library as Reckoner finds it: calls by name, answered by numbers. It has one processor, which runs the text of
/// kernels here, and its memory is a field of bytes.
/// </summary>
internal sealed class PtxDriver : IDisposable
{
    private const int Done = 0;
    private const nint Context = 11;
    private const nint Module = 12;
    private const nint Function = 13;

    private readonly Dictionary<string, Delegate> calls;
    private readonly byte[] memory = new byte[1 << 20];
    private readonly nint said = Marshal.StringToCoTaskMemUTF8("all is lost");
    private readonly Dictionary<string, int> asked = [];
    private PtxMachine? machine;
    private int used;

    public PtxDriver() =>
        calls = new()
        {
            ["cuInit"] = new OfNumber(_ => Answer("cuInit")),
            ["cuDeviceGetCount"] = new NumberOut((out number) => Answer("cuDeviceGetCount", out number, Processors)),
            ["cuDeviceGet"] = new NumberOfNumber((out number, of) => Answer("cuDeviceGet", out number, of)),
            ["cuDeviceGetName"] = new NameOut(Name),
            ["cuDeviceGetAttribute"] = new AttributeOut(
                (out value, _, _) => Answer("cuDeviceGetAttribute", out value, 1)
            ),
            ["cuDevicePrimaryCtxRetain"] = new HandleOfNumber(
                (out handle, _) => Answer("cuDevicePrimaryCtxRetain", out handle, Context)
            ),
            ["cuCtxSetCurrent"] = new OfHandle(_ => Answer("cuCtxSetCurrent")),
            ["cuCtxSynchronize"] = new Nothing(() => Answer("cuCtxSynchronize")),
            ["cuModuleLoadData"] = new HandleOfBytes(Load),
            ["cuModuleUnload"] = new OfHandle(_ => Answer("cuModuleUnload")),
            ["cuModuleGetFunction"] = new HandleOfName(
                (out handle, _, _) => Answer("cuModuleGetFunction", out handle, Function)
            ),
            ["cuFuncGetAttribute"] = new NumberOfHandle(
                (out value, _, _) => Answer("cuFuncGetAttribute", out value, 1)
            ),
            ["cuMemAlloc_v2"] = new AddressOut(Allocate),
            ["cuMemFree_v2"] = new OfAddress(_ => Answer("cuMemFree_v2")),
            ["cuMemsetD8_v2"] = new Filling(Fill),
            ["cuMemcpyDtoH_v2"] = new Copying(Copy),
            ["cuLaunchKernel"] = new Launching(Launch),
            ["cuGetErrorString"] = new Text((_, out text) => Answer("cuGetErrorString", out text, said)),
        };

    public int Processors { get; init; } = 1;

    /// <summary>A call that it lacks.</summary>
    public string? Lacks { get; init; }

    /// <summary>A call that fails with a number from some time on.</summary>
    public (string Call, int After, int With)? Fails { get; init; }

    public GraphicsDriver? Found() =>
        GraphicsDriver.Of(call =>
            call != Lacks && calls.TryGetValue(call, out var made) ? Marshal.GetFunctionPointerForDelegate(made) : 0
        );

    public IReadOnlyList<GraphicsProcessor> All() => GraphicsProcessor.All(Found());

    public void Dispose() => Marshal.FreeCoTaskMem(said);

    private int Answer(string call)
    {
        asked[call] = asked.GetValueOrDefault(call) + 1;
        return Fails is var (failing, after, with) && call == failing && asked[call] > after ? with : Done;
    }

    private int Answer<T>(string call, out T value, T known)
    {
        value = known;
        return Answer(call);
    }

    private int Name(byte[] name, int length, int device)
    {
        "made here"u8.CopyTo(name);
        return Answer("cuDeviceGetName");
    }

    private int Load(out nint handle, byte[] bytes)
    {
        machine = new PtxMachine(Encoding.ASCII.GetString(bytes).TrimEnd('\0'));
        return Answer("cuModuleLoadData", out handle, Module);
    }

    private int Allocate(out ulong address, nuint bytes)
    {
        address = (ulong)used;
        used += ((int)bytes + 7) / 8 * 8;
        return Answer("cuMemAlloc_v2");
    }

    private int Fill(ulong address, byte value, nuint bytes)
    {
        memory.AsSpan((int)address, (int)bytes).Fill(value);
        return Answer("cuMemsetD8_v2");
    }

    private int Copy(byte[] to, ulong from, nuint bytes)
    {
        memory.AsSpan((int)from, (int)bytes).CopyTo(to);
        return Answer("cuMemcpyDtoH_v2");
    }

    private int Launch(
        nint function,
        uint blocks,
        uint blocksY,
        uint blocksZ,
        uint threads,
        uint threadsY,
        uint threadsZ,
        uint shared,
        nint stream,
        nint[] parameters,
        nint extra
    )
    {
        var arguments = parameters.Select(place => (ulong)Marshal.ReadInt64(place));
        machine!.Run((int)blocks, (int)threads, [.. arguments], memory);
        return Answer("cuLaunchKernel");
    }
}
