using Markdig.Syntax;
using Reckoner.Choosing;
using Reckoner.Running;

namespace Reckoner.Documents.Lessons;

/// <summary>What a question wants of somebody.</summary>
internal enum QuestionTask
{
    /// <summary>A walk, a sum by hand or another table is filled in.</summary>
    Fill,

    /// <summary>Numbers are said.</summary>
    Say,

    /// <summary>The first wrong row of a walk with a slip is found.</summary>
    Find,

    /// <summary>Which slip gave these results.</summary>
    Which,

    /// <summary>Operands are chosen that show something.</summary>
    Choose,

    /// <summary>The wrong line of a description is put right.</summary>
    Mend,

    /// <summary>A figure is completed.</summary>
    Complete,
}

/// <summary>How what is decided in a cycle is to be said.</summary>
internal enum AskedDecisions
{
    /// <summary>The way in which it falls is ringed.</summary>
    Ringed,

    /// <summary>The digit is written that was looked at.</summary>
    Digits,

    /// <summary>Not at all.</summary>
    None,
}

/// <summary>A fenced block named question.</summary>
/// <param name="Number">From 1, in the order of the text.</param>
/// <param name="Names">The values that are to be said.</param>
/// <param name="Request">What it is about, in the words of a request.</param>
internal sealed record LessonQuestion(
    FencedCodeBlock Node,
    int Number,
    QuestionTask Task,
    Span Line,
    IReadOnlyList<RequestWord> Names,
    IReadOnlyList<RequestWord> Request,
    QuestionTerms Terms
)
{
    /// <summary>The word that gives each sheet operands of its own; null where all have the same.</summary>
    public RequestWord? Drawn { get; init; }
}

/// <summary>What the further lines of a question say.</summary>
internal sealed record QuestionTerms
{
    /// <summary>What it is worth, in halves; null where nothing is said.</summary>
    public decimal? Marks { get; init; }

    /// <summary>The lines themselves.</summary>
    public IReadOnlyList<RequestWord> Said { get; init; } = [];

    /// <summary>The cycles whose rows are printed.</summary>
    public IReadOnlyList<int> GivenRows { get; init; } = [];

    /// <summary>The columns that are printed.</summary>
    public IReadOnlyList<RequestWord> GivenColumns { get; init; } = [];

    /// <summary>The first cycle that is to be filled in; those before it are printed.</summary>
    public int From { get; init; }

    /// <summary>Empty lines to write on.</summary>
    public int Room { get; init; }

    /// <summary>Whether there is no room for reasons between the rows.</summary>
    public bool WithoutReasons { get; init; }

    /// <summary>A condition that drawn operands show; null for none.</summary>
    public RequestWord? Showing { get; init; }

    /// <summary>What may be done where there are too few operands to draw.</summary>
    public EqualAllowed Allowed { get; init; } = EqualAllowed.Nothing;

    /// <summary>Rows below the last of a walk, so that whoever fills it in has to say where it ends.</summary>
    public int Spare { get; init; }

    /// <summary>How what is decided in a cycle is to be said.</summary>
    public AskedDecisions Decisions { get; init; }

    /// <summary>Whether what each cycle does is not told.</summary>
    public bool WithoutRule { get; init; }

    /// <summary>Whether registers that no cycle writes are printed in every row.</summary>
    public bool PrintsConstants { get; init; }
}
