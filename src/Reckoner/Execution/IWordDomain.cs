using Reckoner.Datapaths;

namespace Reckoner.Execution;

/// <summary>
/// What words are to an execution, and what operations do with them: numbers, the places bits come from, places of a graph.
/// Every member is defined for every word of its width, also on a way that is not taken.
/// </summary>
internal interface IWordDomain<TWord>
{
    /// <summary>
    /// Whether every way of a decision is executed and the results are chosen between; else the one way that is taken.
    /// </summary>
    bool TakesAllWays { get; }

    /// <summary>What an operation gives.</summary>
    /// <param name="inputs">
    /// The words of its inputs. A register, a wire and "last" have one: the word they hold. A second output (carry, borrow, carry
    /// word) has those of the unit that computes its input.
    /// </param>
    TWord Word(Value value, ReadOnlySpan<TWord> inputs);

    /// <summary>One bit.</summary>
    TWord Bit(bool isOne);

    /// <summary>Both of two bits.</summary>
    TWord Both(TWord a, TWord b);

    /// <summary>A bit turned over.</summary>
    TWord Not(TWord bit);

    /// <summary>One bit: whether a word matches one of the patterns of an arm. "else" matches every word.</summary>
    TWord Matches(Value subject, TWord word, ArmPatterns arm);

    /// <summary>Whether a bit is known to be 1 or 0; null where a word stands for many numbers.</summary>
    bool? IsOne(TWord bit);

    /// <summary>
    /// A word when the bit is 1, else another of the same width. <paramref name="question"/> is what was asked; null where it is
    /// whether a cycle takes place.
    /// </summary>
    TWord Chosen(Value? question, TWord bit, TWord then, TWord otherwise);

    /// <summary>What the bits of a word from <paramref name="low"/> up put into a place leave in its register.</summary>
    TWord Stored(TWord register, Place place, TWord word, int low);

    /// <summary>The word of a register, by its index, as a new cycle finds it.</summary>
    TWord Latched(int register, TWord word);
}
