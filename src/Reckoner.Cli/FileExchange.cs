namespace Reckoner.Cli;

/// <summary>
/// Puts files that were written beside their places into them, all or none. What stood there before is moved aside first and, should
/// one of the moves fail, back again.
/// </summary>
/// <param name="move">Gives a file another name; fails where that is taken.</param>
internal sealed class FileExchange(Action<string, string> move)
{
    private readonly Stack<(string From, string To)> done = new();

    /// <param name="moves">From beside its place to its place.</param>
    /// <exception cref="IOException">Or another that moving throws; then everything stands where it stood.</exception>
    public void Run(IReadOnlyList<(string From, string To)> moves)
    {
        var old = new List<string>();
        try
        {
            foreach (var (from, to) in moves)
            {
                if (File.Exists(to))
                {
                    old.Add($"{to}.{Path.GetRandomFileName()}");
                    Move(to, old[^1]);
                }
                Move(from, to);
            }
        }
        catch
        {
            while (done.TryPop(out var last))
            {
                File.Move(last.To, last.From);
            }
            throw;
        }
        old.ForEach(File.Delete);
    }

    private void Move(string from, string to)
    {
        move(from, to);
        done.Push((from, to));
    }
}
