namespace Reckoner.Verifier;

/// <summary>Why a certificate is not believed.</summary>
public enum Refusal
{
    /// <summary>It cannot be read.</summary>
    Unreadable,

    /// <summary>It is of a form that this verifier does not know.</summary>
    OtherForm,

    /// <summary>It belongs to another description.</summary>
    OtherDescription,

    /// <summary>It or something in it is longer than is looked at.</summary>
    TooLong,

    /// <summary>The description has something that this verifier has no numbers for.</summary>
    NotKnown,

    /// <summary>The cases of the certificate are not those of the description.</summary>
    CasesDiffer,

    /// <summary>A sum is not -1, or is of something that is not known.</summary>
    WrongSum,

    /// <summary>A goal was not scaled to a whole number.</summary>
    NotWhole,

    /// <summary>The pieces of a register do not fit together.</summary>
    WrongPieces,
}

internal sealed class RefusedException(Refusal refusal, string what) : Exception(refusal.ToString())
{
    public Refusal Refusal { get; } = refusal;
    public string What { get; } = what;
}
