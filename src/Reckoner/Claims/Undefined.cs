using Reckoner.Diagnostics;

namespace Reckoner.Claims;

/// <summary>A part of a formula that has no value for some numbers.</summary>
/// <param name="Why">What would be said of it in a description: that it divides by zero, say.</param>
internal sealed record Undefined(Id Why, Term Part);
