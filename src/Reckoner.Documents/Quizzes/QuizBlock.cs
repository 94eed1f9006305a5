namespace Reckoner.Documents.Quizzes;

internal enum QuizBlockKind
{
    Says,
    Lines,
    Table,
    Places,
    Choice,
}

/// <summary>A piece of what an item shows.</summary>
internal abstract record QuizBlock
{
    public abstract QuizBlockKind Kind { get; }

    /// <summary>What a form makes of it. A new kind is asked for in each, by the compiler.</summary>
    public T Match<T>(
        Func<QuizSays, T> says,
        Func<QuizLines, T> lines,
        Func<QuizTable, T> table,
        Func<QuizPlaces, T> places,
        Func<QuizChoice, T> choice
    ) =>
        Kind switch
        {
            QuizBlockKind.Says => says((QuizSays)this),
            QuizBlockKind.Lines => lines((QuizLines)this),
            QuizBlockKind.Table => table((QuizTable)this),
            QuizBlockKind.Places => places((QuizPlaces)this),
            QuizBlockKind.Choice => choice((QuizChoice)this),
        };
}

internal sealed record QuizSays(string Text) : QuizBlock
{
    public override QuizBlockKind Kind => QuizBlockKind.Says;
}

/// <summary>Lines that stand as they are, such as a description.</summary>
internal sealed record QuizLines(IReadOnlyList<string> Lines) : QuizBlock
{
    public override QuizBlockKind Kind => QuizBlockKind.Lines;
}

internal sealed record QuizTable(IReadOnlyList<string> Heads, IReadOnlyList<IReadOnlyList<QuizCell>> Rows) : QuizBlock
{
    public override QuizBlockKind Kind => QuizBlockKind.Table;
}

/// <param name="Gap">What is to be written there; null for a cell that is printed.</param>
internal readonly record struct QuizCell(string Text, QuizGap? Gap = null, bool IsDigits = false);

/// <summary>Places beside each other, each behind its label.</summary>
internal sealed record QuizPlaces(IReadOnlyList<QuizGap> Gaps) : QuizBlock
{
    public override QuizBlockKind Kind => QuizBlockKind.Places;
}

/// <summary>One of several sentences is chosen, by its letter.</summary>
/// <param name="Options">Each with the letter that stands for it.</param>
internal sealed record QuizChoice(QuizGap Gap, IReadOnlyList<(string Letter, string Text)> Options) : QuizBlock
{
    public override QuizBlockKind Kind => QuizBlockKind.Choice;
}
