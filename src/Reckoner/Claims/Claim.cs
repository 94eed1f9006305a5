namespace Reckoner.Claims;

/// <summary>The word a claim begins with. What "follows" claims is about two machines and no formula.</summary>
public enum ClaimSection
{
    /// <summary>What operands must satisfy.</summary>
    Given,

    /// <summary>What holds for operands inside "given".</summary>
    Law,

    /// <summary>What holds for all others.</summary>
    Outside,
}

public enum ClaimMode
{
    /// <summary>The formula holds.</summary>
    Always,

    /// <summary>The formula holds where the condition does.</summary>
    When,

    /// <summary>The formula holds where the condition does, and nowhere else.</summary>
    ExactlyWhen,
}

/// <summary>What a description claims of operands and results.</summary>
/// <param name="Condition">Null for "always".</param>
/// <param name="Place">Where its line begins and ends in the text of the machine.</param>
public sealed record Claim(ClaimSection Section, ClaimMode Mode, Truth Formula, Truth? Condition, Span Place)
{
    /// <summary>The canonical text without its first word.</summary>
    public string Text { get; } = FormulaText.Of(Mode, Formula, Condition);
}
