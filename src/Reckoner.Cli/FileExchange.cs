namespace Reckoner.Cli;

/// <summary>A file that is to be: its place and what writes it.</summary>
internal sealed record NewFile(string Path, Action<Stream> Write)
{
    public static NewFile Of(string path, byte[] bytes) => new(path, stream => stream.Write(bytes));
}

/// <summary>
/// Writes files beside their places and puts them there, all or none. Each place holds what it held before or the new file at any
/// time; should one of several fail, those before it are taken back.
/// </summary>
/// <param name="replaces">Whether files may be put in the place of others.</param>
internal sealed class FileExchange(Disk disk, bool replaces)
{
    private readonly List<string> besides = [];

    /// <exception cref="IOException">Or another that <see cref="Disk.IsTrouble"/> knows; then everything stands where it stood.</exception>
    public void Put(IReadOnlyList<NewFile> files)
    {
        try
        {
            var moves = files.Select(f => (From: Beside(f.Path), To: f.Path)).ToList();
            foreach (var ((from, to), file) in moves.Zip(files))
            {
                disk.Write(from, file.Write);
                if (File.Exists(to))
                {
                    disk.KeepMode(from, to);
                }
            }
            if (moves is [var one])
            {
                disk.Move(one.From, one.To, replaces);
            }
            else
            {
                Exchange(moves);
            }
        }
        finally
        {
            foreach (var beside in besides.Where(File.Exists))
            {
                Disk.Try(() => disk.Delete(beside));
            }
        }
    }

    /// <summary>A name beside a file that nobody has; what stands there in the end is removed.</summary>
    private string Beside(string path)
    {
        besides.Add($"{path}.{Path.GetRandomFileName()}");
        return besides[^1];
    }

    private void Exchange(IReadOnlyList<(string From, string To)> moves)
    {
        var done = new Stack<Action>();
        try
        {
            foreach (var (from, to) in moves)
            {
                if (!File.Exists(to))
                {
                    disk.Move(from, to, overwrite: false);
                    done.Push(() => disk.Move(to, from, overwrite: false));
                    continue;
                }
                var old = Beside(to);
                Keep(to, old);
                // Before the move: it is the same whether that took place or not.
                done.Push(() => disk.Move(old, to, overwrite: true));
                disk.Move(from, to, overwrite: true);
            }
        }
        catch (Exception e) when (Disk.IsTrouble(e))
        {
            while (done.TryPop(out var back))
            {
                back();
            }
            throw;
        }
    }

    /// <summary>Gives a file a second name, under which it stays when another is put in its place.</summary>
    private void Keep(string path, string name)
    {
        if (Disk.HasLinks)
        {
            try
            {
                disk.Link(path, name);
                return;
            }
            catch (IOException)
            {
                // Not on this disk, or not with this file: a copy does as well.
            }
        }
        disk.Write(
            name,
            stream =>
            {
                using var old = File.OpenRead(path);
                old.CopyTo(stream);
            }
        );
        disk.KeepMode(name, path);
    }
}
