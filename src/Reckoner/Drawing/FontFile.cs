using System.Buffers.Binary;
using System.Text;

namespace Reckoner.Drawing;

/// <summary>
/// Reads what figures need of a TrueType font: which glyph a character has, how far it advances, its outline. Lengths are
/// shares of the text's size. Source: the OpenType specification 1.9, tables head, hhea, hmtx, maxp, cmap (format 4), OS/2,
/// loca, glyf.
/// </summary>
internal sealed partial class FontFile
{
    private readonly byte[] bytes;
    private readonly Dictionary<string, int> tables = [];
    private readonly int unitsPerEm;
    private readonly int metrics;

    public FontFile(byte[] bytes)
    {
        this.bytes = bytes;
        for (var i = 0; i < UInt16(4); i++)
        {
            var record = 12 + 16 * i;
            tables.Add(Encoding.ASCII.GetString(bytes, record, 4), (int)UInt32(record + 8));
        }
        unitsPerEm = UInt16(tables["head"] + 18);
        metrics = UInt16(tables["hhea"] + 34);
        CapitalHeight = Share(Int16(tables["OS/2"] + 88));
    }

    public double CapitalHeight { get; }

    private double Share(int units) => (double)units / unitsPerEm;

    public double Advance(int glyph) => Share(UInt16(tables["hmtx"] + 4 * Math.Min(glyph, metrics - 1)));

    /// <summary>The glyph of a character; 0, an empty box, where the font has none.</summary>
    public int Glyph(char c)
    {
        var cmap = tables["cmap"];
        for (var i = 0; i < UInt16(cmap + 2); i++)
        {
            var table = cmap + (int)UInt32(cmap + 4 + 8 * i + 4);
            if (UInt16(table) == 4)
            {
                return InSegments(table, c);
            }
        }
        throw new InvalidDataException("the font has no character map of format 4");
    }

    /// <summary>Format 4: segments of codes, each with its last code, first code, difference and place in an array.</summary>
    private int InSegments(int table, char c)
    {
        var doubled = UInt16(table + 6);
        for (var i = 0; i < doubled; i += 2)
        {
            if (UInt16(table + 14 + i) < c)
            {
                continue;
            }
            var starts = table + 16 + doubled;
            var start = UInt16(starts + i);
            if (start > c)
            {
                return 0;
            }
            var difference = UInt16(starts + doubled + i);
            var place = starts + 2 * doubled + i;
            var offset = UInt16(place);
            if (offset == 0)
            {
                return (c + difference) & 0xFFFF;
            }
            var glyph = UInt16(place + offset + 2 * (c - start));
            return glyph == 0 ? 0 : (glyph + difference) & 0xFFFF;
        }
        return 0;
    }

    private ushort UInt16(int at) => BinaryPrimitives.ReadUInt16BigEndian(bytes.AsSpan(at));

    private short Int16(int at) => BinaryPrimitives.ReadInt16BigEndian(bytes.AsSpan(at));

    private uint UInt32(int at) => BinaryPrimitives.ReadUInt32BigEndian(bytes.AsSpan(at));
}
