using System.Numerics;
using Reckoner.Checking;

namespace Reckoner.Reporting;

/// <summary>A check's result at one width as read back from JSON: a stretch of all steps, and the counts of its sections.</summary>
/// <param name="Width">As JSON, without blanks.</param>
/// <param name="From">The first step that was covered.</param>
/// <param name="To">The step behind the last that was covered.</param>
/// <param name="Of">How many steps there are.</param>
internal sealed record PartResult(
    PartSubject About,
    string Width,
    IReadOnlyList<PartSection> Sections,
    BigInteger From,
    BigInteger To,
    BigInteger Of
)
{
    public bool Holds => Sections.All(s => s.Failures.IsZero);

    /// <summary>The field in which two results are not about the same check, or null.</summary>
    public string? Differs(PartResult other) =>
        About.Machine != other.About.Machine ? "machine"
        : About.Description != other.About.Description ? "description"
        : About.Slip != other.About.Slip ? "slip"
        : About.Only != other.About.Only ? "only"
        : Width != other.Width ? "width"
        : Of != other.Of ? "steps"
        : !Sections.Select(s => s.Section).SequenceEqual(other.Sections.Select(s => s.Section)) ? "sections"
        : null;
}

/// <summary>What a result is about.</summary>
/// <param name="Description">Its hash.</param>
/// <param name="Only">The formula of the operands that were asked about; null for all.</param>
internal sealed record PartSubject(string Machine, string Description, string? Slip, string? Only);

/// <param name="Smallest">The smallest failing case as JSON, without blanks; null where nothing failed.</param>
/// <param name="Rank">By which smallest cases are compared; without meaning where there is none.</param>
internal sealed record PartSection(
    CheckSection Section,
    BigInteger Cases,
    BigInteger Failures,
    string? Smallest,
    Rank Rank
);
