namespace Reckoner.Claims;

/// <summary>What a sum or an "every" runs over, as it is written: its text is that of one formula, not of all.</summary>
/// <param name="Index">The name that stands for each number in turn.</param>
/// <param name="Pattern">The formula with the index in it.</param>
public sealed record IndexRange<T>(string Index, Term Low, Term High, T Pattern)
    where T : Formula;
