namespace Reckoner.Checking;

/// <summary>
/// A WebAssembly module (128-bit SIMD) that runs a check's programs over one memory. Exports "memory"; "run", one run over all
/// lanes; "start", which gives an oracle its state where the check has one; and "ones", which counts the ones in the bytes from
/// its first argument to its second (a multiple of 8 apart).
/// </summary>
internal static class WasmModule
{
    /// <summary>Bytes from one plane to the next, as in <see cref="PlaneMemory"/>.</summary>
    public const int Stride = PlaneMemory.Stride * sizeof(ulong);

    private const int PageBytes = 65_536;

    private static readonly byte[] Header = [0x00, 0x61, 0x73, 0x6D, 0x01, 0x00, 0x00, 0x00];
    private static readonly byte[] Nothing = [0x60, 0, 0];
    private static readonly byte[] CountOfRange = [0x60, 2, WasmCode.I32, WasmCode.I32, 1, WasmCode.I32];

    private enum Section : byte
    {
        Types = 1,
        Functions = 3,
        Memory = 5,
        Exports = 7,
        Code = 10,
    }

    private enum Exported : byte
    {
        Function = 0,
        Memory = 2,
    }

    public static byte[] Of(CheckProgram check)
    {
        var functions = new List<WasmCode>();
        var exports = new List<WasmCode> { Export("memory", Exported.Memory, 0) };
        exports.Add(Export("run", Exported.Function, Enter(functions, check.Program)));
        if (check.Start is { } start)
        {
            exports.Add(Export("start", Exported.Function, Enter(functions, start)));
        }
        var slots = Math.Max(check.Program.Slots, check.Start?.Slots ?? 0);
        functions.Add(WasmStretch.Ones());
        exports.Add(Export("ones", Exported.Function, functions.Count - 1));

        var module = new WasmCode();
        module.Bytes(Header);
        Add(module, Section.Types, [new WasmCode().Bytes(Nothing), new WasmCode().Bytes(CountOfRange)]);
        Add(
            module,
            Section.Functions,
            functions.Select((_, i) => new WasmCode().Number(i < functions.Count - 1 ? 0 : 1))
        );
        Add(module, Section.Memory, [new WasmCode().Bytes([0]).Number((slots * Stride + PageBytes - 1) / PageBytes)]);
        Add(module, Section.Exports, exports);
        Add(module, Section.Code, functions.Select(f => new WasmCode().Number(f.Length).Add(f)));
        return module.ToArray();
    }

    /// <summary>A function per stretch and one that calls them; the number of the latter.</summary>
    private static int Enter(List<WasmCode> functions, PlaneProgram program)
    {
        var first = functions.Count;
        functions.AddRange(WasmStretch.Of(program));
        functions.Add(WasmStretch.Calls(first, functions.Count - first));
        return functions.Count - 1;
    }

    private static WasmCode Export(string name, Exported kind, int index) =>
        new WasmCode().Number(name.Length).Bytes([.. name.Select(c => (byte)c), (byte)kind]).Number(index);

    private static void Add(WasmCode module, Section section, IEnumerable<WasmCode> entries)
    {
        var body = new WasmCode().Number(entries.Count());
        foreach (var entry in entries)
        {
            body.Add(entry);
        }
        module.Bytes([(byte)section]).Number(body.Length).Add(body);
    }
}
