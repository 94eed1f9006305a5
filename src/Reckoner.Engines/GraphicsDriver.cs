using System.Runtime.InteropServices;
using System.Text;
using Reckoner.Diagnostics;
using static Reckoner.Engines.GraphicsCalls;

namespace Reckoner.Engines;

/// <summary>
/// The driver's own library, found while the program runs; nothing of it comes with Reckoner. Calls that fail throw
/// <see cref="GraphicsException"/>. Handles and addresses are plain numbers.
/// </summary>
internal sealed class GraphicsDriver
{
    private const int Done = 0;
    private const int NoDevice = 100;

    private readonly Func<string, nint> export;

    private GraphicsDriver(Func<string, nint> export) => this.export = export;

    private static readonly string[] Names = OperatingSystem.IsWindows()
        ? ["nvcuda.dll"]
        : ["libcuda.so.1", "libcuda.so"];

    /// <summary>Null where there is no driver, or it finds no processor.</summary>
    public static GraphicsDriver? Find()
    {
        foreach (var name in Names)
        {
            if (IsLoaded(name, out var found))
            {
                return Of(call => NativeLibrary.TryGetExport(found, call, out var address) ? address : 0);
            }
        }
        return null;
    }

    /// <summary>Null where some of what is called is not there, or no processor is found.</summary>
    /// <param name="export">Where a call of a name begins; 0 where there is none.</param>
    internal static GraphicsDriver? Of(Func<string, nint> export)
    {
        var driver = new GraphicsDriver(export);
        return driver.IsComplete && driver.Call<OfNumber>("cuInit")(0) == Done && driver.Count > 0 ? driver : null;
    }

    /// <summary>On Windows from the system's own folder alone: a library of that name beside the program is not the driver's.</summary>
    private static bool IsLoaded(string name, out nint found) =>
        OperatingSystem.IsWindows()
            ? NativeLibrary.TryLoad(name, typeof(GraphicsDriver).Assembly, DllImportSearchPath.System32, out found)
            : NativeLibrary.TryLoad(name, out found);

    /// <summary>An older driver, or another library of that name, lacks some of what is called here.</summary>
    private bool IsComplete => Array.TrueForAll(Calls, call => export(call) != 0);

    private static readonly string[] Calls =
    [
        "cuInit",
        "cuDeviceGetCount",
        "cuDeviceGet",
        "cuDeviceGetName",
        "cuDeviceGetAttribute",
        "cuDevicePrimaryCtxRetain",
        "cuCtxSetCurrent",
        "cuCtxSynchronize",
        "cuModuleLoadData",
        "cuModuleUnload",
        "cuModuleGetFunction",
        "cuFuncGetAttribute",
        "cuMemAlloc_v2",
        "cuMemFree_v2",
        "cuMemsetD8_v2",
        "cuMemcpyDtoH_v2",
        "cuLaunchKernel",
        "cuGetErrorString",
    ];

    private readonly Dictionary<string, Delegate> made = [];

    private T Call<T>(string name)
        where T : Delegate
    {
        lock (made)
        {
            if (!made.TryGetValue(name, out var call))
            {
                call = Marshal.GetDelegateForFunctionPointer<T>(export(name));
                made.Add(name, call);
            }
            return (T)call;
        }
    }

    public int Count => Call<NumberOut>("cuDeviceGetCount")(out var count) is Done ? count : 0;

    public string NameOf(int device)
    {
        var name = new byte[128];
        return Call<NameOut>("cuDeviceGetName")(name, name.Length - 1, device) == Done
            ? Encoding.UTF8.GetString(name).TrimEnd('\0')
            : $"{device}";
    }

    public int Device(int ordinal) =>
        Call<NumberOfNumber>("cuDeviceGet")(out var device, ordinal) == Done ? device : ordinal;

    private const int OfClock = 13;
    private const int OfMultiprocessors = 16;

    public int Multiprocessors(int device) => Attribute(device, OfMultiprocessors);

    public double Hertz(int device) => 1e3 * Attribute(device, OfClock);

    private int Attribute(int device, int which)
    {
        Call<AttributeOut>("cuDeviceGetAttribute")(out var value, which, device);
        return value;
    }

