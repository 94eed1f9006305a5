using System.Runtime.InteropServices;

namespace Reckoner.Cli;

/// <summary>
/// All that is ever done to files and folders, each operation in a place of its own, so that tests can let any one of them fail. What
/// cannot be done throws <see cref="IOException"/> or <see cref="UnauthorizedAccessException"/>.
/// </summary>
internal class Disk
{
    public static Disk Real { get; } = new();

    /// <summary>Writes a new file, down to the disk: what is put in another's place then is whole even after a power cut.</summary>
    public virtual void Write(string path, Action<Stream> write)
    {
        using var stream = new FileStream(path, FileMode.CreateNew, FileAccess.Write);
        write(stream);
        stream.Flush(flushToDisk: true);
    }

    /// <summary>Gives a file another name, in one step also where that is another's.</summary>
    public virtual void Move(string from, string to, bool overwrite) => File.Move(from, to, overwrite);

    /// <summary>Gives a folder a name that is free.</summary>
    public virtual void MoveFolder(string from, string to) => Directory.Move(from, to);

    /// <summary>Gives a file a second name. Only where <see cref="HasLinks"/>.</summary>
    public virtual void Link(string there, string name) => Done(Posix.Link(there, name), name);

    /// <summary>Exchanges two folders in one step. Only where <see cref="HasLinks"/>; not every kind of disk can do it.</summary>
    public virtual void Exchange(string one, string other) =>
        Done(Posix.Rename(Posix.Here, one, Posix.Here, other, Posix.Exchanging), other);

    public virtual void MakeFolder(string path) => Directory.CreateDirectory(path);

    public virtual void Delete(string path) => File.Delete(path);

    public virtual void DeleteFolder(string path) => Directory.Delete(path, recursive: true);

    /// <summary>Gives a file or folder the mode of another.</summary>
    public virtual void KeepMode(string path, string other)
    {
        if (!OperatingSystem.IsWindows())
        {
            File.SetUnixFileMode(path, File.GetUnixFileMode(other));
        }
    }

    /// <summary>Whether second names and exchanges can be asked for here.</summary>
    public static bool HasLinks => OperatingSystem.IsLinux();

    /// <summary>Tidies up after something that failed; what cannot be tidied up is left, and the failure said.</summary>
    public static void Try(Action tidy)
    {
        try
        {
            tidy();
        }
        catch (Exception e) when (IsTrouble(e)) { }
    }

    /// <summary>What disks, and names that they do not know, throw.</summary>
    public static bool IsTrouble(Exception e) =>
        e is IOException or UnauthorizedAccessException or ArgumentException or NotSupportedException;

    private static void Done(int status, string path)
    {
        if (status != 0)
        {
            throw new IOException($"{Marshal.GetLastPInvokeErrorMessage()} : '{path}'", Marshal.GetLastPInvokeError());
        }
    }

    /// <summary>What the framework has no names for.</summary>
    private static class Posix
    {
        /// <summary>Names are taken from the folder that one is in.</summary>
        public const int Here = -100;
        public const uint Exchanging = 2;

        [DllImport("libc", EntryPoint = "link", SetLastError = true)]
        [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
        public static extern int Link(
            [MarshalAs(UnmanagedType.LPUTF8Str)] string there,
            [MarshalAs(UnmanagedType.LPUTF8Str)] string name
        );

        [DllImport("libc", EntryPoint = "renameat2", SetLastError = true)]
        [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
        public static extern int Rename(
            int fromFolder,
            [MarshalAs(UnmanagedType.LPUTF8Str)] string from,
            int toFolder,
            [MarshalAs(UnmanagedType.LPUTF8Str)] string to,
            uint how
        );
    }
}
