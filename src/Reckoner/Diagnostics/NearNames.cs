namespace Reckoner.Diagnostics;

/// <summary>Names that a misspelt one was probably meant to be.</summary>
internal static class NearNames
{
    /// <summary>
    /// At most three, the nearest first: at most one slip per three letters, or the same word in other case; then, the
    /// shortest first, names of several words joined by hyphens, of which some were written.
    /// </summary>
    public static IReadOnlyList<string> Of(string name, IEnumerable<string> known) =>
        [
            .. known
                .Distinct()
                .Where(k => k != name)
                .Select(k => (Name: k, Distance: Distance(name, k)))
                .Where(k =>
                    k.Distance <= Allowed(name, k.Name) || k.Name.Equals(name, StringComparison.OrdinalIgnoreCase)
                )
                .OrderBy(k => k.Distance)
                .ThenBy(k => k.Name, StringComparer.Ordinal)
                .Select(k => k.Name)
                .Concat(known.Where(k => IsPart(name, k)).OrderBy(k => k.Length).ThenBy(k => k, StringComparer.Ordinal))
                .Distinct()
                .Take(3),
        ];

    /// <summary>Whether a name of several words has these among them, one after the other.</summary>
    private static bool IsPart(string words, string name) =>
        words.Length > 0 && words != name && $"-{name}-".Contains($"-{words}-", StringComparison.OrdinalIgnoreCase);

    private static int Allowed(string a, string b) =>
        Math.Max(a.Length, b.Length) < 3 ? 0 : Math.Max(1, Math.Min(a.Length, b.Length) / 3);

    /// <summary>Slips between two words: a letter missing, extra, wrong, or two neighbours exchanged (optimal string alignment).</summary>
    private static int Distance(string a, string b)
    {
        if (a.Length > 80 || b.Length > 80)
        {
            return int.MaxValue;
        }
        var d = new int[a.Length + 1, b.Length + 1];
        for (var i = 0; i <= a.Length; i++)
        {
            d[i, 0] = i;
        }
        for (var j = 0; j <= b.Length; j++)
        {
            d[0, j] = j;
        }
        for (var i = 1; i <= a.Length; i++)
        {
            for (var j = 1; j <= b.Length; j++)
            {
                var change = d[i - 1, j - 1] + (a[i - 1] == b[j - 1] ? 0 : 1);
                d[i, j] = Math.Min(change, Math.Min(d[i - 1, j], d[i, j - 1]) + 1);
                if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1])
                {
                    d[i, j] = Math.Min(d[i, j], d[i - 2, j - 2] + 1);
                }
            }
        }
        return d[a.Length, b.Length];
    }
}
