using Reckoner.Checking;
using Reckoner.Drawing;
using Reckoner.Running;
using Reckoner.Slips;
using Reckoner.Words;

namespace Reckoner.Documents.Lessons;

/// <summary>The kinds of answers.</summary>
internal enum AnswerKind
{
    Walk,
    Figure,
    Compare,
    Check,
    Slips,
    Idle,
}

/// <summary>What a request of a lesson gave.</summary>
internal abstract record RequestAnswer
{
    public abstract AnswerKind Kind { get; }

    /// <summary>What a stage or a handout makes of it. A new kind is asked for in each of them, by the compiler.</summary>
    public T Match<T>(
        Func<WalkAnswer, T> walk,
        Func<FigureAnswer, T> figure,
        Func<CompareAnswer, T> compare,
        Func<CheckAnswer, T> check,
        Func<SlipsAnswer, T> slips,
        Func<IdleAnswer, T> idle
    ) =>
        Kind switch
        {
            AnswerKind.Walk => walk((WalkAnswer)this),
            AnswerKind.Figure => figure((FigureAnswer)this),
            AnswerKind.Compare => compare((CompareAnswer)this),
            AnswerKind.Check => check((CheckAnswer)this),
            AnswerKind.Slips => slips((SlipsAnswer)this),
            AnswerKind.Idle => idle((IdleAnswer)this),
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
    public abstract IReadOnlyList<Scene> Scenes(bool isBlank);

    /// <summary>The cycles that are shown and in which something is said, in words.</summary>
    public virtual IEnumerable<(int Cycle, string Sentence)> Told => [];

    public override AnswerKind Kind => AnswerKind.Figure;
}

internal sealed record WalkFigure(View View, Figure Figure) : FigureAnswer(View)
{
    public override Walk? Walk => Figure.Walk;

    public override string Caption(Vocabulary words) => WalkSteps.Caption(Figure.Walk, words);

    /// <summary>Pages, each with its cycles told in words to those who cannot see it.</summary>
    public override IReadOnlyList<Scene> Scenes(bool isBlank)
    {
        var words = string.Concat(isBlank ? [] : Told.Select(t => $" {t.Sentence}"));
        return
        [
            .. View.Draws(Figure with { IsBlank = isBlank || Figure.IsBlank })
                .Select(s => s with { Description = s.Description + words }),
        ];
    }

    public override IEnumerable<(int Cycle, string Sentence)> Told => WalkSteps.Sentences(Figure);
}

/// <summary>A figure without operands, and so with nothing to fill in.</summary>
internal sealed record StillFigure(View View, IReadOnlyList<Scene> Drawn) : FigureAnswer(View)
{
    public override Walk? Walk => null;

    public override string Caption(Vocabulary words) => Drawn[0].Title;

    public override IReadOnlyList<Scene> Scenes(bool isBlank) => Drawn;
}

/// <summary>Machines side by side.</summary>
internal sealed record CompareAnswer(Tables.Document Document) : RequestAnswer
{
    public override AnswerKind Kind => AnswerKind.Compare;
}

internal sealed record CheckAnswer(IReadOnlyList<CheckReport> Reports) : RequestAnswer
{
    public override AnswerKind Kind => AnswerKind.Check;
}

internal sealed record SlipsAnswer(SlipStudy Study) : RequestAnswer
{
    public override AnswerKind Kind => AnswerKind.Slips;
}

internal sealed record IdleAnswer(IdleStudy Study) : RequestAnswer
{
    public override AnswerKind Kind => AnswerKind.Idle;
}

/// <summary>A block with the answers to its requests, in their order.</summary>
internal sealed record AnsweredBlock(RequestBlock Block, IReadOnlyList<RequestAnswer> Answers);
