using Reckoner.Choosing;
using Reckoner.Words;

namespace Reckoner.Reporting;

/// <summary>What can be done where there are too few operands of equal difficulty, none of it unasked.</summary>
internal static class EqualWaysText
{
    public static IEnumerable<Content> Of(EqualDraw draw, EqualWays ways, Vocabulary words)
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
            yield return words.Spell(
                "operands.way-neighbour",
                ("class", EqualClassText.Of(neighbour, words)),
                ("size", neighbour.Size)
            );
        }
        if (ways.WithShortcuts is { } size)
        {
            yield return words.Spell("operands.way-shortcuts", ("size", size));
        }
        if (draw.Left > 0)
        {
            yield return words.Spell("operands.way-repeats");
        }
    }
}
