using Reckoner.Claims;

namespace Reckoner.Conditions;

/// <summary>
/// Something that the walk of operands shows or does not show: what <c>operands --showing</c> reads and what is said behind "exactly
/// when". Its text (<see cref="ConditionText"/>) is read back as the same tree.
/// </summary>
public abstract record Condition
{
    private protected Condition() { }

    internal abstract T Accept<T>(IConditionVisitor<T> visitor);

    /// <summary>The canonical text.</summary>
    public sealed override string ToString() => ConditionText.Of(this);
}

/// <summary>What is done with a condition, kind by kind: a kind added later is missing in every implementation.</summary>
internal interface IConditionVisitor<out T>
{
    T Of(Always condition);
    T Of(Combined condition);
    T Of(NotSo condition);
    T Of(IsTrue condition);
    T Of(HasParity condition);
    T Of(HasDigits condition);
    T Of(Happens condition);
    T Of(HappensTimes condition);
    T Of(HappensAlways condition);
    T Of(HappensAtEnd condition);
    T Of(HappensInCycle condition);
    T Of(HappensInLastCycle condition);
    T Of(HappensAfter condition);
    T Of(GoesBothWays condition);
    T Of(EveryOutcome condition);
    T Of(TakesCycles condition);
    T Of(NoTwoAlike condition);
    T Of(SlipShows condition);
}

/// <summary>All operands show it.</summary>
public sealed record Always : Condition
{
    internal override T Accept<T>(IConditionVisitor<T> visitor) => visitor.Of(this);
}

public enum Joint
{
    And,
    Or,
}

/// <summary>Two conditions or more, all of which or one of which must be so.</summary>
public sealed record Combined(Joint Joint, IReadOnlyList<Condition> Parts) : Condition
{
    public bool Equals(Combined? other) =>
        other is not null && Joint == other.Joint && Parts.SequenceEqual(other.Parts);

    public override int GetHashCode() => HashCode.Combine(Joint, Parts.Count, Parts[0]);

    internal override T Accept<T>(IConditionVisitor<T> visitor) => visitor.Of(this);
}

public sealed record NotSo(Condition Inner) : Condition
{
    internal override T Accept<T>(IConditionVisitor<T> visitor) => visitor.Of(this);
}

/// <summary>A formula over operands and results; where it has no value it is not so.</summary>
public sealed record IsTrue(Truth Formula) : Condition
{
    public bool Equals(IsTrue? other) => other is not null && $"{Formula}" == $"{other.Formula}";

    public override int GetHashCode() => $"{Formula}".GetHashCode(StringComparison.Ordinal);

    internal override T Accept<T>(IConditionVisitor<T> visitor) => visitor.Of(this);
}

public enum Parity
{
    Even,
    Odd,
}

/// <summary>A whole number that is odd or even; a fraction is neither.</summary>
public sealed record HasParity(Term Number, Parity Parity) : Condition
{
    public bool Equals(HasParity? other) =>
        other is not null && Parity == other.Parity && $"{Number}" == $"{other.Number}";

    public override int GetHashCode() => HashCode.Combine($"{Number}", Parity);

    internal override T Accept<T>(IConditionVisitor<T> visitor) => visitor.Of(this);
}

/// <summary>Whose digits are counted.</summary>
public enum Whose
{
    /// <summary>Those of one operand or result.</summary>
    Named,
    Operands,
    Results,
}

/// <summary>So many decimal digits, the sign not counted.</summary>
/// <param name="Name">Of the operand or result; empty where all are meant, each of which must have so many.</param>
public sealed record HasDigits(Whose Whose, string Name, Amount Digits) : Condition
{
    internal override T Accept<T>(IConditionVisitor<T> visitor) => visitor.Of(this);
}

/// <summary>It comes about in some cycle.</summary>
public sealed record Happens(Occasion What) : Condition
{
    internal override T Accept<T>(IConditionVisitor<T> visitor) => visitor.Of(this);
}

/// <summary>It comes about in so many cycles.</summary>
public sealed record HappensTimes(Occasion What, Amount Times) : Condition
{
    internal override T Accept<T>(IConditionVisitor<T> visitor) => visitor.Of(this);
}

/// <summary>Whenever it is decided, and it is at least once.</summary>
public sealed record HappensAlways(Occasion What) : Condition
{
    internal override T Accept<T>(IConditionVisitor<T> visitor) => visitor.Of(this);
}

public enum End
{
    First,
    Last,
}

/// <summary>The first or the last time that it is decided, so that a loop that stops early ends with its last round.</summary>
public sealed record HappensAtEnd(Occasion What, End End) : Condition
{
    internal override T Accept<T>(IConditionVisitor<T> visitor) => visitor.Of(this);
}

/// <summary>In a cycle as the walk counts them: cycles that do not take place have no number.</summary>
public sealed record HappensInCycle(Occasion What, Count Cycle) : Condition
{
    internal override T Accept<T>(IConditionVisitor<T> visitor) => visitor.Of(this);
}

public sealed record HappensInLastCycle(Occasion What) : Condition
{
    internal override T Accept<T>(IConditionVisitor<T> visitor) => visitor.Of(this);
}

/// <summary>The next time that the one is decided after the other has come about.</summary>
public sealed record HappensAfter(Occasion What, Occasion Before) : Condition
{
    internal override T Accept<T>(IConditionVisitor<T> visitor) => visitor.Of(this);
}

/// <summary>It comes about in some cycle, and its opposite in another.</summary>
public sealed record GoesBothWays(Occasion What) : Condition
{
    internal override T Accept<T>(IConditionVisitor<T> visitor) => visitor.Of(this);
}

/// <summary>Every outcome of every decision that some operands bring about.</summary>
public sealed record EveryOutcome : Condition
{
    internal override T Accept<T>(IConditionVisitor<T> visitor) => visitor.Of(this);
}

/// <summary>So many clock edges after the load.</summary>
public sealed record TakesCycles(Amount Cycles) : Condition
{
    internal override T Accept<T>(IConditionVisitor<T> visitor) => visitor.Of(this);
}

/// <summary>After no two clock edges, the load among them, do all registers hold the same.</summary>
public sealed record NoTwoAlike : Condition
{
    internal override T Accept<T>(IConditionVisitor<T> visitor) => visitor.Of(this);
}

/// <summary>The machine with a slip gives other results.</summary>
public sealed record SlipShows(string Slip) : Condition
{
    internal override T Accept<T>(IConditionVisitor<T> visitor) => visitor.Of(this);
}
