using Reckoner.Notation;

namespace Reckoner.Refining;

/// <summary>A transfer that moves registers by some places: what they are, where to, what enters.</summary>
internal sealed record Shift(IReadOnlyList<string> Registers, bool IsLeft, Expression Enters)
{
    /// <summary>Null for any other transfer.</summary>
    public static Shift? Of(Statement statement)
    {
        if (
            statement is not TransferLine transfer
            || Make.Bare(transfer.Value)
                is not Call { Function: "shl" or "shr", Arguments: [var moved, var enters] } call
        )
        {
            return null;
        }
        IReadOnlyList<Expression> parts = moved is Joined joined ? joined.Parts : [moved];
        return
            parts.All(p => p is NameReference)
            && parts.Select(p => p.ToString()).SequenceEqual(transfer.Targets.Select(t => t.ToString()))
            ? new Shift([.. parts.Select(p => ((NameReference)p).Name)], call.Function == "shl", enters)
            : null;
    }

    /// <summary>By how many places; what enters is a word of digits or one bit.</summary>
    public int Distance => Make.Bare(Enters) is BitsLiteral bits ? bits.Digits.Length : 1;

    /// <summary>Whether it is a shift of this register alone.</summary>
    public bool IsOf(string register) => Registers is [var only] && only == register;

    public string Function => IsLeft ? "shl" : "shr";
}
