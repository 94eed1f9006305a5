using System.Numerics;
using Reckoner.Datapaths;
using Reckoner.Notation;

namespace Reckoner.Running;

/// <summary>
/// One thing that happens in a moment, as data with its line in <see cref="Source"/>. Reporting makes sentences of it from the
/// description's spoken names and the message table.
/// </summary>
public abstract partial record Happening(Source Source, int Line)
{
    /// <summary>Whether it is a reason (what was looked at) rather than an effect (what changed or stayed).</summary>
    public abstract bool IsReason { get; }

    /// <summary>
    /// Whether an effect follows from what is told beside it: it stands in a branch, or its value comes from something that was
    /// looked at or worked out. Other effects come about in any case.
    /// </summary>
    public bool Follows { get; init; }

    /// <summary>The value of one word that a unit's work gives; null where nothing is computed.</summary>
    public Value? Gives =>
        Match(
            summed: h => h.Value,
            multiplied: h => h.Value,
            carrySaved: _ => null,
            lookedUp: _ => null,
            said: _ => null,
            tested: _ => null,
            shifted: _ => null,
            became: _ => null,
            stayed: _ => (Value?)null,
            remarked: _ => null
        );

    /// <summary>The places that are given bits, be they those they had.</summary>
    public IReadOnlyList<Place> Written =>
        Match<IReadOnlyList<Place>>(
            summed: _ => [],
            multiplied: _ => [],
            carrySaved: _ => [],
            lookedUp: _ => [],
            said: _ => [],
            tested: _ => [],
            shifted: h => h.Places,
            became: h => h.Places,
            stayed: _ => [],
            remarked: _ => []
        );
}

/// <summary>
/// An adder's work: two words of one width, the sum or difference kept to that width, and the carry or borrow it gives.
/// A negation is 0 - b. <paramref name="Carry"/> tells whether the description names the carry or borrow.
/// </summary>
public sealed record Summed(
    Source Source,
    int Line,
    Value Value,
    BigInteger Left,
    BigInteger Right,
    BigInteger Bits,
    Wire? Name,
    Wire? Carry
) : Happening(Source, Line)
{
    public override HappeningKind Kind => HappeningKind.Summed;

    public override bool IsReason => true;

    public int Width => Value.Width;

    public bool Subtracts => Value.Operation != Operation.Add;

    /// <summary>The carry of the sum, or the borrow of the difference: 1 when the right word is larger, both read unsigned.</summary>
    public bool GivesCarry => Subtracts ? Left < Right : !((Left + Right) >> Width).IsZero;

    /// <summary>The exact sum or difference of the words by their reading.</summary>
    public BigInteger Exact
    {
        get
        {
            var (a, b) =
                Value.Reading == Reading.Signed
                    ? (Numbers.Bits.AsSigned(Left, Width), Numbers.Bits.AsSigned(Right, Width))
                    : (Left, Right);
            return Subtracts ? a - b : a + b;
        }
    }

    /// <summary>What the adder is fed with on its right side when it subtracts by adding: the complement, and a carry in of 1.</summary>
    public BigInteger Complement => Numbers.Bits.Mask(Width) ^ Right;
}

/// <summary>A multiplier's work, each side by its own width and reading.</summary>
public sealed record Multiplied(
    Source Source,
    int Line,
    Value Value,
    BigInteger Left,
    BigInteger Right,
    BigInteger Bits,
    Wire? Name
) : Happening(Source, Line)
{
    public override HappeningKind Kind => HappeningKind.Multiplied;

    public override bool IsReason => true;
}

/// <summary>A row of full adders: three words of one width, their sum and carry words.</summary>
public sealed record CarrySaved(
    Source Source,
    int Line,
    Value Value,
    IReadOnlyList<BigInteger> Words,
    BigInteger Sum,
    BigInteger Carry
) : Happening(Source, Line)
{
    public override HappeningKind Kind => HappeningKind.CarrySaved;

    public override bool IsReason => true;
}

