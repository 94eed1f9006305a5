using SkiaSharp;

namespace Reckoner.Documents.Lessons;

/// <summary>The kinds of images that a lesson may name.</summary>
internal static class LessonImages
{
    private static readonly Dictionary<string, string> Types = new(StringComparer.OrdinalIgnoreCase)
    {
        [".png"] = "image/png",
        [".jpg"] = "image/jpeg",
        [".jpeg"] = "image/jpeg",
        [".gif"] = "image/gif",
        [".webp"] = "image/webp",
        [".svg"] = "image/svg+xml",
    };

    public static IReadOnlyList<string> Endings { get; } = [.. Types.Keys];

    public static bool IsImage(string file) => Types.ContainsKey(Path.GetExtension(file));

    internal static string Type(string file) => Types[Path.GetExtension(file)];

    /// <summary>More pixels than this in one direction no printer shows on a sheet.</summary>
    private const int MostPixels = 2400;

    /// <summary>
    /// An image as papers can hold it. Null for what is no picture in pixels, such as SVG: there its description has to do.
    /// </summary>
    /// <param name="alternative">What is said to those who cannot see it.</param>
    internal static Photograph? OnPaper(byte[] file, string alternative)
    {
        using var data = SKData.CreateCopy(file);
        using var codec = SKCodec.Create(data);
        if (codec is null || (long)codec.Info.Width * codec.Info.Height > MostToDecode)
        {
            return null;
        }
        using var bitmap = SKBitmap.Decode(codec);
        if (bitmap is null)
        {
            return null;
        }
        // What a camera noted about which side is up is lost in a PDF, so the pixels themselves are turned.
        using var upright = Upright(bitmap, codec.EncodedOrigin);
        var scale = Math.Min(1.0, (double)MostPixels / Math.Max(upright.Width, upright.Height));
        using var fitted = upright.Resize(
            new SKImageInfo(
                Math.Max(1, (int)(upright.Width * scale)),
                Math.Max(1, (int)(upright.Height * scale)),
                SKColorType.Rgba8888
            ),
            new SKSamplingOptions(SKFilterMode.Linear, SKMipmapMode.Linear)
        );
        var format =
            codec.EncodedFormat == SKEncodedImageFormat.Jpeg ? SKEncodedImageFormat.Jpeg : SKEncodedImageFormat.Png;
        using var encoded = fitted.Encode(format, 90);
        return new Photograph(encoded.ToArray(), upright.Width, upright.Height, alternative);
    }

    /// <summary>Pixels; a small file may claim to be a picture that no memory holds.</summary>
    private const long MostToDecode = 100_000_000;

    private static SKBitmap Upright(SKBitmap bitmap, SKEncodedOrigin origin)
    {
        var isAcross = origin >= SKEncodedOrigin.LeftTop;
        var (width, height) = isAcross ? (bitmap.Height, bitmap.Width) : (bitmap.Width, bitmap.Height);
        var turned = new SKBitmap(width, height);
        using var canvas = new SKCanvas(turned);
        var (w, h) = (width, height);
        canvas.SetMatrix(
            origin switch
            {
                SKEncodedOrigin.TopRight => new SKMatrix(-1, 0, w, 0, 1, 0, 0, 0, 1),
                SKEncodedOrigin.BottomRight => new SKMatrix(-1, 0, w, 0, -1, h, 0, 0, 1),
                SKEncodedOrigin.BottomLeft => new SKMatrix(1, 0, 0, 0, -1, h, 0, 0, 1),
                SKEncodedOrigin.LeftTop => new SKMatrix(0, 1, 0, 1, 0, 0, 0, 0, 1),
                SKEncodedOrigin.RightTop => new SKMatrix(0, -1, w, 1, 0, 0, 0, 0, 1),
                SKEncodedOrigin.RightBottom => new SKMatrix(0, -1, w, -1, 0, h, 0, 0, 1),
                SKEncodedOrigin.LeftBottom => new SKMatrix(0, 1, 0, -1, 0, h, 0, 0, 1),
                _ => SKMatrix.Identity,
            }
        );
        canvas.DrawBitmap(bitmap, 0, 0, SKSamplingOptions.Default);
        return turned;
    }
}
