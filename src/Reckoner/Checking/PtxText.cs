using System.Globalization;
using System.Text;
using static System.FormattableString;

namespace Reckoner.Checking;

/// <summary>
/// Writes a kernel. Needs the packed gates of a check; leaves its text: every gate is one lop3, whose byte is the gate's function.
/// Of the steps' bits only those are formed anew in the loop that change within a row.
/// </summary>
internal sealed class PtxText
{
    private static readonly uint[] LanePatterns = [0xAAAAAAAA, 0xCCCCCCCC, 0xF0F0F0F0, 0xFF00FF00, 0xFFFF0000];

    private readonly PtxKernel kernel;
    private readonly CaseSpace space;
    private readonly PlaneValues values;
    private readonly PlaneValues? start;
    private readonly StringBuilder text = new();
    private int registers;

    public PtxText(PtxKernel kernel)
    {
        this.kernel = kernel;
        space = kernel.Space;
        values = new PlaneValues(kernel.Program);
        start = kernel.Start is null ? null : new PlaneValues(kernel.Start);
        Body();
        Text = Head() + text + "}\n";
    }

    public string Text { get; }

    private string Head() =>
        string.Create(
                CultureInfo.InvariantCulture,
                $$"""
                .version 5.0
                .target sm_50
                .address_size 64

                .visible .entry {{PtxKernel.Entry}}(
                    .param .u64 from,
                    .param .u64 to,
                    .param .u64 counts,
                    .param .u64 marks
                )
                {
                    .reg .pred %p<2>;
                    .reg .b64 %d<13>;
                    .reg .b32 %i<10>;
                    .reg .b32 %n<{{kernel.CountWords}}>;
                    .reg .b32 %t<{{registers}}>;
                    .reg .b32 %v<{{values.Count}}>;
                    .reg .b32 %s<{{start?.Count ?? 1}}>;


                """
            )
            .ReplaceLineEndings("\n");

    private void Line(string line) => text.Append("    ").Append(line).Append('\n');

    private string Scratch() => Invariant($"%t{registers++}");

    private void Body()
    {
        Place();
        Inputs(isInLoop: false);
        Start();
        for (var count = 0; count < kernel.CountWords; count++)
        {
            Line(Invariant($"mov.b32 %n{count}, 0;"));
        }
        text.Append("NEXT:\n");
        Inputs(isInLoop: true);
        foreach (var lookup in values.Lookups)
        {
            Line(Of("%v", lookup));
        }
        Count();
        State();
        Line("add.u32 %i4, %i4, 1;");
        Line("setp.ne.u32 %p0, %i4, %i5;");
        Line("@%p0 bra NEXT;");
        Tell();
        text.Append("DONE:\n");
        Line("ret;");
    }

    /// <summary>The thread's word of lanes, its row, and of that the steps that are asked for; i4 counts through their low bits.</summary>
    private void Place()
    {
        Line("ld.param.u64 %d0, [from];");
        Line("ld.param.u64 %d1, [to];");
        Line("ld.param.u64 %d2, [counts];");
        Line("ld.param.u64 %d3, [marks];");
        Line("mov.u32 %i0, %ctaid.x;");
        Line("mov.u32 %i1, %ntid.x;");
        Line("mov.u32 %i2, %tid.x;");
        Line("mad.lo.u32 %i0, %i0, %i1, %i2;");
        Line(Invariant($"and.b32 %i3, %i0, {(1 << kernel.WordBits) - 1};"));
        Line(Invariant($"shr.u32 %i2, %i0, {kernel.WordBits};"));
        Line("cvt.u64.u32 %d4, %i2;");
        Line(Invariant($"shr.u64 %d5, %d0, {kernel.RowBits};"));
        Line("add.u64 %d5, %d5, %d4;");
        Line(Invariant($"shl.b64 %d5, %d5, {kernel.RowBits};"));
        Line(Invariant($"add.u64 %d6, %d5, {1L << kernel.RowBits};"));
        Line("max.u64 %d7, %d5, %d0;");
        Line("min.u64 %d6, %d6, %d1;");
        Line("setp.ge.u64 %p0, %d7, %d6;");
        Line("@%p0 bra DONE;");
        Line("cvt.u32.u64 %i4, %d7;");
        Line("cvt.u32.u64 %i5, %d6;");
        // The bits that all steps of the row share.
        Line("cvt.u32.u64 %i6, %d5;");
        Line("shr.u64 %d8, %d5, 32;");
        Line("cvt.u32.u64 %i7, %d8;");
        Line("mov.b32 %v0, 0;");
    }

