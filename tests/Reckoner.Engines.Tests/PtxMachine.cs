using System.Globalization;
using System.Numerics;
using System.Text.RegularExpressions;

namespace Reckoner.Engines.Tests;

/// <summary>
/// Runs PTX one thread after another, the instructions alone that are written here, each as the instruction set's definition has
/// it. Anything else is refused, so that no text passes that was not executed.
/// </summary>
internal sealed partial class PtxMachine
{
    private readonly List<Instruction> code = [];
    private readonly Dictionary<string, int> labels = [];
    private readonly Dictionary<string, int> registers = [];
    private readonly Dictionary<string, int> parameters = [];
    private readonly Dictionary<char, (string Type, int Count)> declared = [];

    /// <summary>What has been executed, by its name with types.</summary>
    public HashSet<string> Executed { get; } = [];

    private sealed record Instruction(string Guard, string Name, string[] Operands, int[] Places);

    public PtxMachine(string text)
    {
        var lines = text.Split('\n');
        string[] head = [".version 5.0", ".target sm_50", ".address_size 64", "", ".visible .entry check("];
        if (!lines.Take(head.Length).SequenceEqual(head))
        {
            throw new FormatException("another beginning");
        }
        foreach (var line in lines.Skip(head.Length).Select(l => l.Trim()).Where(l => l.Length > 0))
        {
            if (line is ")" or "{" or "}")
            {
                continue;
            }
            if (Parameter().Match(line) is { Success: true } parameter)
            {
                parameters.Add(parameter.Groups[1].Value, parameters.Count);
            }
            else if (Declaration().Match(line) is { Success: true } d)
            {
                declared.Add(
                    d.Groups[2].Value[0],
                    (d.Groups[1].Value, int.Parse(d.Groups[3].Value, CultureInfo.InvariantCulture))
                );
            }
            else if (Label().Match(line) is { Success: true } label)
            {
                labels.Add(label.Groups[1].Value, code.Count);
            }
            else if (Statement().Match(line) is { Success: true } s)
            {
                var operands = s.Groups[3].Value.Length == 0 ? [] : s.Groups[3].Value.Split(", ");
                code.Add(new Instruction(s.Groups[1].Value, s.Groups[2].Value, operands, [.. operands.Select(Place)]));
            }
            else
            {
                throw new FormatException($"not understood: {line}");
            }
        }
    }

    [GeneratedRegex(@"^\.param \.u64 (\w+),?$")]
    private static partial Regex Parameter();

    [GeneratedRegex(@"^\.reg \.(pred|b32|b64) %([a-z])<(\d+)>;$")]
    private static partial Regex Declaration();

    [GeneratedRegex(@"^(\w+):$")]
    private static partial Regex Label();

    [GeneratedRegex(@"^(?:@%(p\d+) )?([a-z0-9.]+)(?: (.+))?;$")]
    private static partial Regex Statement();

    /// <summary>A register that was declared, by a number of its own; -1 for what is none.</summary>
    private int Place(string operand)
    {
        var name = operand.Trim('[', ']').Split('+')[0];
        if (!name.StartsWith('%') || name.Contains('.'))
        {
            return -1;
        }
        if (!declared.TryGetValue(name[1], out var d) || int.Parse(name[2..], CultureInfo.InvariantCulture) >= d.Count)
        {
            throw new FormatException($"{name} is not declared");
        }
        if (!registers.TryGetValue(name, out var place))
        {
            registers.Add(name, place = registers.Count);
        }
        return place;
    }

    /// <summary>Runs blocks of threads over memory, whose addresses begin at 0.</summary>
    public void Run(int blocks, int threads, ulong[] arguments, byte[] memory)
    {
        var values = new ulong[registers.Count];
        for (var block = 0; block < blocks; block++)
        {
            for (var thread = 0; thread < threads; thread++)
            {
                // A register that is read before it was written would show.
                Array.Fill(values, 0xDEADBEEF_BAADF00D);
                Thread(values, (block, threads, thread), arguments, memory);
            }
        }
    }

