using Reckoner.Diagnostics;

namespace Reckoner.Questions;

/// <summary>Collects what is found when a question is answered.</summary>
internal sealed class Findings
{
    private readonly List<Finding> found = [];

    public bool HasErrors => found.Exists(f => f.Diagnostic.Severity == Severity.Error);

    public IReadOnlyList<Finding> All => found;

    public void Add(Id id, AskedPart part, int index, params ReadOnlySpan<Fact> facts) =>
        found.Add(new Finding(new Diagnostic(id, null, default, facts.ToArray()), part, index));

    public void AddRange(IEnumerable<Finding> findings) => found.AddRange(findings);

    public Answer<T> Refused<T>()
        where T : class => Answer<T>.Refused([.. found]);

    public Answer<T> Given<T>(T data)
        where T : class => Answer<T>.Given(data, [.. found]);
}