    private void Inputs(bool isInLoop)
    {
        foreach (var ((axis, index), input) in space.Inputs.Select((place, i) => (place, i)))
        {
            var to = Invariant($"%v{PlaneProgram.InputSlot(input)}");
            if (isInLoop == (axis == CaseAxis.Step && index < kernel.RowBits))
            {
                Input(axis, index, to);
            }
        }
    }

    private void Input(CaseAxis axis, int index, string to)
    {
        switch (axis)
        {
            case CaseAxis.Fixed:
                Line(Invariant($"mov.b32 {to}, {(index == 0 ? 0 : -1)};"));
                break;
            case CaseAxis.Lane when index < LanePatterns.Length:
                Line(Invariant($"mov.b32 {to}, 0x{LanePatterns[index]:X8};"));
                break;
            case CaseAxis.Lane:
                Spread("%i3", index - LanePatterns.Length, to);
                break;
            case CaseAxis.Step when index < kernel.RowBits:
                Spread("%i4", index, to);
                break;
            case CaseAxis.Step:
                Spread(index < 32 ? "%i6" : "%i7", index & 31, to);
                break;
        }
    }

    /// <summary>A bit of a number in all 32 lanes.</summary>
    private void Spread(string number, int bit, string to)
    {
        var top = Scratch();
        Line(Invariant($"shl.b32 {top}, {number}, {31 - bit};"));
        Line(Invariant($"shr.s32 {to}, {top}, 31;"));
    }

    private static string Of(string values, Lookup x) =>
        Invariant($"lop3.b32 {values}{x.To}, {values}{x.A}, {values}{x.B}, {values}{x.C}, 0x{x.Function:X2};");

    /// <summary>The expectation for the row's first step. Its operands' low bits are worked out for that, and again in the loop.</summary>
    private void Start()
    {
        if (start is null)
        {
            return;
        }
        Inputs(isInLoop: true);
        for (var input = 0; input <= space.Bits; input++)
        {
            Line(Invariant($"mov.b32 %s{input}, %v{input};"));
        }
        foreach (var lookup in start.Lookups)
        {
            Line(Of("%s", lookup));
        }
        foreach (var (slot, value) in StateOf(start))
        {
            Line(Invariant($"mov.b32 %v{slot}, %s{value};"));
        }
    }

    /// <summary>The state's slots, which are values too, and the values that a run leaves in them.</summary>
    private IEnumerable<(int Slot, int Value)> StateOf(PlaneValues from) =>
        Enumerable
            .Range(PlaneProgram.InputSlot(space.Bits), kernel.Program.Inputs - space.Bits)
            .Select(slot => (slot, from.LastIn(slot)));

    private void State()
    {
        foreach (var (slot, value) in StateOf(values).Where(s => s.Slot != s.Value))
        {
            Line(Invariant($"mov.b32 %v{slot}, %v{value};"));
        }
    }

    private void Count()
    {
        for (var count = 0; count < kernel.CountWords; count++)
        {
            var (slot, isTurned) = kernel.Program.Outputs[count];
            var ones = Invariant($"%v{values.LastIn(slot)}");
            if (isTurned)
            {
                var turned = Scratch();
                Line(Invariant($"not.b32 {turned}, {ones};"));
                ones = turned;
            }
            if (kernel.LaneMask != uint.MaxValue)
            {
                var used = Scratch();
                Line(Invariant($"and.b32 {used}, {ones}, 0x{kernel.LaneMask:X8};"));
                ones = used;
            }
            var number = Scratch();
            Line(Invariant($"popc.b32 {number}, {ones};"));
            Line(Invariant($"add.u32 %n{count}, %n{count}, {number};"));
        }
    }

    /// <summary>Adds to the counts, and marks the row where something fails.</summary>
    private void Tell()
    {
        Line("mov.b32 %i8, 1;");
        Line(Invariant($"mul.wide.u32 %d9, %i2, {kernel.Sections};"));
        Line("add.u64 %d9, %d9, %d3;");
        for (var count = 0; count < kernel.CountWords; count++)
        {
            Line(Invariant($"cvt.u64.u32 %d10, %n{count};"));
            Line(Invariant($"red.global.add.u64 [%d2+{count * sizeof(ulong)}], %d10;"));
            if (count % 2 != 0)
            {
                Line(Invariant($"setp.ne.u32 %p1, %n{count}, 0;"));
                Line(Invariant($"@%p1 st.global.u8 [%d9+{count / 2}], %i8;"));
            }
        }
    }
}
