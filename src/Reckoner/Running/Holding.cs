namespace Reckoner.Running;

/// <summary>What holds in every round, as it is seen in one walk.</summary>
/// <param name="Formulas">With names, i the rounds done: what stands in the rows with numbers, then what does not change in them.</param>
/// <param name="Rows">By cycle, for those at which a round begins or the last one has ended.</param>
/// <param name="Ends">What holds behind the last round, with names; empty where that is the same.</param>
internal sealed record Holding(
    IReadOnlyList<string> Formulas,
    IReadOnlyList<string> Ends,
    IReadOnlyDictionary<int, IReadOnlyList<string>> Rows
)
{
    /// <summary>The numbers of a row, or of the last one before it that has any.</summary>
    public IReadOnlyList<string> At(int cycle) =>
        Rows.Where(r => r.Key <= cycle).OrderBy(r => r.Key).Select(r => r.Value).LastOrDefault() ?? [];
}