    /// <summary>The context of a device that all of the process shares.</summary>
    public nint Context(string name, int device)
    {
        Ask(name, Call<HandleOfNumber>("cuDevicePrimaryCtxRetain")(out var context, device));
        return context;
    }

    /// <summary>What this thread asks from now on is asked of that context's device.</summary>
    public void Enter(string name, nint context) => Ask(name, Entered(context));

    /// <summary>The same, or false where the device is gone.</summary>
    public bool IsEntered(nint context) => Entered(context) == Done;

    private int Entered(nint context) => Call<OfHandle>("cuCtxSetCurrent")(context);

    /// <summary>Compiles a text of kernels for the device.</summary>
    public nint Module(string name, string text)
    {
        Ask(name, Call<HandleOfBytes>("cuModuleLoadData")(out var module, Encoding.ASCII.GetBytes(text + '\0')));
        return module;
    }

    /// <summary>Gives a module back; a device that is gone has none any more.</summary>
    public void Unload(nint module) => Call<OfHandle>("cuModuleUnload")(module);

    public nint Function(string name, nint module, string entry)
    {
        Ask(
            name,
            Call<HandleOfName>("cuModuleGetFunction")(out var function, module, Encoding.ASCII.GetBytes(entry + '\0'))
        );
        return function;
    }

    /// <summary>How many registers of 32 bits a thread takes, and bytes of memory for those that do not fit.</summary>
    public (int Registers, int Spilled) Taken(nint function)
    {
        const int OfRegisters = 4;
        const int OfLocalBytes = 3;
        Call<NumberOfHandle>("cuFuncGetAttribute")(out var registers, OfRegisters, function);
        Call<NumberOfHandle>("cuFuncGetAttribute")(out var spilled, OfLocalBytes, function);
        return (registers, spilled);
    }

    public ulong Memory(string name, int bytes)
    {
        Ask(name, Call<AddressOut>("cuMemAlloc_v2")(out var address, (nuint)bytes));
        return address;
    }

    public void Free(ulong address) => Call<OfAddress>("cuMemFree_v2")(address);

    public void Clear(string name, ulong address, int bytes) =>
        Ask(name, Call<Filling>("cuMemsetD8_v2")(address, 0, (nuint)bytes));

    public byte[] Read(string name, ulong address, int bytes)
    {
        var read = new byte[bytes];
        Ask(name, Call<Copying>("cuMemcpyDtoH_v2")(read, address, (nuint)bytes));
        return read;
    }

    /// <summary>Runs so many blocks of threads to their end.</summary>
    public void Run(string name, nint function, uint blocks, uint threads, params ReadOnlySpan<ulong> parameters)
    {
        var values = GCHandle.Alloc(parameters.ToArray(), GCHandleType.Pinned);
        try
        {
            var first = values.AddrOfPinnedObject();
            nint[] places = [.. Enumerable.Range(0, parameters.Length).Select(i => first + i * sizeof(ulong))];
            Ask(name, Call<Launching>("cuLaunchKernel")(function, blocks, 1, 1, threads, 1, 1, 0, 0, places, 0));
            Ask(name, Call<Nothing>("cuCtxSynchronize")());
        }
        finally
        {
            values.Free();
        }
    }

    private void Ask(string name, int result)
    {
        if (result != Done)
        {
            throw new GraphicsException(name, Reason(result));
        }
    }

    private Term Reason(int result)
    {
        const int OutOfMemory = 2;
        const int Unavailable = 46;
        const int InvalidDevice = 101;
        const int NoCompiler = 221;
        const int UnsupportedText = 222;
        return result switch
        {
            OutOfMemory => new Term("graphics.memory"),
            Unavailable or NoDevice or InvalidDevice => new Term("graphics.gone"),
            NoCompiler or UnsupportedText => new Term("graphics.old"),
            _ => new Term("graphics.driver", ("text", Said(result))),
        };
    }

    private string Said(int result) =>
        Call<Text>("cuGetErrorString")(result, out var text) == Done && Marshal.PtrToStringUTF8(text) is { } said
            ? said
            : $"{result}";
}
