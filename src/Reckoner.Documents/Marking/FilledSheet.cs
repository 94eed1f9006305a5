using System.Globalization;
using Reckoner.Documents.HandedIn;
using Reckoner.Documents.Lessons;
using Reckoner.Explaining;
using Reckoner.Words;

namespace Reckoner.Documents.Marking;

/// <summary>
/// Finds what was written into the places of a sheet, wherever its lines stand by now: tables by their heads, rows by their labels,
/// fields by what stands before them.
/// </summary>
/// <param name="Places">By the names of the places; those in which nothing was written are not there.</param>
internal sealed record FilledSheet(IReadOnlyDictionary<string, string> Places)
{
    /// <summary>
    /// Questions that a person has to look at, by their number: lines that may be meant for one row or another, or none where the
    /// question is not there any more as it was handed out.
    /// </summary>
    public IReadOnlyDictionary<int, IReadOnlyList<UnreadCell>> Open { get; init; } =
        new Dictionary<int, IReadOnlyList<UnreadCell>>();

    public bool IsEmpty => Places.Count == 0 && Open.Values.All(o => o.Count == 0);

    public string this[string place] => Places.GetValueOrDefault(place, "");

    /// <summary>The place of a row that somebody added below the last.</summary>
    public static string Extra(string question, AnsweredTable table, int row, int column) =>
        string.Create(
            CultureInfo.InvariantCulture,
            $"{question}.{table.Number}.{table.Rows.Count + row}.{table.Columns[column]}"
        );

    public static FilledSheet Of(HandedText text, AnswersOfClass answers, AnsweredSheet sheet)
    {
        if (text.Places is { } places)
        {
            return new FilledSheet(places);
        }
        var open = new Dictionary<int, IReadOnlyList<UnreadCell>>();
        var readings = new List<SheetLines>();
        var sections = Sections(text, answers);
        foreach (var answer in sheet.Answers.Where(a => a.Tables.Count + a.Fields.Count > 0))
        {
            if (sections(answer.Number) is not { } lines)
            {
                open[answer.Number] = [];
                continue;
            }
            var reading = new SheetLines(lines, answer);
            reading.Read();
            readings.Add(reading);
        }
        var found = new Dictionary<string, string>();
        foreach (var reading in readings)
        {
            // Where no heading tells questions apart, one table may be that of several.
            var isShared = readings.Exists(r => r != reading && r.IsWhole && r.Shares(reading));
            foreach (var (place, written) in reading.Found.Where(_ => !isShared))
            {
                found[place] = written;
            }
            if (isShared || !reading.IsWhole || reading.Unread.Count > 0)
            {
                open[reading.Question] = isShared || !reading.IsWhole ? [] : reading.Unread;
            }
        }
        return new FilledSheet(found) { Open = open };
    }

    /// <summary>
    /// For each question its worksheet, or the lines between its heading and the next; all lines where there are no headings at all, and
    /// null where only its own is missing.
    /// </summary>
    private static Func<int, IReadOnlyList<IReadOnlyList<string>>?> Sections(HandedText text, AnswersOfClass answers)
    {
        var words = Vocabulary.Of(answers.Language)!;
        var lines = text.Pages.SelectMany(p => p.Rows).ToList();
        var heads = answers
            .Questions.Select(q => (q.Number, At: Find(lines, QuestionBlocks.Head(q.Number, q.Marks, words))))
            .Where(h => h.At >= 0)
            .OrderBy(h => h.At)
            .ToList();
        return question =>
        {
            var name = question.ToString(CultureInfo.InvariantCulture);
            if (text.Pages.FirstOrDefault(p => p.Name == name) is { } page)
            {
                return page.Rows;
            }
            var at = heads.FindIndex(h => h.Number == question);
            return heads.Count == 0 ? lines
                : at < 0 ? null
                : at + 1 < heads.Count ? lines[heads[at].At..heads[at + 1].At]
                : lines[heads[at].At..];
        };
    }

    private static int Find(List<IReadOnlyList<string>> lines, string head) =>
        lines.FindIndex(l => l.Any(c => string.Equals(c.Trim(), head, StringComparison.OrdinalIgnoreCase)));
}
