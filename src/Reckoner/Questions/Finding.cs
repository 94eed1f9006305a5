using Reckoner.Diagnostics;

namespace Reckoner.Questions;

/// <summary>What a question consists of, so that whoever put it can mark what is wrong.</summary>
public enum AskedPart
{
    /// <summary>The question as a whole: something is missing, or nothing particular is to blame.</summary>
    Whole,

    /// <summary>The description of a machine; the diagnostic has the place in its text.</summary>
    Description,

    /// <summary>A machine, by its place among those asked about.</summary>
    Machine,

    /// <summary>The slip that is asked for of a machine.</summary>
    Slip,

    Widths,

    /// <summary>All operands together.</summary>
    Operands,

    /// <summary>One operand, by its place among those that were given.</summary>
    Operand,

    /// <summary>Which part of all operands is to be covered.</summary>
    Part,

    /// <summary>What an earlier run left, from which this one is to go on.</summary>
    Resume,

    /// <summary>The piece that hardware text is to leave out.</summary>
    LeftOut,

    /// <summary>The formula of the operands that are asked about; the diagnostic's place is one in its text.</summary>
    Only,

    /// <summary>The condition on chosen operands; the diagnostic's place is one in its text.</summary>
    Showing,

    /// <summary>The slip that chosen operands are to expose.</summary>
    Exposing,

    /// <summary>What is to hold in every round; where it is proposed, the diagnostic's place is one in its text.</summary>
    Invariant,

    /// <summary>What somebody got.</summary>
    Got,

    /// <summary>The table that somebody made.</summary>
    Table,

    View,

    /// <summary>The one cycle that is drawn, or the first or last of a stretch.</summary>
    Cycle,
    From,
    To,

    /// <summary>Which adders stand where.</summary>
    Adders,

    /// <summary>The clock that is to be met.</summary>
    Clock,

    /// <summary>The house style; the diagnostic has the place in its text.</summary>
    Style,
}

/// <summary>Something that was found wrong or remarkable when a question was to be answered.</summary>
/// <param name="Diagnostic">Without a source where it is about the question itself: that has no text of its own.</param>
/// <param name="Index">Which of several, from 0.</param>
public sealed record Finding(Diagnostic Diagnostic, AskedPart Part, int Index = 0);
