using System.Globalization;
using System.Text;
using Reckoner.Words;

namespace Reckoner.Documents.Quizzes;

/// <summary>A bank as text to read, to print, and to copy from: what is asked, what is right, and what gives which wrong answer.</summary>
internal static class QuizText
{
    private const string Between = "----------------------------------------";

    public static byte[] Of(IReadOnlyList<QuizItem> items, Vocabulary words) =>
        new UTF8Encoding(encoderShouldEmitUTF8Identifier: false).GetBytes(
            string.Join($"\n{Between}\n", items.Select(i => string.Concat(Lines(i, words).Select(l => l + "\n"))))
        );

    private static IEnumerable<string> Lines(QuizItem item, Vocabulary words)
    {
        yield return item.Title;
        yield return words.Say("quiz.text-item", ("item", item.Identifier), ("variant", item.Variant));
        yield return words.Say(
            "quiz.text-marks",
            ("marks", words.Decimal(item.Marks.ToString("0.####", CultureInfo.InvariantCulture)))
        );
        yield return "";
        foreach (var line in QuizPlain.Lines(item))
        {
            yield return line;
        }
        yield return "";
        foreach (var gap in item.Gaps)
        {
            yield return words.Say("quiz.text-right", ("place", gap.Label), ("texts", string.Join(" | ", gap.Right)));
        }
        foreach (var known in item.Known)
        {
            yield return words.Say(
                "quiz.text-wrong",
                (
                    "texts",
                    string.Join(", ", item.Gaps.Zip(known.Written).Select(g => $"{g.First.Label} = {g.Second[0]}"))
                )
            );
            yield return $"  {known.Feedback.Lead}";
            foreach (var point in known.Feedback.Points)
            {
                yield return $"    {point}";
            }
        }
    }
}
