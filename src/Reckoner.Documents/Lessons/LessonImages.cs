namespace Reckoner.Documents.Lessons;

/// <summary>The kinds of images that a lesson may name.</summary>
public static class LessonImages
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
}
