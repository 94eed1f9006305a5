using Reckoner.Documents.Lessons;
using Reckoner.Words;

namespace Reckoner.Documents.Quizzes;

/// <summary>The forms of a bank.</summary>
internal enum QuizForm
{
    Qti,
    Qti3,
    Csv,
    Text,
}

/// <summary>The questions of a lesson as items for a learning platform.</summary>
/// <param name="Notes">What is left out, each thing once, whatever the variants.</param>
internal sealed record QuizBank(IReadOnlyList<QuizItem> Items, IReadOnlyList<QuizNote> Notes)
{
    /// <param name="variants">The questions of each variant; what is the same in all stands in the first alone.</param>
    public static QuizBank Of(IReadOnlyList<IReadOnlyList<AskedQuestion>> variants, Vocabulary words)
    {
        var ways = new QuizWays();
        var made = variants
            .SelectMany((questions, i) => questions.Select(q => QuizItems.Of(q, i + 1, ways, words)))
            .ToList();
        return new QuizBank(
            [.. made.SelectMany(m => m.Items).OrderBy(i => i.Question)],
            [.. made.SelectMany(m => m.Notes).Distinct().OrderBy(n => n.Question)]
        );
    }

    /// <summary>The bytes of its file.</summary>
    public byte[] As(QuizForm form, Vocabulary words) =>
        form switch
        {
            QuizForm.Qti => QtiPackage.Of(Items, QtiDialect.Version21, words),
            QuizForm.Qti3 => QtiPackage.Of(Items, QtiDialect.Version3, words),
            QuizForm.Csv => QuizCsv.Of(Items, words),
            QuizForm.Text => QuizText.Of(Items, words),
        };
}
