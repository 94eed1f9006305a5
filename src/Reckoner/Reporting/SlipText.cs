using Reckoner.Conditions;
using Reckoner.Slips;
using Reckoner.Words;

namespace Reckoner.Reporting;

/// <summary>A slip, and when it bites, in words.</summary>
internal static class SlipText
{
    /// <summary>What was done wrong, with its line.</summary>
    public static string Sentence(Slip slip, Vocabulary words) =>
        words.Say("slips.line", ("line", slip.Line), ("what", words.Say($"slip.{slip.Kind}", slip.Facts)));

    /// <summary>A condition in words that are right at every width.</summary>
    public static string Said(Condition condition, Vocabulary words) =>
        new ConditionWords(words, withValues: false).Said(condition);

    /// <summary>The same, with their values behind numbers that are written in widths: 2^(2n-1) = 128.</summary>
    public static string SaidWithValues(Condition condition, Vocabulary words) =>
        new ConditionWords(words, withValues: true).Said(condition);
}
