namespace Reckoner.Verifier;

/// <summary>
/// A description as a tree: what stands in its canonical text, without phrases, comments and names of units. The verifier takes it
/// as it is; that it is what the text says is for whoever reads the text.
/// </summary>
public sealed record Tree(string Kind, string Text, IReadOnlyList<Tree> Inside)
{
    public Tree(string kind, string text, params Tree[] inside)
        : this(kind, text, (IReadOnlyList<Tree>)inside) { }

    public Tree this[int index] => Inside[index];

    internal IEnumerable<Tree> Of(string kind) => Inside.Where(t => t.Kind == kind);
}
