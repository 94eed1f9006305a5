using Reckoner.Checking;
using Reckoner.Drawing;
using Reckoner.Reporting;
using Reckoner.Running;
using Reckoner.Slips;

namespace Reckoner.Documents.Lessons;

/// <summary>What a request of a lesson gave.</summary>
public abstract record Answer;

/// <param name="Document">The walk in the house style of the lesson.</param>
public sealed record WalkAnswer(Walk Walk, Tables.Document Document) : Answer
{
    public Tables.Grid Grid => Document.Grids.First();
}

public sealed record FigureAnswer(View View, Figure Figure) : Answer
{
    /// <summary>Pages, each with its cycles told in words to those who cannot see it.</summary>
    public IReadOnlyList<Scene> Scenes(bool isBlank)
    {
        var words = string.Concat(
            isBlank ? [] : WalkSteps.Sentences(Figure.Walk, Figure.Words, Figure.From, Figure.To).Select(s => $" {s}")
        );
        return
        [
            .. View.Draws(Figure with { IsBlank = isBlank || Figure.IsBlank })
                .Select(s => s with { Description = s.Description + words }),
        ];
    }
}

/// <summary>Machines side by side.</summary>
public sealed record CompareAnswer(Tables.Document Document) : Answer;

public sealed record CheckAnswer(IReadOnlyList<CheckReport> Reports) : Answer;

public sealed record SlipsAnswer(SlipStudy Study) : Answer;

public sealed record IdleAnswer(IdleStudy Study) : Answer;

/// <summary>A block with the answers to its requests, in their order.</summary>
public sealed record AnsweredBlock(RequestBlock Block, IReadOnlyList<Answer> Answers);
