using Reckoner.Claims;
using Reckoner.Conditions;
using Reckoner.Datapaths;
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
        new ConditionWords(words, FormulaWords.Notation, withValues: false).Said(condition);

    /// <summary>The same, with their values behind numbers that are written in widths: 2^(2n-1) = 128.</summary>
    public static string SaidWithValues(Condition condition, Vocabulary words) =>
        new ConditionWords(words, FormulaWords.Notation, withValues: true).Said(condition);

    /// <summary>The same for readers, with names as they are shown to them.</summary>
    public static string SaidWithValues(Condition condition, Datapath datapath, Vocabulary words) =>
        new ConditionWords(words, ClaimText.In(datapath, words), withValues: true).Said(condition);
}
