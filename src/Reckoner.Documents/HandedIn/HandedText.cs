using Reckoner.Diagnostics;

namespace Reckoner.Documents.HandedIn;

/// <summary>A worksheet, or a whole text.</summary>
/// <param name="Name">Empty where it has none.</param>
/// <param name="Rows">The cells of each line; blank lines are there too.</param>
internal sealed record HandedPage(string Name, IReadOnlyList<IReadOnlyList<string>> Rows);

/// <summary>What a file says, whatever its form.</summary>
internal sealed record HandedText(IReadOnlyList<HandedPage> Pages)
{
    /// <summary>What was written by the names of the places, where the file says so itself; else null.</summary>
    public IReadOnlyDictionary<string, string>? Places { get; init; }

    /// <summary>The number of the sheet, where the file says so itself; else null.</summary>
    public string? Sheet { get; init; }
}

/// <summary>A file that was read, or why it could not be.</summary>
internal readonly record struct HandedReading(HandedText? Text, Term? Trouble)
{
    public static implicit operator HandedReading(HandedText text) => new(text, null);

    public static implicit operator HandedReading(Term trouble) => new(null, trouble);
}
