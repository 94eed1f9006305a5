using System.Numerics;
using Reckoner.Datapaths;

namespace Reckoner.Checking;

/// <summary>What a check has covered so far, as it is kept so that a later run goes on from there.</summary>
/// <param name="Description">Its hash.</param>
/// <param name="Only">The formula of the operands that are asked about, as it prints; null for all.</param>
/// <param name="Part">Which part of all operands the check was asked for.</param>
/// <param name="Covered">One for each width that was begun; all but the last are covered to their end.</param>
internal sealed record Checkpoint(
    string Machine,
    string Description,
    string? Slip,
    string? Only,
    (int K, int Of) Part,
    IReadOnlyList<CoveredWidth> Covered
)
{
    /// <summary>The field in which two are not of the same check, or null. Widths that only one has begun are not compared.</summary>
    public string? Differs(Checkpoint other) =>
        Machine != other.Machine ? "machine"
        : Slip != other.Slip ? "slip"
        : Description != other.Description ? "description"
        : Only != other.Only ? "only"
        : Part != other.Part ? "part"
        : Covered.Zip(other.Covered, (a, b) => a.Differs(b)).FirstOrDefault(field => field is not null);
}

/// <summary>What is covered at one width.</summary>
/// <param name="To">The step behind the last that was covered.</param>
/// <param name="Of">How many steps there are at this width, those of other parts among them.</param>
/// <param name="Seconds">How long that took, all runs together.</param>
internal sealed record CoveredWidth(
    IReadOnlyList<(string Name, BigInteger Value)> Widths,
    long From,
    long To,
    BigInteger Of,
    string Method,
    double Seconds,
    IReadOnlyList<CoveredSection> Sections
)
{
    public string? Differs(CoveredWidth other) =>
        !Widths.SequenceEqual(other.Widths) ? "width"
        : (From, Of) != (other.From, other.Of) ? "steps"
        : !Sections.Select(s => s.Section).SequenceEqual(other.Sections.Select(s => s.Section)) ? "sections"
        : null;
}

/// <param name="Smallest">The numbers of the smallest failing operands by name; null where nothing failed.</param>
internal sealed record CoveredSection(
    CheckSection Section,
    BigInteger Cases,
    BigInteger Failures,
    IReadOnlyList<(string Name, BigInteger Number)>? Smallest
)
{
    public static CoveredSection Of(SectionCount count, IReadOnlyList<Operand> operands) =>
        new(
            count.Section,
            count.Cases,
            count.Failures,
            count.Smallest is { } smallest
                ? [.. operands.Select(o => (o.Name, o.Number(smallest.Operands[o.Index])))]
                : null
        );

    /// <summary>Null where the smallest are no operands of these.</summary>
    public SectionCount? Counted(CaseSpace space)
    {
        if (Smallest is null)
        {
            return new SectionCount(Section, Cases, Failures, null);
        }
        if (!Smallest.Select(s => s.Name).SequenceEqual(space.Operands.Select(o => o.Name)))
        {
            return null;
        }
        var bits = new BigInteger[space.Operands.Count];
        foreach (var (operand, (_, number)) in space.Operands.Zip(Smallest))
        {
            bits[operand.Index] = number & ((BigInteger.One << operand.Width) - 1);
            if (operand.Number(bits[operand.Index]) != number)
            {
                return null;
            }
        }
        return new SectionCount(Section, Cases, Failures, FailingCase.Of(space, bits));
    }
}
