namespace Reckoner.Documents.Quizzes;

/// <summary>Something that a learning platform asks and grades: all of its places right, or nothing.</summary>
/// <param name="Identifier">Letters, digits and hyphens, and no other of the bank's.</param>
/// <param name="Question">The number of the question that it is a part of.</param>
/// <param name="Variant">From 1; others ask the same of other operands.</param>
/// <param name="Known">Wrong answers of which it is known what gives them.</param>
internal sealed record QuizItem(
    string Identifier,
    int Question,
    int Variant,
    string Title,
    decimal Marks,
    IReadOnlyList<QuizBlock> Body,
    IReadOnlyList<QuizGap> Gaps,
    IReadOnlyList<KnownWrong> Known
);

/// <summary>A place to write into, or a choice.</summary>
/// <param name="Name">Unique in its item.</param>
/// <param name="Label">What stands before it, or above and beside it in a table.</param>
/// <param name="Right">Every way to write what is right, one at least; the first is shown where one is.</param>
internal sealed record QuizGap(string Name, string Label, IReadOnlyList<string> Right)
{
    /// <summary>Signs that there is room for, whatever is right.</summary>
    public int Room { get; init; } = 12;
}

/// <summary>A wrong answer, and what is said of it.</summary>
/// <param name="Written">For each place of the item every way to write it; no text stands for two different answers.</param>
internal sealed record KnownWrong(IReadOnlyList<IReadOnlyList<string>> Written, QuizFeedback Feedback);

/// <param name="Points">Each a sentence of its own; empty where the first says it all.</param>
internal sealed record QuizFeedback(string Lead, IReadOnlyList<string> Points)
{
    public override string ToString() => string.Join(' ', Points.Prepend(Lead));
}

/// <summary>A question, or a part of one, that cannot be asked so, or asked with less.</summary>
/// <param name="Part">Which part; empty for all of it.</param>
internal sealed record QuizNote(int Question, string Part, string Why, bool IsLeftOut);
