using System.Numerics;

namespace Reckoner.Choosing;

/// <summary>What may be done where operands of equal difficulty are short. Nothing is, unless it is allowed.</summary>
/// <param name="Repeats">Operands come again, each as often as the others or once more.</param>
/// <param name="Neighbours">What is missing is taken from the classes that differ least.</param>
/// <param name="Shortcuts">Operands that have these are not left out.</param>
public sealed record EqualAllowed(bool Repeats, bool Neighbours, IReadOnlyCollection<Shortcut> Shortcuts)
{
    public static EqualAllowed Nothing { get; } = new(false, false, []);
}

/// <summary>What was asked for: so many, and whether others than in a first draw.</summary>
internal sealed record EqualAsked(int Count, bool Again, EqualAllowed Allowed);

/// <summary>Operands of equal difficulty that were drawn.</summary>
/// <param name="Class">The class they are drawn from; null where every operand has a shortcut.</param>
/// <param name="Left">How many it has that may be drawn; fewer than its size where others had been drawn before.</param>
/// <param name="Drawn">None where there are too few.</param>
/// <param name="Neighbours">The classes that helped out, the nearest first, and how many were taken from each.</param>
public sealed record EqualDraw(
    EqualClass? Class,
    int Left,
    IReadOnlyList<ChosenOperands> Drawn,
    IReadOnlyList<(EqualClass Class, int Taken)> Neighbours
)
{
    /// <summary>What was not looked at in drawing; null where none were drawn.</summary>
    public UnusedMeasures? Unused { get; init; }
}

/// <summary>Ways on where no class has as many operands as are asked for.</summary>
/// <param name="Wider">A width at which one has, and how many.</param>
/// <param name="Neighbour">The class that differs least from the largest.</param>
/// <param name="WithShortcuts">How many the largest class has if all shortcuts are allowed; null if that is not more.</param>
public sealed record EqualWays(
    (IReadOnlyList<(string Name, BigInteger Value)> Widths, int Size)? Wider,
    EqualClass? Neighbour,
    int? WithShortcuts
);
