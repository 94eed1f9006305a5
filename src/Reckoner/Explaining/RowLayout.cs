using System.Numerics;
using Reckoner.Datapaths;

namespace Reckoner.Explaining;

/// <summary>
/// The registers of a machine side by side in one word, the first on top: a row of a table that is compared and copied at once.
/// What other machines have besides lies above them.
/// </summary>
internal sealed class RowLayout
{
    /// <summary>Of the right machine and whatever a slip adds.</summary>
    public const int MostBits = 128;

    private RowLayout(Datapath datapath, int[] lows, int bits)
    {
        Datapath = datapath;
        Lows = lows;
        Bits = bits;
    }

    public Datapath Datapath { get; }

    /// <summary>Where each register begins.</summary>
    public IReadOnlyList<int> Lows { get; }

    public int Bits { get; }

    /// <summary>A 1 for every bit of the registers.</summary>
    public UInt128 Mask => Ones(Bits);

    /// <summary>Null where the registers have more bits than fit.</summary>
    public static RowLayout? Of(Datapath datapath)
    {
        var lows = new int[datapath.Registers.Count];
        var bits = 0;
        for (var i = lows.Length - 1; i >= 0; i--)
        {
            lows[i] = bits;
            bits += datapath.Registers[i].Width;
        }
        return bits <= MostBits && datapath.Registers.All(r => r.Width <= 64)
            ? new RowLayout(datapath, lows, bits)
            : null;
    }

    public static UInt128 Ones(int width) => width >= MostBits ? UInt128.MaxValue : (UInt128.One << width) - 1;

    public UInt128 Row(IReadOnlyList<BigInteger> registers)
    {
        var row = UInt128.Zero;
        for (var i = 0; i < Lows.Count; i++)
        {
            row |= (UInt128)registers[i] << Lows[i];
        }
        return row;
    }

    public ulong Field(UInt128 row, int register) =>
        (ulong)((row >> Lows[register]) & Ones(Datapath.Registers[register].Width));

    public UInt128 With(UInt128 row, int register, ulong bits) =>
        (row & ~(Ones(Datapath.Registers[register].Width) << Lows[register])) | ((UInt128)bits << Lows[register]);

    public BigInteger[] Registers(UInt128 row) => [.. Lows.Select((_, i) => (BigInteger)Field(row, i))];
}
