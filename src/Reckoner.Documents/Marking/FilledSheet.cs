using System.Globalization;
using Reckoner.Documents.HandedIn;
using Reckoner.Documents.Lessons;
using Reckoner.Words;

namespace Reckoner.Documents.Marking;

/// <summary>
/// Finds what was written into the places of a sheet, wherever its lines stand by now: tables by their heads, rows by their labels,
/// fields by what stands before them.
/// </summary>
/// <param name="Places">By the names of the places; those in which nothing was written are not there.</param>
internal sealed record FilledSheet(IReadOnlyDictionary<string, string> Places)
{
    public bool IsEmpty => Places.Count == 0;

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
        var found = new Dictionary<string, string>();
        var words = Vocabulary.Of(answers.Language)!;
        foreach (var answer in sheet.Answers)
        {
            var lines = Section(text, answers, answer.Number, words);
            new SheetLines(lines, answer, found).Read();
        }
        return new FilledSheet(found);
    }

    /// <summary>The worksheet of a question, or the lines between its heading and the next.</summary>
    private static IReadOnlyList<IReadOnlyList<string>> Section(
        HandedText text,
        AnswersOfClass answers,
        int question,
        Vocabulary words
    )
    {
        var name = question.ToString(CultureInfo.InvariantCulture);
        if (text.Pages.FirstOrDefault(p => p.Name == name) is { } page)
        {
            return page.Rows;
        }
        var lines = text.Pages.SelectMany(p => p.Rows).ToList();
        var heads = answers
            .Questions.Select(q => (q.Number, At: Find(lines, QuestionBlocks.Head(q.Number, q.Marks, words))))
            .Where(h => h.At >= 0)
            .OrderBy(h => h.At)
            .ToList();
        if (heads.Count == 0)
        {
            return lines;
        }
        var at = heads.FindIndex(h => h.Number == question);
        return at < 0 ? []
            : at + 1 < heads.Count ? lines[heads[at].At..heads[at + 1].At]
            : lines[heads[at].At..];
    }

    private static int Find(List<IReadOnlyList<string>> lines, string head) =>
        lines.FindIndex(l => l.Any(c => string.Equals(c.Trim(), head, StringComparison.OrdinalIgnoreCase)));
}
