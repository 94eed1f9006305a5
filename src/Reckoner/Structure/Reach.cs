namespace Reckoner.Structure;

internal static class Reach
{
    /// <summary>What can be come to from some things, one step after another; the things themselves too.</summary>
    public static HashSet<T> From<T>(IEnumerable<T> some, Func<T, IEnumerable<T>> next)
    {
        var reached = new HashSet<T>();
        var asked = new Stack<T>(some);
        while (asked.TryPop(out var one))
        {
            if (reached.Add(one))
            {
                foreach (var other in next(one))
                {
                    asked.Push(other);
                }
            }
        }
        return reached;
    }
}
