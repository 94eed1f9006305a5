using System.Globalization;
using System.Text;
using Reckoner.Reporting;
using Reckoner.Words;

namespace Reckoner.Documents.Quizzes;

/// <summary>
/// A bank as values between commas (RFC 4180), a record for each place: a platform that reads such knows one answer to a question.
/// Every way to write an answer stands in one cell, with a bar between, so that no spreadsheet takes bits for a number.
/// </summary>
internal static class QuizCsv
{
    private const string Or = " | ";

    public static byte[] Of(IReadOnlyList<QuizItem> items, Vocabulary words)
    {
        List<(QuizItem Item, QuizGap Gap, IReadOnlyList<(IReadOnlyList<string> Written, string Said)> Wrong)> places =
        [
            .. items.SelectMany(i => i.Gaps.Select((g, at) => (i, g, Wrong(i, at)))),
        ];
        var most = places.Select(p => p.Wrong.Count).DefaultIfEmpty(0).Max();
        var text = new StringBuilder();
        Record([
            words.Say("quiz.head-item"),
            words.Say("quiz.head-question"),
            words.Say("quiz.head-variant"),
            words.Say("quiz.head-marks"),
            words.Say("quiz.head-text"),
            words.Say("quiz.head-place"),
            words.Say("quiz.head-right"),
            .. Enumerable
                .Range(1, most)
                .SelectMany(n =>
                    new[] { words.Say("quiz.head-wrong", ("number", n)), words.Say("quiz.head-said", ("number", n)) }
                ),
        ]);
        foreach (var (item, gap, wrong) in places)
        {
            var marks = item.Marks / item.Gaps.Count;
            Record([
                item.Identifier,
                Invariant(item.Question),
                Invariant(item.Variant),
                marks.ToString("0.####", CultureInfo.InvariantCulture),
                string.Join('\n', QuizPlain.Lines(item)),
                gap.Label,
                Written(gap.Right),
                .. wrong.SelectMany(w => new[] { Written(w.Written), w.Said }),
                .. Enumerable.Repeat("", 2 * (most - wrong.Count)),
            ]);
        }
        return new UTF8Encoding(encoderShouldEmitUTF8Identifier: false).GetBytes(text.ToString());

        void Record(IReadOnlyList<string> cells) =>
            text.AppendJoin(',', cells.Select(c => Csv.Quoted(Csv.Guarded(c)))).Append("\r\n");
    }

    /// <summary>What may be written into one place alone and is wrong there.</summary>
    private static List<(IReadOnlyList<string> Written, string Said)> Wrong(QuizItem item, int at) =>
        [
            .. item
                .Known.Select(k => (Written: k.Written[at], Said: $"{k.Feedback}"))
                .Where(k => !k.Written.Intersect(item.Gaps[at].Right).Any())
                .GroupBy(k => string.Join(Or, k.Written))
                .Select(g => (g.First().Written, string.Join(' ', g.Select(k => k.Said).Distinct()))),
        ];

    /// <summary>What begins with a sign would be taken for a formula, and stands behind.</summary>
    private static string Written(IReadOnlyList<string> texts) =>
        string.Join(Or, texts.OrderBy(t => Csv.Guarded(t) != t));

    private static string Invariant(int number) => number.ToString(CultureInfo.InvariantCulture);
}
