using Reckoner.Drawing;
using Reckoner.Running;
using Reckoner.Words;

namespace Reckoner.Documents.Lessons;

/// <summary>The kinds of answers.</summary>
internal enum AnswerKind
{
    Walk,
    Figure,
    Report,
    PageEnd,
    Room,
}

/// <summary>What a request of a lesson gave.</summary>
internal abstract record RequestAnswer
{
    public abstract AnswerKind Kind { get; }

    /// <summary>What a stage or a handout makes of it. A new kind is asked for in each of them, by the compiler.</summary>
    public T Match<T>(
        Func<WalkAnswer, T> walk,
        Func<FigureAnswer, T> figure,
        Func<ReportAnswer, T> report,
        Func<PageEndAnswer, T> pageEnd,
        Func<RoomAnswer, T> room
    ) =>
        Kind switch
        {
            AnswerKind.Walk => walk((WalkAnswer)this),
            AnswerKind.Figure => figure((FigureAnswer)this),
            AnswerKind.Report => report((ReportAnswer)this),
            AnswerKind.PageEnd => pageEnd((PageEndAnswer)this),
            AnswerKind.Room => room((RoomAnswer)this),
        };
}

/// <param name="Document">The walk in the house style of the lesson.</param>
internal sealed record WalkAnswer(Walk Walk, Tables.Document Document) : RequestAnswer
{
    public Tables.Grid Grid => Document.Grids.First();

    public override AnswerKind Kind => AnswerKind.Walk;
}

internal abstract record FigureAnswer(View View) : RequestAnswer
{
    /// <summary>The walk that is drawn; null where a figure is of machines at rest.</summary>
    public abstract Walk? Walk { get; }

    public abstract string Caption(Vocabulary words);

    /// <summary>Its pages.</summary>
    /// <param name="target">What it is to be laid out for, where the lesson does not say; null for as it is.</param>
    public abstract IReadOnlyList<Scene> Scenes(bool isBlank, FigureTarget? target = null);

    /// <summary>The cycles that are shown and in which something is said, in words.</summary>
    public virtual IEnumerable<(int Cycle, string Sentence)> Told => [];

    public override AnswerKind Kind => AnswerKind.Figure;
}

internal sealed record WalkFigure(View View, Figure Figure) : FigureAnswer(View)
{
    public override Walk? Walk => Figure.Walk;

    public override string Caption(Vocabulary words) => WalkSteps.Caption(Figure.Walk, words);

    /// <summary>Pages, each with its cycles told in words to those who cannot see it.</summary>
    public override IReadOnlyList<Scene> Scenes(bool isBlank, FigureTarget? target = null)
    {
        var words = string.Concat(isBlank ? [] : Told.Select(t => $" {t.Sentence}"));
        return
        [
            .. View.Draws(Figure with { IsBlank = isBlank || Figure.IsBlank, Target = Figure.Target ?? target })
                .Select(s => s with { Description = s.Description + words }),
        ];
    }

    public override IEnumerable<(int Cycle, string Sentence)> Told => Figure.IsBlank ? [] : WalkSteps.Sentences(Figure);
}

/// <summary>A figure without operands, and so with nothing to fill in.</summary>
internal sealed record StillFigure(View View, IReadOnlyList<Scene> Drawn) : FigureAnswer(View)
{
    public override Walk? Walk => null;

    public override string Caption(Vocabulary words) => Drawn[0].Title;

    public override IReadOnlyList<Scene> Scenes(bool isBlank, FigureTarget? target = null) => Drawn;
}

/// <summary>What any other verb answers: the documents that the command would print.</summary>
internal sealed record ReportAnswer(IReadOnlyList<Tables.Document> Documents) : RequestAnswer
{
    public override AnswerKind Kind => AnswerKind.Report;

    /// <summary>A text that stands as it is, such as a description; null for none.</summary>
    public string? Verbatim { get; init; }

    /// <summary>Whether registers and results in its tables are left open where a paper is to be filled in.</summary>
    public bool IsToFill { get; init; }
}

/// <summary>On paper, what follows begins a page.</summary>
internal sealed record PageEndAnswer : RequestAnswer
{
    public override AnswerKind Kind => AnswerKind.PageEnd;
}

/// <summary>On paper, empty lines to write on.</summary>
internal sealed record RoomAnswer(int Lines) : RequestAnswer
{
    public override AnswerKind Kind => AnswerKind.Room;

    /// <summary>As many as fit on one page.</summary>
    public const int Most = 30;
}

/// <summary>A block with the answers to its requests, in their order.</summary>
internal sealed record AnsweredBlock(RequestBlock Block, IReadOnlyList<RequestAnswer> Answers);
