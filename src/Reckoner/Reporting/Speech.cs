using System.Numerics;
using Reckoner.Datapaths;
using Reckoner.Diagnostics;
using Reckoner.Styles;
using Reckoner.Tables;
using Reckoner.Words;

namespace Reckoner.Reporting;

/// <summary>How sentences are spoken: the language, the digits, and whether a subtraction is told as one or by its complement.</summary>
internal sealed record Speech(Vocabulary Words, Digits Digits, bool ByComplement)
{
    /// <summary>
    /// Whether the description's phrases are said. They were written for the machine as it is: with a slip in it they may not be so.
    /// </summary>
    public bool UsesPhrases { get; init; } = true;

    public ReasonForm Form { get; init; } = ReasonForm.Full;

    /// <summary>For the rows of a walk of a machine, digits in base 2 not in groups.</summary>
    public static Speech Of(Datapath datapath, Vocabulary words, HouseStyle style) =>
        new(words, style.Digits.Base == 2 ? new Digits(2, 0) : style.Digits, style.ByComplement)
        {
            Form = style.Reasons,
            UsesPhrases = datapath.Machine.Slip is null,
        };

    public string Say(string key, params IReadOnlyList<Fact> facts) => Words.Say(key, facts);

    public Content Spell(string key, params IReadOnlyList<Fact> facts) => Words.Spell(key, facts);

    public Run Bits(BigInteger bits, int width) => Digits.Of(bits, width);
}
