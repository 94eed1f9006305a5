using System.Numerics;
using Reckoner.Diagnostics;
using Reckoner.Tables;
using Reckoner.Words;

namespace Reckoner.Reporting;

/// <summary>How sentences are spoken: the language, the digits, and whether a subtraction is told as one or by its complement.</summary>
internal sealed record Speech(Vocabulary Words, Digits Digits, bool ByComplement)
{
    public Speech(Vocabulary words)
        : this(words, new Digits(2, 0), ByComplement: false) { }

    public string Say(string key, params IReadOnlyList<Fact> facts) => Words.Say(key, facts);

    public Content Spell(string key, params IReadOnlyList<Fact> facts) => Words.Spell(key, facts);

    public Run Bits(BigInteger bits, int width) => Digits.Of(bits, width);
}