    private void Thread(ulong[] r, (int Block, int Threads, int Thread) at, ulong[] arguments, byte[] memory)
    {
        for (var i = 0; i < code.Count; i++)
        {
            var x = code[i];
            if (x.Guard.Length > 0 && r[registers["%" + x.Guard]] == 0)
            {
                continue;
            }
            Executed.Add(x.Name);
            ulong In(int operand) =>
                x.Places[operand] >= 0
                    ? r[x.Places[operand]]
                    : x.Operands[operand] switch
                    {
                        "%ctaid.x" => (ulong)at.Block,
                        "%ntid.x" => (ulong)at.Threads,
                        "%tid.x" => (ulong)at.Thread,
                        var hex when hex.StartsWith("0x", StringComparison.Ordinal) => ulong.Parse(
                            hex[2..],
                            NumberStyles.HexNumber,
                            CultureInfo.InvariantCulture
                        ),
                        var number => (ulong)
                            long.Parse(number, NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture),
                    };
            uint Low(int operand) => (uint)In(operand);
            int Address(int operand)
            {
                var plus = x.Operands[operand].Trim('[', ']').Split('+');
                return (int)In(operand) + (plus.Length > 1 ? int.Parse(plus[1], CultureInfo.InvariantCulture) : 0);
            }
            void Out(ulong value) => r[x.Places[0]] = value;
            switch (x.Name)
            {
                case "ret":
                    return;
                case "bra":
                    i = labels[x.Operands[0]] - 1;
                    break;
                case "ld.param.u64":
                    Out(arguments[parameters[x.Operands[1].Trim('[', ']')]]);
                    break;
                case "mov.u32" or "mov.b32":
                    Out(Low(1));
                    break;
                case "cvt.u64.u32" or "cvt.u32.u64":
                    Out(Low(1));
                    break;
                case "mad.lo.u32":
                    Out(unchecked(Low(1) * Low(2) + Low(3)));
                    break;
                case "mul.wide.u32":
                    Out((ulong)Low(1) * Low(2));
                    break;
                case "add.u32":
                    Out(unchecked(Low(1) + Low(2)));
                    break;
                case "add.u64":
                    Out(unchecked(In(1) + In(2)));
                    break;
                case "max.u64":
                    Out(Math.Max(In(1), In(2)));
                    break;
                case "min.u64":
                    Out(Math.Min(In(1), In(2)));
                    break;
                case "and.b32":
                    Out(Low(1) & Low(2));
                    break;
                case "not.b32":
                    Out(~Low(1));
                    break;
                case "shl.b32":
                    Out(Low(1) << (int)Low(2));
                    break;
                case "shr.u32":
                    Out(Low(1) >> (int)Low(2));
                    break;
                case "shr.s32":
                    Out((uint)((int)Low(1) >> (int)Low(2)));
                    break;
                case "shl.b64":
                    Out(In(1) << (int)Low(2));
                    break;
                case "shr.u64":
                    Out(In(1) >> (int)Low(2));
                    break;
                case "popc.b32":
                    Out((ulong)BitOperations.PopCount(Low(1)));
                    break;
                case "setp.ge.u64":
                    Out(In(1) >= In(2) ? 1u : 0);
                    break;
                case "setp.ne.u32":
                    Out(Low(1) != Low(2) ? 1u : 0);
                    break;
                case "lop3.b32":
                    Out(Lookup(Low(1), Low(2), Low(3), (byte)In(4)));
                    break;
                case "red.global.add.u64":
                    var sum = unchecked(BitConverter.ToUInt64(memory, Address(0)) + In(1));
                    BitConverter.TryWriteBytes(memory.AsSpan(Address(0)), sum);
                    break;
                case "st.global.u8":
                    memory[Address(0)] = (byte)In(1);
                    break;
                default:
                    throw new FormatException($"no such instruction: {x.Name}");
            }
        }
        throw new FormatException("runs past its end");
    }

    /// <summary>Bit by bit from the table: bit 4a + 2b + c of the byte.</summary>
    private static uint Lookup(uint a, uint b, uint c, byte function)
    {
        var result = 0u;
        for (var row = 0; row < 8; row++)
        {
            if (((function >> row) & 1) != 0)
            {
                result |= ((row & 4) != 0 ? a : ~a) & ((row & 2) != 0 ? b : ~b) & ((row & 1) != 0 ? c : ~c);
            }
        }
        return result;
    }
}