/// <summary>What a table gave for its indices (numbers, by their signs).</summary>
public sealed record LookedUp(Source Source, int Line, Value Value, IReadOnlyList<BigInteger> Indices, BigInteger Bits)
    : Happening(Source, Line)
{
    public override HappeningKind Kind => HappeningKind.LookedUp;

    public override bool IsReason => true;
}

/// <summary>A named value that says something about itself.</summary>
public sealed record Said(Source Source, int Line, Wire Wire, BigInteger Bits) : Happening(Source, Line)
{
    /// <summary>What the gates behind it did; null where there are none.</summary>
    public GateWork? Gates { get; init; }

    /// <summary>The words for this outcome, {} standing for the number; null where the description has none.</summary>
    public Phrase? Phrase => Wire.Says!.When(isOne: Wire.Value.Width > 1 || Bits.IsOne);

    public override HappeningKind Kind => HappeningKind.Said;

    public override bool IsReason => true;
}

/// <summary>A value that was looked at to decide: a condition of one bit, or the subject of a case.</summary>
/// <param name="Sides">For a comparison the two words compared; else empty.</param>
public sealed record Tested(
    Source Source,
    int Line,
    Value Value,
    BigInteger Bits,
    bool IsCondition,
    IReadOnlyList<BigInteger> Sides
) : Happening(Source, Line)
{
    /// <summary>What the gates behind it did; null where there are none.</summary>
    public GateWork? Gates { get; init; }

    /// <summary>What the description says of this outcome.</summary>
    public Phrase? Phrase { get; init; }

    /// <summary>Whether the description says anything of what is decided here, be it of another outcome.</summary>
    public bool IsSpoken { get; init; }

    /// <summary>Whether what is looked at has been told by then: a wire with words of its own, a carry or borrow with its sum.</summary>
    public bool IsTold { get; init; }

    /// <summary>Whether this is the last round, where that is all that is asked; else null.</summary>
    public bool? IsLast
    {
        get
        {
            var (inner, isSo) = (Value, Bits.IsOne);
            while (inner.Operation == Operation.Not)
            {
                (inner, isSo) = (inner.Inputs[0], !isSo);
            }
            return inner.Operation == Operation.Last ? isSo : null;
        }
    }

    /// <summary>Which way it falls, from 0: of a condition 0 when it is so, of a case the arm's number.</summary>
    public int Way { get; init; }

    public override HappeningKind Kind => HappeningKind.Tested;

    public override bool IsReason => true;
}

/// <summary>Places moved by the width of what enters them.</summary>
public sealed record Shifted(
    Source Source,
    int Line,
    IReadOnlyList<Place> Places,
    bool Left,
    BigInteger Entering,
    Value Enters
) : Happening(Source, Line)
{
    public int EnteringWidth => Enters.Width;

    public override HappeningKind Kind => HappeningKind.Shifted;

    public override bool IsReason => false;
}

/// <summary>Places given new bits.</summary>
public sealed record Became(Source Source, int Line, IReadOnlyList<Place> Places, Value Value, BigInteger Bits)
    : Happening(Source, Line)
{
    /// <summary>What the gates did that the value comes from; null where it comes from elsewhere.</summary>
    public GateWork? Gates { get; init; }

    public override HappeningKind Kind => HappeningKind.Became;

    public override bool IsReason => false;

    public int Width => Places.Sum(p => p.Width);
}

/// <summary>Places that a branch not taken would have written.</summary>
public sealed record Stayed(Source Source, int Line, Place Place) : Happening(Source, Line)
{
    public override HappeningKind Kind => HappeningKind.Stayed;

    public override bool IsReason => false;
}

/// <summary>A note of the description at this place.</summary>
public sealed record Remarked(Source Source, int Line, Phrase Text) : Happening(Source, Line)
{
    public override HappeningKind Kind => HappeningKind.Remarked;

    public override bool IsReason => false;
}
