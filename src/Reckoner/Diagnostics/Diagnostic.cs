namespace Reckoner.Diagnostics;

public enum Severity
{
    /// <summary>The description or request cannot be used.</summary>
    Error,

    /// <summary>It can be used, but something in it is probably not meant.</summary>
    Remark,

    /// <summary>Worth a look; shown only where a description is explained.</summary>
    Hint,
}

/// <summary>One named fact of a diagnostic; messages refer to it by name. The value is a text or a whole number.</summary>
public readonly record struct Fact(string Name, object Value)
{
    public static implicit operator Fact((string Name, object Value) pair) => new(pair.Name, pair.Value);
}

/// <summary>What was found, where, as data; <see cref="Words.Vocabulary"/> makes the sentences.</summary>
/// <param name="Source">The text it is about; null for a request on the command line.</param>
public sealed record Diagnostic(Id Id, Source? Source, Span Span, IReadOnlyList<Fact> Facts)
{
    public Severity Severity => Id.Severity;

    /// <summary>Counted from 1; 0 when the diagnostic is not about a text.</summary>
    public int Line => Source?.LineOf(Span.Start) ?? 0;
}

/// <summary>A fact that is itself a text of the message table, such as "the end of the line", with facts of its own.</summary>
internal sealed record Term(string Key, params IReadOnlyList<Fact> Facts);
