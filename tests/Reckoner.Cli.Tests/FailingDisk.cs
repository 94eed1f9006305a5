namespace Reckoner.Cli.Tests;

/// <summary>How a disk fails.</summary>
internal enum Failing
{
    /// <summary>One operation cannot be done; those after it can.</summary>
    Once,

    /// <summary>From one operation on nothing more can be written: the disk is full.</summary>
    Full,

    /// <summary>With one operation the program is ended, so that nothing is tidied up.</summary>
    Killed,
}

/// <summary>A disk on which the k-th operation fails, a file that is being written half written.</summary>
internal sealed class FailingDisk(int k, Failing how) : Disk
{
    private const int NoSpace = 28;
    private int done;

    /// <summary>The end of the program: nobody catches it and goes on.</summary>
    public sealed class Killed : Exception;

    /// <summary>Whether it has failed.</summary>
    public bool HasFailed => done > k;

    private void Do(bool takesSpace, Action act, Action? half = null)
    {
        var now = done++;
        if (now == k || (now > k && (how == Failing.Killed || (how == Failing.Full && takesSpace))))
        {
            if (now == k)
            {
                half?.Invoke();
            }
            throw how == Failing.Killed ? new Killed() : new IOException("No space left on device", NoSpace);
        }
        act();
    }

    public override void Write(string path, Action<Stream> write) =>
        Do(
            true,
            () => base.Write(path, write),
            () =>
            {
                using var whole = new MemoryStream();
                write(whole);
                File.WriteAllBytes(path, whole.ToArray()[..(int)(whole.Length / 2)]);
            }
        );

    public override void Move(string from, string to, bool overwrite) =>
        Do(false, () => base.Move(from, to, overwrite));

    public override void MoveFolder(string from, string to) => Do(false, () => base.MoveFolder(from, to));

    public override void Link(string there, string name) => Do(true, () => base.Link(there, name));

    public override void Exchange(string one, string other) => Do(false, () => base.Exchange(one, other));

    public override void MakeFolder(string path) => Do(true, () => base.MakeFolder(path));

    public override void Delete(string path) => Do(false, () => base.Delete(path));

    public override void DeleteFolder(string path) => Do(false, () => base.DeleteFolder(path));

    public override void KeepMode(string path, string other) => Do(false, () => base.KeepMode(path, other));
}
