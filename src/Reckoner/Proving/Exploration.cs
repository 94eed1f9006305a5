namespace Reckoner.Proving;

/// <summary>Every way through a stretch of the schedule, in a region of widths and rounds.</summary>
internal sealed class Exploration(Region region, Variables variables, Allowance allowance)
{
    /// <summary>More would be a machine that this way of reasoning does not suit.</summary>
    private const int MostPaths = 400;

    private readonly Stack<IReadOnlyList<int>> later = [];

    public Region Region { get; } = region;

    public Variables Variables { get; } = variables;

    public Case Root { get; } = new();

    /// <summary>Of the facts known at the beginning, the numbers of those that fixed a variable on a path, or ended one.</summary>
    public HashSet<int> Decisive { get; } = [];

    /// <summary>Some work was done.</summary>
    public void Spend() => allowance.Spend();

    public void Later(IReadOnlyList<int> script) => later.Push(script);

    /// <summary>Walks every way that is not refuted.</summary>
    /// <param name="instances">States that were met at the beginning; they spare many a refutation that would fail.</param>
    public List<(Path Path, T End)> Walk<T>(IReadOnlyList<Instance> instances, Func<Path, T> body)
    {
        var ends = new List<(Path, T)>();
        later.Push([]);
        while (later.TryPop(out var script))
        {
            Spend();
            if (ends.Count + later.Count > MostPaths)
            {
                throw new NotReachedException(Obstacle.Paths);
            }
            var path = new Path(this, Root, script, instances.Select(i => i.Copy(i.N, i.I)));
            try
            {
                ends.Add((path, body(path)));
            }
            catch (ImpossibleException)
            {
                // Nothing follows here.
            }
        }
        return ends;
    }
}

/// <summary>How much work a proof may be.</summary>
internal sealed class Allowance(Func<bool> isSpent)
{
    /// <exception cref="NotReachedException">It is used up.</exception>
    public void Spend()
    {
        if (isSpent())
        {
            throw new NotReachedException(Obstacle.Budget);
        }
    }
}
