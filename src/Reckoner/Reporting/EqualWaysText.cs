using Reckoner.Choosing;
using Reckoner.Words;

namespace Reckoner.Reporting;

/// <summary>What can be done where there are too few operands of equal difficulty, none of it unasked.</summary>
internal static class EqualWaysText
{
    public static IEnumerable<Content> Of(
        OperandsSubject subject,
        EqualClass largest,
        EqualWays ways,
        int count,
        Vocabulary words
    )
    {
        if (ways.Wider is { } wider)
        {
            var widths = wider.Widths.Select(w => (w.Name, Value: $"{w.Value}")).ToList();
            yield return words.Spell(
                "operands.way-wider",
                ("widths", string.Join(", ", widths.Select(w => $"{w.Name} = {w.Value}"))),
                ("option", string.Join(",", widths.Select(w => $"{w.Name}={w.Value}"))),
                ("size", wider.Size)
            );
        }
        if (ways.Neighbour is { } neighbour)
        {
            var shown = neighbour.Condition(subject.Datapath.MayStopEarly);
            yield return words.Spell(
                "operands.way-neighbour",
                ("class", EqualDocument.Said(neighbour, words)),
                ("size", neighbour.Size),
                ("count", Math.Min(count - largest.Size, neighbour.Size)),
                ("condition", subject.Condition is null ? shown : $"({subject.Condition}) and {shown}")
            );
        }
        yield return words.Spell("operands.way-repeats");
    }
}
