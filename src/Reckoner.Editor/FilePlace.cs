namespace Reckoner.Editor;

/// <summary>
/// What a URI names, however it is written: two that name the same file have the same key. Of a file that is its path, of what is none
/// the URI itself.
/// </summary>
internal static class FilePlace
{
    public static string Key(string uri) => PathOf(uri) ?? uri;

    /// <summary>The folder of a key; null where it is no file's.</summary>
    public static string? Folder(string key) => Path.IsPathRooted(key) ? Path.GetDirectoryName(key) : null;

    /// <summary>By which other machines find it.</summary>
    public static string NameOf(string key) => Path.GetFileNameWithoutExtension(key);

    private static string? PathOf(string uri)
    {
        if (!Uri.TryCreate(uri, UriKind.Absolute, out var read) || !read.IsFile || read.LocalPath.Contains('\0'))
        {
            return null;
        }
        var path = read.LocalPath;
        // A drive whose colon was written as %3A.
        var isDrive = OperatingSystem.IsWindows() && path is [('/' or '\\'), _, ':', ..];
        return Path.GetFullPath(isDrive ? path[1..] : path);
    }
}
