namespace Reckoner.Documents;

/// <summary>A page of a plan.</summary>
/// <param name="From">Its first strip.</param>
/// <param name="To">The first strip behind it.</param>
/// <param name="GivesWay">The share of what they may that its figures are lower: 0 for not at all.</param>
internal sealed record PlannedPage(int From, int To, bool IsAcross, double GivesWay);

/// <summary>
/// Puts strips onto pages: the fewest, then those that leave the least of a page empty before what goes on and whose figures give
/// way the least. What begins a page by request parts the whole into stretches that know nothing of each other.
/// </summary>
internal static class PagePlan
{
    private const double Slack = 0.01;

    // What is ugly about a page, in shares of the cost of one more.
    private const double Hole = 0.6;
    private const double Smaller = 0.25;
    private const double Remnant = 0.3;

    /// <summary>A last page filled less than this is a remnant.</summary>
    private const double RemnantShare = 0.2;

    public static IReadOnlyList<PlannedPage> Of(IReadOnlyList<Strip> strips, Paper upright)
    {
        var pages = new List<PlannedPage>();
        for (var from = 0; from < strips.Count; from = pages[^1].To)
        {
            var next = from + 1;
            while (next < strips.Count && !strips[next].BeginsPage)
            {
                next++;
            }
            pages.AddRange(Stretch(strips, from, next, upright));
        }
        return pages;
    }

    /// <summary>The best pages of a stretch, found from its end.</summary>
    private static IEnumerable<PlannedPage> Stretch(IReadOnlyList<Strip> strips, int from, int to, Paper upright)
    {
        var best = new (double Cost, PlannedPage? Page)[to - from + 1];
        for (var first = to - 1; first >= from; first--)
        {
            best[first - from].Cost = double.PositiveInfinity;
            foreach (var (page, cost) in Pages(strips, first, to, upright))
            {
                var all = cost + best[page.To - from].Cost;
                // Of equal ones the one that fills the earlier page.
                if (all <= best[first - from].Cost + Slack)
                {
                    best[first - from] = (all, page);
                }
            }
        }
        for (var at = from; at < to; at = best[at - from].Page!.To)
        {
            yield return best[at - from].Page!;
        }
    }

    /// <summary>The pages that may begin with a strip, and what each costs. Where none may end, one ends where it is full.</summary>
    private static List<(PlannedPage Page, double Cost)> Pages(
        IReadOnlyList<Strip> strips,
        int from,
        int to,
        Paper upright
    )
    {
        var isAcross = Piece(strips, from, to).Any(s => s.IsAcross);
        var room = (isAcross ? upright.Turned : upright).TextHeight;
        var pages = new List<(PlannedPage, double)>();
        var (height, least) = (0.0, 0.0);
        var end = from;
        for (; end < to && (isAcross || !strips[end].IsAcross); end++)
        {
            var over = end > from ? strips[end].Above : strips[end].Again?.Height ?? 0;
            height += over + strips[end].Height;
            least += over + strips[end].Least;
            if (least > room + Slack)
            {
                break;
            }
            if (end + 1 == to || !strips[end + 1].StaysWithAbove)
            {
                var share = height > room + Slack ? Math.Min(1, (height - room) / (height - least)) : 0;
                var filled = Math.Min(1, height / room);
                var ugly =
                    end + 1 < to ? Hole * (1 - filled)
                    : from > 0 && filled < RemnantShare ? Remnant
                    : 0;
                pages.Add((new PlannedPage(from, end + 1, isAcross, share), 1 + ugly + Smaller * share));
            }
        }
        return pages.Count > 0
            ? pages
            : [(new PlannedPage(from, Math.Max(end, from + 1), isAcross, height - least > Slack ? 1 : 0), 1)];
    }

    /// <summary>What stays together from a strip on.</summary>
    private static IEnumerable<Strip> Piece(IReadOnlyList<Strip> strips, int from, int to) =>
        strips.Take(to).Skip(from + 1).TakeWhile(s => s.StaysWithAbove).Prepend(strips[from]);
}
