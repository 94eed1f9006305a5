using Reckoner.Checking;
using Reckoner.Drawing;
using Reckoner.Running;
using Reckoner.Slips;
using Reckoner.Words;

namespace Reckoner.Documents.Lessons;

/// <summary>What a request of a lesson gave.</summary>
internal abstract record Answer;

/// <param name="Document">The walk in the house style of the lesson.</param>
internal sealed record WalkAnswer(Walk Walk, Tables.Document Document) : Answer
{
    public Tables.Grid Grid => Document.Grids.First();
}

internal abstract record FigureAnswer(View View) : Answer
{
    /// <summary>The walk that is drawn; null where a figure is of machines at rest.</summary>
    public abstract Walk? Walk { get; }

    public abstract string Caption(Vocabulary words);

    /// <summary>Its pages.</summary>
    public abstract IReadOnlyList<Scene> Scenes(bool isBlank);

    /// <summary>The cycles that are shown and in which something is said, in words.</summary>
    public virtual IEnumerable<(int Cycle, string Sentence)> Told => [];
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

    public override IEnumerable<(int Cycle, string Sentence)> Told =>
        WalkSteps.Sentences(Figure.Walk, Figure.Words, Figure.From, Figure.To);
}

/// <summary>A figure without operands, and so with nothing to fill in.</summary>
internal sealed record StillFigure(View View, IReadOnlyList<Scene> Drawn) : FigureAnswer(View)
{
    public override Walk? Walk => null;

    public override string Caption(Vocabulary words) => Drawn[0].Title;

    public override IReadOnlyList<Scene> Scenes(bool isBlank) => Drawn;
}

/// <summary>Machines side by side.</summary>
internal sealed record CompareAnswer(Tables.Document Document) : Answer;

internal sealed record CheckAnswer(IReadOnlyList<CheckReport> Reports) : Answer;

internal sealed record SlipsAnswer(SlipStudy Study) : Answer;

internal sealed record IdleAnswer(IdleStudy Study) : Answer;

/// <summary>A block with the answers to its requests, in their order.</summary>
internal sealed record AnsweredBlock(RequestBlock Block, IReadOnlyList<Answer> Answers);
