using System.Text;
using QRCoder;

namespace Reckoner.Page.State;

/// <summary>A text as a square code for cameras (QR, ISO/IEC 18004), as the path of its dark squares.</summary>
public sealed record SquareCode(int Size, string Path)
{
    /// <summary>The largest code holds so many bytes at its lowest level of correction.</summary>
    public const int MostBytes = 2953;

    /// <summary>Light squares around the code, which the library counts as its own.</summary>
    private const int Margin = 4;

    /// <summary>Null where the text does not fit.</summary>
    public static SquareCode? Of(string text)
    {
        if (Encoding.UTF8.GetByteCount(text) > MostBytes)
        {
            return null;
        }
        using var generator = new QRCodeGenerator();
        using var code = generator.CreateQrCode(text, QRCodeGenerator.ECCLevel.L);
        var rows = code.ModuleMatrix;
        var size = rows.Count - 2 * Margin;
        var path = new StringBuilder();
        for (var y = 0; y < size; y++)
        {
            for (var x = 0; x < size; x++)
            {
                if (rows[y + Margin][x + Margin])
                {
                    path.Append($"M{x} {y}h1v1h-1z");
                }
            }
        }
        return new SquareCode(size, path.ToString());
    }
}
