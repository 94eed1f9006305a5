namespace Reckoner.Diagnostics;

/// <summary>Collects what is found wrong in one text.</summary>
public sealed class Report(Source? source)
{
    private readonly List<Diagnostic> found = [];

    public bool HasErrors => found.Exists(d => d.Severity == Severity.Error);

    public int Count => found.Count;

    /// <summary>In the order of the text; those of other texts (a core) come first.</summary>
    public IReadOnlyList<Diagnostic> InOrder() =>
        [.. found.OrderBy(d => d.Source == source ? 1 : 0).ThenBy(d => d.Span.Start).ThenBy(d => d.Span.End)];

    public void Add(Id id, Span span, params ReadOnlySpan<Fact> facts) =>
        found.Add(new Diagnostic(id, source, span, facts.ToArray()));

    /// <summary>Reports the first run of characters that are no text in a stretch of a text; whether there is one.</summary>
    public bool AddHidden(string text, Span within)
    {
        if (HiddenCharacters.First(text, within) is not { } hidden)
        {
            return false;
        }
        Add(Id.HiddenCharacter, hidden, ("character", HiddenCharacters.Named(text[hidden.Start..hidden.End])));
        return true;
    }

    /// <summary>Forgets what was found: the same is asked once more.</summary>
    internal void Clear() => found.Clear();

    public void AddRange(IEnumerable<Diagnostic> diagnostics) => found.AddRange(diagnostics);
}
