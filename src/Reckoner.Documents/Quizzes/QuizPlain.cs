namespace Reckoner.Documents.Quizzes;

/// <summary>What an item shows, as lines of plain text.</summary>
internal static class QuizPlain
{
    /// <summary>Stands where something is to be written.</summary>
    private const string Place = "____";

    public static IEnumerable<string> Lines(QuizItem item) => item.Body.SelectMany(Of);

    private static IEnumerable<string> Of(QuizBlock block) =>
        block.Match<IEnumerable<string>>(
            says: b => [b.Text],
            lines: b => b.Lines.Select(l => $"    {l}".TrimEnd()),
            table: Of,
            places: b => b.Gaps.Select(g => $"{g.Label} = {Place}"),
            choice: b => b.Options.Select(o => $"{o.Letter}) {o.Text}")
        );

    /// <summary>Columns under each other.</summary>
    private static IEnumerable<string> Of(QuizTable table)
    {
        List<IReadOnlyList<string>> rows =
        [
            table.Heads,
            .. table.Rows.Select(r => (IReadOnlyList<string>)[.. r.Select(c => c.Gap is null ? c.Text : Place)]),
        ];
        var wide = table.Heads.Select((_, i) => rows.Max(r => r[i].Length)).ToList();
        return rows.Select(r => string.Join("  ", r.Select((c, i) => c.PadRight(wide[i]))).TrimEnd());
    }
}
