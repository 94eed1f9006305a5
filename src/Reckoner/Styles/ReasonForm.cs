namespace Reckoner.Styles;

/// <summary>How much is said beside the rows of a walk.</summary>
public enum ReasonForm
{
    /// <summary>One clause that tells the news of a row: what was decided, in the description's words where it has some.</summary>
    Short,

    /// <summary>Everything that was looked at and that happened, moment by moment.</summary>
    Full,
}
