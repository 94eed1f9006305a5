using Reckoner.Diagnostics;
using Reckoner.Refining;
using Reckoner.Words;

namespace Reckoner.Questions;

/// <summary>Which steps lead from one machine to another, or for which operands do they part?</summary>
internal sealed record LeadQuestion(AskedMachine From, AskedMachine To)
{
    public TimeSpan Most { get; init; } = TimeSpan.FromSeconds(30);

    /// <summary>The language of titles, notes and new names.</summary>
    public Vocabulary Words { get; init; } = Vocabulary.English;

    public Answer<Led> Ask(Means means) => means.Watched(1, 0, RefineQuestion.AllSteps, _ => Answered(means));

    private Answer<Led> Answered(Means means)
    {
        var found = new Findings();
        if (
            From.Bound(0, found) is not { } from
            || To.Bound(1, found) is not { } to
            || !RefineQuestion.CanBegin(from, means, found)
        )
        {
            return found.Refused<Led>();
        }
        var begin = means.Clock();
        var led = Led.Of(
            from,
            to,
            RefineQuestion.AllSteps,
            means.Engine,
            Words,
            () => means.Clock() - begin > Most || means.Stop.IsCancellationRequested
        );
        if (led is null)
        {
            found.Add(Id.RefineUnlike, AskedPart.Machine, 1, ("first", from.Machine.Name), ("second", to.Machine.Name));
            return found.Refused<Led>();
        }
        if (led.Breaks is var (failing, operands))
        {
            RefineQuestion.AddBroken(found, 1, failing, operands);
            return found.Refused<Led>();
        }
        return found.Given(led);
    }
}
