namespace Reckoner.Checking;

/// <summary>Bytes of a WebAssembly module (W3C core specification 2.0, chapter 5), put together in order.</summary>
internal sealed class WasmCode
{
    public const byte I32 = 0x7F;
    public const byte V128 = 0x7B;

    private readonly List<byte> bytes = [];

    public int Length => bytes.Count;

    public byte[] ToArray() => [.. bytes];

    public WasmCode Bytes(ReadOnlySpan<byte> more)
    {
        bytes.AddRange(more);
        return this;
    }

    public WasmCode Add(WasmCode other)
    {
        bytes.AddRange(other.bytes);
        return this;
    }

    /// <summary>An unsigned number in LEB128: seven bits a byte, the lowest first, the top bit set where more follow.</summary>
    public WasmCode Number(int number)
    {
        var left = (uint)number;
        do
        {
            var low = (byte)(left & 0x7F);
            left >>= 7;
            bytes.Add(left == 0 ? low : (byte)(low | 0x80));
        } while (left != 0);
        return this;
    }

    public WasmCode Instruction(WasmOperation operation)
    {
        bytes.Add((byte)operation);
        return this;
    }

    /// <summary>With a local, a function or a label.</summary>
    public WasmCode Instruction(WasmOperation operation, int index) => Instruction(operation).Number(index);

    public WasmCode Vector(WasmVector operation)
    {
        bytes.Add(0xFD);
        return Number((int)operation);
    }

    /// <summary>A load or store at a distance from the address on the stack; alignment is a hint, given as a power of two.</summary>
    public WasmCode Vector(WasmVector operation, int offset)
    {
        const int lines = 4;
        return Vector(operation).Number(lines).Number(offset);
    }

    /// <summary>A constant in signed LEB128.</summary>
    public WasmCode Constant(int number)
    {
        Instruction(WasmOperation.I32Constant);
        while (true)
        {
            var low = (byte)(number & 0x7F);
            number >>= 7;
            if ((number == 0 && (low & 0x40) == 0) || (number == -1 && (low & 0x40) != 0))
            {
                bytes.Add(low);
                return this;
            }
            bytes.Add((byte)(low | 0x80));
        }
    }
}

internal enum WasmOperation : byte
{
    Loop = 0x03,
    End = 0x0B,
    BranchIf = 0x0D,
    Call = 0x10,
    LocalGet = 0x20,
    LocalSet = 0x21,
    LocalTee = 0x22,
    I64Load = 0x29,
    I32Constant = 0x41,
    I32LessUnsigned = 0x49,
    I32Add = 0x6A,
    I64PopulationCount = 0x7B,
    I32WrapI64 = 0xA7,
}

internal enum WasmVector
{
    Load = 0,
    Store = 11,
    Constant = 12,
    Not = 77,
    And = 78,
    AndNot = 79,
    Or = 80,
    Xor = 81,
}
