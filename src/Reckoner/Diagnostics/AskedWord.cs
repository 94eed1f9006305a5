namespace Reckoner.Diagnostics;

/// <summary>
/// What each front has a name of its own for: an option, a field, a verb. It stands in a diagnostic as a fact, like
/// <see cref="Advice"/>; where no front names it, <see cref="Words.Vocabulary"/> says it in words that fit everywhere.
/// </summary>
internal enum AskedWord
{
    Width,

    /// <summary>The first cycle that is shown.</summary>
    From,

    /// <summary>The last cycle that is shown.</summary>
    To,

    /// <summary>That operands are walked that the machine is not for.</summary>
    Anyway,

    /// <summary>The question whether laws hold.</summary>
    Check,

    /// <summary>The question whether laws hold for every operand at every width.</summary>
    Prove,
}

internal static class AskedWords
{
    /// <summary>The key of the words that fit every front.</summary>
    public static string Key(this AskedWord word) =>
        word switch
        {
            AskedWord.Width => "asked.width",
            AskedWord.From => "asked.from",
            AskedWord.To => "asked.to",
            AskedWord.Anyway => "asked.anyway",
            AskedWord.Check => "asked.check",
            AskedWord.Prove => "asked.prove",
        };
}
