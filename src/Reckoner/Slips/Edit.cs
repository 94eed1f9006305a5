using Reckoner.Diagnostics;
using Reckoner.Notation;

namespace Reckoner.Slips;

/// <summary>A node with one slip in it, and what the slip is.</summary>
/// <param name="Kind">A word of the message table under "slip."; the first part of the slip's name.</param>
/// <param name="Subject">What it is done to, as it is written; the second part of the name.</param>
/// <param name="Facts">What its sentence needs besides.</param>
internal sealed record Edit<T>(T Node, string Kind, string Subject, Span Place, IReadOnlyList<Fact> Facts)
{
    /// <summary>A register that the slip needs and the right machine has not.</summary>
    public RegisterLine? Extra { get; init; }

    /// <summary>A register or part that is read as it was before the cycle, through a wire named at its beginning.</summary>
    public string? Before { get; init; }

    public Edit<TOuter> Within<TOuter>(Func<T, TOuter> rebuild) =>
        new(rebuild(Node), Kind, Subject, Place, Facts) { Extra = Extra, Before = Before };
}
