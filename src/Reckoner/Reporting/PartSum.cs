namespace Reckoner.Reporting;

/// <summary>Results of parts added up.</summary>
internal static class PartSum
{
    /// <summary>Of parts that agree and together cover everything.</summary>
    public static PartResult Of(IReadOnlyList<PartResult> parts) =>
        parts[0] with
        {
            Sections = [.. parts[0].Sections.Select((_, i) => parts.Select(p => p.Sections[i]).Aggregate(Plus))],
            From = 0,
            To = parts[0].Of,
        };

    private static PartSection Plus(PartSection a, PartSection b)
    {
        var smaller = a.Smallest is null || (b.Smallest is not null && b.Rank < a.Rank) ? b : a;
        return smaller with { Cases = a.Cases + b.Cases, Failures = a.Failures + b.Failures };
    }
}
