namespace Reckoner.Cli;

/// <summary>
/// Puts files into a folder, all or none: the folder is made anew beside its place and both are exchanged in one step. What else is
/// in it stays in it, and those of its files that are replaced keep their modes.
/// </summary>
internal sealed class FolderExchange(Disk disk, string place)
{
    private readonly string beside = $"{place}.{Path.GetRandomFileName()}";

    /// <summary>Whether a path is, or lies in, a folder that was made to be exchanged with a place.</summary>
    public static bool IsBeside(string path, string place)
    {
        if (!path.StartsWith(place + ".", StringComparison.Ordinal))
        {
            return false;
        }
        // Path.GetRandomFileName gives eight letters, a dot and three.
        var name = path[(place.Length + 1)..].Split(Path.DirectorySeparatorChar)[0];
        return name.Length == 12 && name.IndexOf('.') == 8;
    }

    /// <summary>
    /// Whether a folder can be exchanged: where somebody stands in it they would be left behind in the old one, and a link would be
    /// exchanged itself.
    /// </summary>
    public static bool IsFor(string place) =>
        Disk.HasLinks
        && new DirectoryInfo(place).LinkTarget is null
        && !IsWithin(Directory.GetCurrentDirectory(), place);

    private static bool IsWithin(string path, string folder) =>
        Path.GetRelativePath(folder, path) is var rest
        && rest != ".."
        && !rest.StartsWith("../", StringComparison.Ordinal)
        && !Path.IsPathRooted(rest);

    /// <summary>Makes a folder that is not there.</summary>
    /// <param name="files">By paths within it.</param>
    /// <exception cref="IOException">Or another that <see cref="Disk.IsTrouble"/> knows; then nothing is changed.</exception>
    public void Make(IReadOnlyList<NewFile> files) => Filled(files, () => disk.MoveFolder(beside, place));

    /// <summary>Puts files into one that is there.</summary>
    /// <param name="files">By paths within it.</param>
    /// <exception cref="IOException">Likewise.</exception>
    public void Replace(IReadOnlyList<NewFile> files) =>
        Filled(
            files,
            () =>
            {
                Carry(place, beside);
                disk.Exchange(beside, place);
                // What is beside now is the old one; the files it shares with the new one have a name there too.
                Disk.Try(() => disk.DeleteFolder(beside));
            }
        );

    private void Filled(IReadOnlyList<NewFile> files, Action exchange)
    {
        try
        {
            disk.MakeFolder(beside);
            foreach (var file in files)
            {
                var path = Path.Combine([beside, .. file.Path.Split('/')]);
                disk.MakeFolder(Path.GetDirectoryName(path)!);
                disk.Write(path, file.Write);
            }
            exchange();
        }
        catch
        {
            if (Directory.Exists(beside))
            {
                Disk.Try(() => disk.DeleteFolder(beside));
            }
            throw;
        }
    }

    /// <summary>Gives the new folder what the old one has besides, under second names, and its modes.</summary>
    private void Carry(string from, string to)
    {
        foreach (var entry in new DirectoryInfo(from).EnumerateFileSystemInfos())
        {
            var there = Path.Combine(to, entry.Name);
            if (entry is DirectoryInfo { LinkTarget: null })
            {
                disk.MakeFolder(there);
                Carry(entry.FullName, there);
            }
            else if (File.Exists(there))
            {
                disk.KeepMode(there, entry.FullName);
            }
            else
            {
                disk.Link(entry.FullName, there);
            }
        }
        disk.KeepMode(to, from);
    }
}
