using Reckoner.Slips;
using Reckoner.Words;

namespace Reckoner.Reporting;

/// <summary>A slip, and when it bites, in words.</summary>
public static class SlipText
{
    /// <summary>What was done wrong, with its line.</summary>
    public static string Sentence(Slip slip, Vocabulary words) =>
        words.Say("slips.line", ("line", slip.Line), ("what", words.Say($"slip.{slip.Kind}", slip.Facts)));

    /// <summary>A condition in words.</summary>
    public static string Said(Condition condition, Vocabulary words) =>
        condition.Parts is [var first, var second]
            ? words.Say(condition.Key, ("first", Said(first, words)), ("second", Said(second, words)))
            : words.Say(condition.Key, ("text", condition.Text));
}
