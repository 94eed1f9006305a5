using Markdig.Syntax;
using Markdig.Syntax.Inlines;
using Reckoner.Sheets;
using Reckoner.Words;

namespace Reckoner.Documents.Lessons;

/// <summary>A lesson with the answers to all its requests: what every output is made from.</summary>
/// <param name="Values">Linked numbers with the text they have now.</param>
/// <param name="Images">The bytes of each image file that the text names, by its path.</param>
internal sealed record AnsweredLesson(
    Lesson Lesson,
    Vocabulary Words,
    IReadOnlyList<AnsweredBlock> Blocks,
    IReadOnlyList<(ValueLink Link, string Text, bool IsGiven)> Values,
    IReadOnlyDictionary<string, byte[]> Images
)
{
    /// <summary>Its questions, with the operands of one sheet.</summary>
    public IReadOnlyList<AskedQuestion> Questions { get; init; } = [];

    /// <summary>What stands in the place of a name on a sheet: empty to write it there; null where this is no sheet.</summary>
    public string? Student { get; init; }

    /// <summary>How it is read.</summary>
    public SheetForm Form { get; init; }

    internal AskedQuestion? QuestionOf(FencedCodeBlock fence) =>
        Questions.FirstOrDefault(q => q.Question.Node == fence);

    internal AnsweredBlock? BlockOf(FencedCodeBlock fence) => Blocks.FirstOrDefault(b => b.Block.Node == fence);

    /// <summary>Whether a linked number is an operand or a width, which nobody has to find.</summary>
    internal bool IsGiven(LinkInline link) => Values.Any(v => v.Link.Node == link && v.IsGiven);

    /// <summary>The figures in the order of the text, each with its number from 1.</summary>
    internal IEnumerable<(int Number, FigureAnswer Figure)> Figures =>
        Blocks.SelectMany(b => b.Answers.OfType<FigureAnswer>()).Select((f, i) => (i + 1, f));
}
